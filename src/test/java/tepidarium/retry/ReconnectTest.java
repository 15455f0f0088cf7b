package tepidarium.retry;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.io.IOException;
import java.time.Duration;
import java.util.concurrent.Callable;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.concurrent.atomic.AtomicLong;
import org.junit.jupiter.api.Test;
import tepidarium.series.StoreException;

class ReconnectTest {
  private final AtomicLong nanos = new AtomicLong(Long.MAX_VALUE - 10);
  private final Reconnect reconnect =
      new Reconnect("the store", e -> "the store failed: " + e.getMessage(), nanos::get);
  private final AtomicInteger attempts = new AtomicInteger();

  private String failure(Callable<String> attempt) {
    return assertThrows(
            StoreException.class,
            () ->
                reconnect.attempt(
                    () -> {
                      attempts.incrementAndGet();
                      return attempt.call();
                    }))
        .getMessage();
  }

  private static String away() throws IOException {
    throw new IOException("away");
  }

  private void pass(Duration time) {
    nanos.addAndGet(time.toNanos());
  }

  @Test
  void itFailsAtOnceWithTheLastWordsUntilItIsTimeForAnotherAttempt() {
    assertEquals("the store failed: away", failure(ReconnectTest::away));
    pass(Duration.ofMillis(249));
    assertEquals("the store failed: away", failure(ReconnectTest::away));
    assertEquals(1, attempts.get());
    pass(Duration.ofMillis(1));
    assertEquals("the store failed: away", failure(ReconnectTest::away));
    assertEquals(2, attempts.get());
    pass(Duration.ofMillis(499));
    assertEquals("the store failed: away", failure(ReconnectTest::away));
    assertEquals(2, attempts.get());
  }

  @Test
  void afterASuccessTheDelaysBeginAgain() {
    failure(ReconnectTest::away);
    pass(Duration.ofSeconds(5));
    assertEquals("open", reconnect.attempt(() -> "open"));
    failure(ReconnectTest::away);
    pass(Duration.ofMillis(250));
    assertEquals("open", reconnect.attempt(() -> "open"));
  }

  @Test
  void aStateThatIsWrongSpeaksForItself() {
    String words = "the store was written by a later version";
    assertEquals(
        words,
        failure(
            () -> {
              throw new IllegalStateException(words);
            }));
  }
}
