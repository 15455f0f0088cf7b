package tepidarium.series;

import java.time.Instant;

/**
 * The readings of one sensor that are kept, but whose time is uncertain.
 *
 * @param newest arrival of the newest one
 */
public record UncertainReadings(long count, Instant newest) {
  /** These and one more. */
  public UncertainReadings with(Instant arrival) {
    return new UncertainReadings(count + 1, arrival.isAfter(newest) ? arrival : newest);
  }
}
