package tepidarium.ingest.mqtt;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Instant;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class BrokerBacklogTest {
  private static final Instant START = Instant.parse("2026-03-01T06:00:00Z");

  private final BrokerBacklog backlog = new BrokerBacklog();

  private static Instant at(double seconds) {
    return START.plusMillis(Math.round(seconds * 1000));
  }

  private void connect(double seconds, boolean sessionPresent) {
    backlog.connecting(at(seconds));
    backlog.connected(sessionPresent);
  }

  private boolean message(double seconds) {
    boolean answer = backlog.includes(at(seconds));
    backlog.handled(at(seconds), at(seconds));
    return answer;
  }

  @Test
  void afterAStartWithASessionAllUpToTheMarkerHasWaited() {
    connect(0, true);
    assertTrue(backlog.needsMarker());
    backlog.markerSent("m2");
    assertFalse(backlog.needsMarker());

    for (int i = 0; i < 100; i++) {
      assertTrue(message(i));
    }
    backlog.markerReturned("m1");
    assertTrue(message(100));
    backlog.markerReturned("m2");
    assertFalse(message(100));
  }

  @Test
  void withoutASessionNothingHasWaited() {
    connect(0, false);
    assertFalse(backlog.needsMarker());
    assertFalse(message(0));
  }

  @Test
  void messagesBeforeTheBrokersAnswerHaveWaited() {
    backlog.connecting(at(0));
    assertTrue(message(0));
    backlog.connected(true);
    assertTrue(message(0));
  }

  @Test
  void withoutTheMarkerAPauseEndsWhatHasWaited() {
    connect(0, true);
    backlog.markerSent("m");
    assertTrue(message(9));
    assertTrue(message(18));
    assertFalse(message(29));
    assertFalse(message(29));
  }

  @ParameterizedTest
  @CsvSource({"30, false", "31, true", "-5, true"})
  void anOutageOfHalfAMinuteMakesNoTimeUncertain(double seconds, boolean uncertain) {
    connect(0, false);
    backlog.lost(at(1_000));
    backlog.lost(at(1_200));
    backlog.connecting(at(1_000 + seconds));
    assertEquals(uncertain, message(1_000 + seconds));
    backlog.connected(true);
    assertEquals(uncertain, backlog.needsMarker());
    assertEquals(uncertain, message(1_000 + seconds));
  }

  @Test
  void failedAttemptsDoNotShortenAnOutage() {
    connect(0, false);
    backlog.lost(at(100));
    backlog.connecting(at(110));
    backlog.lost(at(111));
    connect(140, true);

    assertTrue(message(140));
  }

  @Test
  void messagesBehindOneBlockedByTheStoreCountAsWaited() {
    connect(0, false);
    assertFalse(backlog.includes(at(10)));
    backlog.handled(at(10), at(50));

    assertTrue(backlog.needsMarker());
    backlog.markerSent("m");
    assertTrue(message(50));
    backlog.markerReturned("m");
    assertFalse(message(50));
  }
}
