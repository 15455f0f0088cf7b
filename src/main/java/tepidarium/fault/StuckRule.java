package tepidarium.fault;

import java.time.Duration;
import java.util.BitSet;
import tepidarium.reading.Quantity;
import tepidarium.reading.Samples;

/**
 * Finds a value that stays the same for hours, although the sensor's values change otherwise. The
 * shape is that of a flat-line test (QARTOD manual for in-situ temperature, doi:10.7289/V5V40SD4);
 * the bounds are common practice, no source. A value that never changed may be real: a coarse
 * sensor in a steady box reports the same for days. Therefore the sensor must have changed at least
 * once in {@link #CHANGES} readings outside the run. Light and humidity from 95 % on are not
 * judged, because darkness and saturation are constant.
 */
final class StuckRule {
  /** Shortest run, 6 h. */
  static final Duration LEAST = Duration.ofHours(6);

  /** Fewest readings in a run. */
  static final int LEAST_READINGS = 20;

  /** At least one change in this many readings outside the run. */
  static final int CHANGES = 5;

  /** From this humidity on, in %, a constant value is normal. */
  static final double SATURATED_PERCENT = 95;

  private StuckRule() {}

  static boolean judges(Quantity quantity) {
    return quantity == Quantity.TEMPERATURE || quantity == Quantity.HUMIDITY;
  }

  static BitSet of(Quantity quantity, Samples samples) {
    BitSet stuck = new BitSet(samples.size());
    if (!judges(quantity)) {
      return stuck;
    }
    int changes = changes(samples);
    int start = 0;
    for (int i = 1; i <= samples.size(); i++) {
      if (i < samples.size() && samples.value(i) == samples.value(start)) {
        continue;
      }
      int outside = samples.size() - (i - start);
      boolean quiet = quantity == Quantity.HUMIDITY && samples.value(start) >= SATURATED_PERCENT;
      boolean livelyOtherwise = outside >= LEAST_READINGS && changes * CHANGES >= outside;
      stuck.set(start, i, isLong(samples, start, i) && !quiet && livelyOtherwise);
      start = i;
    }
    return stuck;
  }

  private static boolean isLong(Samples samples, int start, int end) {
    return end > start
        && end - start >= LEAST_READINGS
        && samples.atMs(end - 1) - samples.atMs(start) >= LEAST.toMillis();
  }

  /** How often the value differs from the one before. */
  static int changes(Samples samples) {
    int changes = 0;
    for (int i = 1; i < samples.size(); i++) {
      changes += samples.value(i) == samples.value(i - 1) ? 0 : 1;
    }
    return changes;
  }
}
