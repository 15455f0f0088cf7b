package tepidarium.series;

import java.time.Instant;

/**
 * The readings of one sensor that are kept, but whose time is uncertain.
 *
 * @param newest arrival of the newest one
 */
public record Uncertain(long count, Instant newest) {
  /** These and one more. */
  public Uncertain with(Instant arrival) {
    return new Uncertain(count + 1, arrival.isAfter(newest) ? arrival : newest);
  }
}
