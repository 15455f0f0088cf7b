package tepidarium.heat;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static tepidarium.reading.SampleRecords.HALF_HOUR;
import static tepidarium.reading.SampleRecords.minutes;
import static tepidarium.reading.SampleRecords.span;

import java.util.Optional;
import org.junit.jupiter.api.Test;
import tepidarium.reading.Samples;
import tepidarium.reading.Span;

/** Hand arithmetic on straight lines. */
class RecoveryTest {
  private static final Span OPENING = span(60, 70);

  private static Optional<Recovery> recovery(Samples samples) {
    return Recovery.of(samples, OPENING, HALF_HOUR);
  }

  @Test
  void aRecoveryEndsWithinHalfADegreeOfTheStart() {
    // From 28 at minute 70 to 30 at minute 90: 29.5 is reached at minute 85, a quarter hour later.
    Samples samples = minutes(0, 30, 30, 30, 60, 30, 70, 28, 90, 30, 120, 30);
    Recovery found = recovery(samples).orElseThrow();
    assertNotNull(found.minutes());
    assertEquals(15, found.minutes(), 1e-6);
    assertEquals(2, found.dropC(), 1e-9);
  }

  @Test
  void anOpeningWithoutCoolingHasNoRecovery() {
    Samples samples = minutes(0, 30, 30, 30, 60, 30, 70, 29.6, 90, 30, 120, 30);
    assertTrue(recovery(samples).isEmpty());
  }

  @Test
  void withoutTheHourBeforeNothingIsKnown() {
    assertTrue(recovery(minutes(61, 30, 70, 28, 90, 30)).isEmpty());
  }

  @Test
  void aGapHidesTheEndOfARecovery() {
    Samples samples = minutes(0, 30, 30, 30, 60, 30, 70, 28, 80, 28.5, 200, 30);
    Recovery found = recovery(samples).orElseThrow();
    assertNull(found.minutes());
  }

  @Test
  void aWarmReadingBeforeTheDropIsNoRecovery() {
    // Cools only after the opening: down to 28 at minute 80, back at 29.5 on the way to 90.
    Samples samples = minutes(0, 30, 30, 30, 60, 30, 70, 30, 80, 28, 90, 30, 100, 30);
    Recovery found = recovery(samples).orElseThrow();
    assertNotNull(found.minutes());
    assertEquals(17.5, found.minutes(), 1e-6);
  }
}
