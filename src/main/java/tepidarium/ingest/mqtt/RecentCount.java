package tepidarium.ingest.mqtt;

import java.time.Duration;
import java.util.ArrayDeque;
import java.util.Deque;

/** Counts events of the last hour in windows of a minute. Not thread-safe. */
final class RecentCount {
  private static final Duration WINDOW = Duration.ofMinutes(1);
  private static final Duration SHOWN = Duration.ofHours(1);

  /** Start of each window in nanoseconds, and the number of its events. */
  private final Deque<long[]> windows = new ArrayDeque<>();

  /**
   * Counts an event.
   *
   * @return whether it is the first within a minute, so that it should be logged
   */
  boolean add(long nanos) {
    long[] window = windows.peekLast();
    if (window != null && nanos - window[0] < WINDOW.toNanos()) {
      window[1]++;
      return false;
    }
    removeOld(nanos);
    windows.add(new long[] {nanos, 1});
    return true;
  }

  /** Number of events within the last hour. */
  long sum(long nanos) {
    removeOld(nanos);
    return windows.stream().mapToLong(window -> window[1]).sum();
  }

  private void removeOld(long nanos) {
    while (!windows.isEmpty() && nanos - windows.peek()[0] >= SHOWN.toNanos()) {
      windows.remove();
    }
  }
}
