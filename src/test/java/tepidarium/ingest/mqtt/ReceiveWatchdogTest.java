package tepidarium.ingest.mqtt;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertNull;

import java.time.Duration;
import java.util.function.UnaryOperator;
import org.junit.jupiter.api.Test;

class ReceiveWatchdogTest {
  private static final Duration STUCK_AFTER = Duration.ofMillis(300);

  private final ReceiveWatchdog watchdog =
      new ReceiveWatchdog(
          new MqttLink.Limits(1_000, STUCK_AFTER), () -> 0, UnaryOperator.identity());

  /** The notice that says so comes back from the broker, and must not end the trouble. */
  @Test
  void unstoredMessagesDoNotHideThatTheStoreAcceptsNone() {
    watchdog.arrived("tepidarium/bag");
    assertNull(watchdog.whyNotStored());
    await()
        .pollInterval(Duration.ofMillis(50))
        .atMost(Duration.ofSeconds(5))
        .until(
            () -> {
              watchdog.arrived("tepidarium/notice/begin/high");
              watchdog.acknowledgedUnstored();
              return watchdog.whyNotStored() != null;
            });
    watchdog.stored();
    assertNull(watchdog.whyNotStored());
  }
}
