package tepidarium.retry;

import java.time.Duration;

/**
 * Computes the delay before a retry: exponential backoff, doubling from the first delay up to a
 * maximum.
 *
 * @param first delay after the first failure, at least 1 ms
 * @param max longest delay, at least the first
 */
public record Backoff(Duration first, Duration max) {
  private static final int MAX_DOUBLINGS = 30;

  public Backoff {
    if (first.toMillis() < 1 || max.compareTo(first) < 0) {
      throw new IllegalArgumentException("the first delay must be 1 ms to the longest delay");
    }
  }

  /**
   * Returns the delay before the next attempt.
   *
   * @param failures number of failures in a row, at least 1
   */
  public Duration delay(int failures) {
    Duration delay = first.multipliedBy(1L << Math.min(failures - 1, MAX_DOUBLINGS));
    return delay.compareTo(max) < 0 ? delay : max;
  }
}
