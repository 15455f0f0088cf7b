package tepidarium.stats;

import java.util.SplittableRandom;

/** Hourly values with a daily cycle and with noise that follows the hour before. */
public final class SimulatedHours {
  private SimulatedHours() {}

  /**
   * Noise of standard deviation 1 around the mean, and a daily cycle of amplitude 1 at a random
   * phase.
   *
   * @param correlation of one hour with the next; 0.88 fades to a fifth in half a day
   */
  public static double[] of(int days, double correlation, double mean, SplittableRandom random) {
    double[] values = new double[days * 24];
    double state = random.nextGaussian();
    double phase = random.nextDouble() * 2 * Math.PI;
    double fresh = Math.sqrt(1 - correlation * correlation);
    for (int i = 0; i < values.length; i++) {
      state = correlation * state + fresh * random.nextGaussian();
      values[i] = mean + state + Math.sin(2 * Math.PI * i / 24 + phase);
    }
    return values;
  }
}
