package tepidarium.app;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.time.Duration;
import org.junit.jupiter.api.Test;

/** Readings a minute from samples of their count. */
class ReadingRateTest {
  private long nanos;
  private final ReadingRate rate = new ReadingRate(() -> nanos);

  private double after(int seconds, long count) {
    nanos += Duration.ofSeconds(seconds).toNanos();
    rate.sample(count);
    return rate.perMinute();
  }

  @Test
  void itCountsTheLastMinute() {
    assertEquals(0, after(0, 100));
    assertEquals(120, after(5, 110));
    for (int i = 0; i < 12; i++) {
      after(5, 110);
    }
    assertEquals(0, rate.perMinute());
  }
}
