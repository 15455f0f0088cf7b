package tepidarium.fault;

import java.time.Duration;
import java.util.BitSet;
import java.util.OptionalDouble;
import tepidarium.reading.Samples;

/**
 * Finds saturated humidity and condensation. A capacitive humidity sensor carries almost no
 * information at the end of its scale, and reads too high for hours after water condensed on it. At
 * 100 % the dew point equals the temperature, so a falling temperature then means condensation. The
 * bounds are common practice, no source.
 */
final class MoistureRules {
  /** Relative humidity at the end of the scale, 99.5 %. */
  static final double FULL_PERCENT = 99.5;

  /** Shortest saturated stretch, 1 h. */
  static final Duration FULL_FOR = Duration.ofHours(1);

  /** From this humidity on, the dew point lies within 0.2 °C of the temperature: 99 %. */
  static final double WET_PERCENT = 99;

  /** Fall of the temperature within {@link #FALL_WITHIN}, 0.5 °C. */
  static final double FALL_C = 0.5;

  static final Duration FALL_WITHIN = Duration.ofMinutes(30);

  /** Longest gap across which the temperature is interpolated, 30 min. */
  private static final long GAP_MS = Duration.ofMinutes(30).toMillis();

  private MoistureRules() {}

  static BitSet saturated(Samples humidity) {
    BitSet full = Stretches.where(humidity, i -> humidity.value(i) >= FULL_PERCENT);
    return Stretches.longRuns(humidity, full, FULL_FOR);
  }

  static BitSet condensation(Samples humidity, Samples temperature) {
    return Stretches.where(
        humidity,
        i -> humidity.value(i) >= WET_PERCENT && isFalling(temperature, humidity.atMs(i)));
  }

  private static boolean isFalling(Samples temperature, long atMs) {
    OptionalDouble now = temperature.valueAt(atMs, GAP_MS);
    OptionalDouble before = temperature.valueAt(atMs - FALL_WITHIN.toMillis(), GAP_MS);
    return now.isPresent()
        && before.isPresent()
        && before.getAsDouble() - now.getAsDouble() >= FALL_C;
  }
}
