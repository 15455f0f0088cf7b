package tepidarium.fault;

import java.time.Duration;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import tepidarium.reading.Quantity;
import tepidarium.reading.Samples;

/**
 * Finds a sudden step after which the values stay at their new level: a bad contact, a replaced
 * sensor, or a sensor that was moved. The shape is that of a rate-of-change test (QARTOD manual for
 * in-situ temperature, doi:10.7289/V5V40SD4) with a steady hour on both sides; the bounds are
 * common practice, no source. Opening the lid makes no such step, because the temperature recovers
 * slowly.
 */
final class JumpRule {
  /** Least step, 4 °C. */
  static final double LEAST_C = 4;

  /** Least step, 25 % relative humidity. */
  static final double LEAST_PERCENT = 25;

  /** Longest time for the step, 10 min. */
  static final Duration WITHIN = Duration.ofMinutes(10);

  /** Time on both sides in which the values must stay at their level, 1 h. */
  static final Duration STEADY = Duration.ofHours(1);

  /** Fewest readings on each side. */
  static final int LEAST_READINGS = 4;

  private JumpRule() {}

  static List<Stretch> of(Quantity quantity, Samples samples) {
    return switch (quantity) {
      case TEMPERATURE -> jumps(samples, LEAST_C);
      case HUMIDITY -> jumps(samples, LEAST_PERCENT);
      default -> List.of();
    };
  }

  private static List<Stretch> jumps(Samples samples, double least) {
    List<Stretch> found = new ArrayList<>();
    for (int i = 1; i < samples.size(); i++) {
      double before = samples.value(i - 1);
      double after = samples.value(i);
      long from = samples.atMs(i - 1);
      long to = samples.atMs(i);
      if (Math.abs(after - before) >= least
          && to - from <= WITHIN.toMillis()
          && isSteady(samples.between(from - STEADY.toMillis(), from + 1), before, least)
          && isSteady(samples.between(to, to + STEADY.toMillis() + 1), after, least)) {
        found.add(new Stretch(from, to, 2, before, after));
      }
    }
    return found;
  }

  /** Whether four of five values lie within a quarter of the least step around the level. */
  private static boolean isSteady(Samples side, double level, double least) {
    if (side.size() < LEAST_READINGS) {
      return false;
    }
    double[] off = new double[side.size()];
    for (int i = 0; i < off.length; i++) {
      off[i] = Math.abs(side.value(i) - level);
    }
    Arrays.sort(off);
    return off[(int) (0.8 * (off.length - 1))] <= least / 4;
  }
}
