package tepidarium.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;

import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import tepidarium.reading.Arrival;
import tepidarium.reading.Quantity;
import tepidarium.reading.Reading;
import tepidarium.reading.SensorId;

class ClockTrustTest {
  private static final Instant SEEN = Instant.parse("2026-03-01T06:00:00Z");

  private static Reading reading(Instant at, @Nullable Arrival arrival) {
    return new Reading(new SensorId("jar"), at, Map.of(Quantity.TEMPERATURE, 30.0), arrival);
  }

  @ParameterizedTest
  @CsvSource({"PT24H, true", "PT24H1S, false", "PT-24H, true", "PT-24H-1S, false", "P400D, false"})
  void aDayEachWayIsTrusted(Duration away, boolean trusted) {
    ClockTrust trust = new ClockTrust(SEEN);
    trust.check(SEEN.plus(away));
    assertEquals(trusted, trust.problem() == null);
    assertEquals(trusted ? SEEN.plus(away) : SEEN, trust.lastTrusted());
  }

  @Test
  void theFirstStartIsTrusted() {
    ClockTrust trust = new ClockTrust(null);
    trust.check(SEEN);
    assertNull(trust.problem());
    assertEquals(SEEN, trust.lastTrusted());
  }

  @Test
  void onlyAReadingWithItsOwnTimeThatAgreesEndsTheDoubt() {
    ClockTrust trust = new ClockTrust(SEEN);
    Instant now = SEEN.plus(Duration.ofDays(3));
    trust.check(now);
    trust.confirmBy(List.of(reading(now, new Arrival(1, false, false))), now);
    trust.confirmBy(List.of(reading(now.minusSeconds(301), null)), now);
    trust.check(now);
    assertNotNull(trust.problem());

    trust.confirmBy(List.of(reading(now.minusSeconds(300), null)), now);
    trust.check(now.plusSeconds(5));
    assertNull(trust.problem());
  }

  @Test
  void aClockThatComesBackEndsTheDoubt() {
    ClockTrust trust = new ClockTrust(SEEN);
    trust.check(SEEN.plus(Duration.ofDays(400)));
    trust.check(SEEN.plus(Duration.ofHours(2)));
    assertNull(trust.problem());
  }

  @Test
  void aPersonCanEndTheDoubt() {
    ClockTrust trust = new ClockTrust(SEEN);
    Instant now = SEEN.plus(Duration.ofDays(30));
    trust.confirm(now);
    trust.check(now.plusSeconds(5));
    assertNull(trust.problem());
  }
}
