package tepidarium.fault;

import tepidarium.reading.Samples;

/**
 * Counts the readings of one quantity of a sensor on one day (UTC), without faulty values.
 *
 * @param readings number of readings, at least 1
 * @param changes how often a value differs from the one before
 * @param firstMs instant of the first reading, epoch milliseconds
 * @param lastMs instant of the last reading, epoch milliseconds
 * @param last value of the last reading, in the unit of the quantity
 */
public record QuantityDay(int readings, int changes, long firstMs, long lastMs, double last) {
  static QuantityDay of(Samples samples) {
    int end = samples.size() - 1;
    return new QuantityDay(
        samples.size(),
        StuckRule.changes(samples),
        samples.atMs(0),
        samples.atMs(end),
        samples.value(end));
  }

  boolean isConstant() {
    return changes == 0;
  }

  /** Whether there are as many readings over as long a time as a stuck run needs. */
  boolean isLong() {
    return readings >= StuckRule.LEAST_READINGS && lastMs - firstMs >= StuckRule.LEAST.toMillis();
  }

  /** Whether the value changed at least once in the given number of readings. */
  boolean changesOnceIn(int number) {
    return changes * number >= readings;
  }
}
