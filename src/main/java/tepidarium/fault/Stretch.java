package tepidarium.fault;

/**
 * A stretch of faulty readings of one quantity.
 *
 * @param fromMs the first faulty reading, epoch milliseconds
 * @param toMs the last one
 * @param readings number of faulty readings
 * @param low lowest of their values, or another figure that {@link FaultWords} names
 * @param high highest of their values, or another figure that {@link FaultWords} names
 */
record Stretch(long fromMs, long toMs, int readings, double low, double high) {
  static Stretch of(long atMs, double value) {
    return new Stretch(atMs, atMs, 1, value, value);
  }

  /** Merges a later stretch. */
  Stretch plus(Stretch later) {
    return new Stretch(
        fromMs,
        Math.max(toMs, later.toMs),
        readings + later.readings,
        Math.min(low, later.low),
        Math.max(high, later.high));
  }
}
