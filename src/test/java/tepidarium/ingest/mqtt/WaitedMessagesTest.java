package tepidarium.ingest.mqtt;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Instant;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class WaitedMessagesTest {
  private static final Instant START = Instant.parse("2026-03-01T06:00:00Z");

  private final WaitedMessages waited = new WaitedMessages();

  private static Instant at(double seconds) {
    return START.plusMillis(Math.round(seconds * 1000));
  }

  private void connect(double seconds, boolean sessionPresent) {
    waited.connecting(at(seconds));
    waited.connected(sessionPresent);
  }

  private boolean message(double seconds) {
    boolean answer = waited.waited(at(seconds));
    waited.handled(at(seconds), at(seconds));
    return answer;
  }

  @Test
  void afterAStartWithASessionAllUpToTheMarkerHasWaited() {
    connect(0, true);
    assertTrue(waited.needsMarker());
    waited.sent("m2");
    assertFalse(waited.needsMarker());

    for (int i = 0; i < 100; i++) {
      assertTrue(message(i));
    }
    waited.returned("m1");
    assertTrue(message(100));
    waited.returned("m2");
    assertFalse(message(100));
  }

  @Test
  void withoutASessionNothingHasWaited() {
    connect(0, false);
    assertFalse(waited.needsMarker());
    assertFalse(message(0));
  }

  @Test
  void whatComesBeforeTheAnswerOfTheBrokerHasWaited() {
    waited.connecting(at(0));
    assertTrue(message(0));
    waited.connected(true);
    assertTrue(message(0));
  }

  @Test
  void withoutTheMarkerAPauseEndsWhatHasWaited() {
    connect(0, true);
    waited.sent("m");
    assertTrue(message(9));
    assertTrue(message(18));
    assertFalse(message(29));
    assertFalse(message(29));
  }

  @ParameterizedTest
  @CsvSource({"30, false", "31, true", "-5, true"})
  void anOutageOfHalfAMinuteMakesNoTimeUncertain(double seconds, boolean uncertain) {
    connect(0, false);
    waited.lost(at(1_000));
    waited.lost(at(1_200));
    waited.connecting(at(1_000 + seconds));
    assertEquals(uncertain, message(1_000 + seconds));
    waited.connected(true);
    assertEquals(uncertain, waited.needsMarker());
    assertEquals(uncertain, message(1_000 + seconds));
  }

  @Test
  void attemptsThatFailMakeNoOutageShorter() {
    connect(0, false);
    waited.lost(at(100));
    waited.connecting(at(110));
    waited.lost(at(111));
    connect(140, true);

    assertTrue(message(140));
  }

  @Test
  void whileAStoreThatWasAwayHeldAMessageUpTheNextOnesWaited() {
    connect(0, false);
    assertFalse(waited.waited(at(10)));
    waited.handled(at(10), at(50));

    assertTrue(waited.needsMarker());
    waited.sent("m");
    assertTrue(message(50));
    waited.returned("m");
    assertFalse(message(50));
  }
}
