package tepidarium.fault;

import java.time.Duration;
import java.util.BitSet;
import tepidarium.reading.Quantity;
import tepidarium.reading.Samples;

/**
 * Finds single readings far from both neighbours, which agree with each other. The shape is that of
 * the spike test in the QARTOD manual for in-situ temperature (doi:10.7289/V5V40SD4); the bounds
 * are common practice, no source: no air in a closed container warms by 5 °C and cools again
 * between three readings within 20 min. Opening the lid makes a fall with a slow recovery.
 */
final class SpikeRule {
  /** Least distance from both neighbours: 5 °C. */
  static final double LEAST_C = 5;

  /** Least distance from both neighbours: 25 % relative humidity. */
  static final double LEAST_PERCENT = 25;

  /** Longest time to each neighbour, 10 min. */
  static final Duration NEAR = Duration.ofMinutes(10);

  private SpikeRule() {}

  static BitSet of(Quantity quantity, Samples samples) {
    return switch (quantity) {
      case TEMPERATURE -> spikes(samples, LEAST_C);
      case HUMIDITY -> spikes(samples, LEAST_PERCENT);
      default -> new BitSet();
    };
  }

  private static BitSet spikes(Samples samples, double least) {
    return Stretches.where(samples, i -> isSpike(samples, i, least));
  }

  private static boolean isSpike(Samples samples, int i, double least) {
    if (i == 0 || i == samples.size() - 1) {
      return false;
    }
    boolean near =
        samples.atMs(i) - samples.atMs(i - 1) <= NEAR.toMillis()
            && samples.atMs(i + 1) - samples.atMs(i) <= NEAR.toMillis();
    double before = samples.value(i) - samples.value(i - 1);
    double after = samples.value(i) - samples.value(i + 1);
    boolean far = Math.min(Math.abs(before), Math.abs(after)) >= least && before * after > 0;
    return near && far && Math.abs(before - after) <= least / 2;
  }
}
