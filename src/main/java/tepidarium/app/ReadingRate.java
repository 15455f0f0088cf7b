package tepidarium.app;

import java.time.Duration;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.function.LongSupplier;

/**
 * Measures how many readings came within the last minute, from regular samples of their count.
 * Thread-safe.
 */
final class ReadingRate {
  private static final long MINUTE_NANOS = Duration.ofMinutes(1).toNanos();

  private record Sample(long nanos, long count) {}

  private final LongSupplier nanos;
  private final Deque<Sample> samples = new ArrayDeque<>();

  ReadingRate(LongSupplier nanos) {
    this.nanos = nanos;
  }

  synchronized void sample(long count) {
    long now = nanos.getAsLong();
    samples.addLast(new Sample(now, count));
    while (samples.size() > 2 && now - samples.getFirst().nanos() > MINUTE_NANOS) {
      samples.removeFirst();
    }
  }

  /** Readings a minute; 0 before the second sample. */
  synchronized double perMinute() {
    if (samples.size() < 2) {
      return 0;
    }
    Sample first = samples.getFirst();
    Sample last = samples.getLast();
    long took = last.nanos() - first.nanos();
    return took <= 0 ? 0 : (last.count() - first.count()) * (double) MINUTE_NANOS / took;
  }
}
