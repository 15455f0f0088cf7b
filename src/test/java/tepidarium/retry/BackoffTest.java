package tepidarium.retry;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.time.Duration;
import org.junit.jupiter.api.Test;

class BackoffTest {
  @Test
  void delaysDoubleUpToTheMaximum() {
    Backoff backoff = new Backoff(Duration.ofSeconds(10), Duration.ofMinutes(15));
    assertEquals(Duration.ofSeconds(10), backoff.delay(1));
    assertEquals(Duration.ofSeconds(20), backoff.delay(2));
    assertEquals(Duration.ofSeconds(640), backoff.delay(7));
    assertEquals(Duration.ofMinutes(15), backoff.delay(8));
    assertEquals(Duration.ofMinutes(15), backoff.delay(500));
    assertEquals(Duration.ofMinutes(15), backoff.delay(Integer.MAX_VALUE));
  }

  @Test
  void aDelayOf0OrAMaximumBelowTheFirstIsRejected() {
    Duration second = Duration.ofSeconds(1);
    assertThrows(IllegalArgumentException.class, () -> new Backoff(Duration.ZERO, second));
    assertThrows(IllegalArgumentException.class, () -> new Backoff(second, Duration.ofMillis(999)));
  }
}
