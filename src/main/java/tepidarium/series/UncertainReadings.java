package tepidarium.series;

import java.time.Instant;

/**
 * Counts the stored readings of one sensor whose time is uncertain.
 *
 * @param newest arrival time of the newest one
 */
public record UncertainReadings(long count, Instant newest) {
  /** Returns the count with one more reading. */
  public UncertainReadings with(Instant arrival) {
    return new UncertainReadings(count + 1, arrival.isAfter(newest) ? arrival : newest);
  }
}
