package tepidarium.heat;

/**
 * Estimates the heat of a day from its lowest and highest temperature by the single-sine method:
 * the temperature follows a sine wave through both.
 *
 * <p>With mean m = (max + min) / 2 and half-range a = (max − min) / 2, the mean excess of the wave
 * above a threshold c is: 0 for c ≥ max; m − c for c ≤ min; otherwise ((m − c)(π/2 − θ) + a cos θ)
 * / π with θ = asin((c − m) / a). The heat of a day in °C·days is the excess above the base less
 * the excess above the ceiling (horizontal cut-off).
 *
 * <p>Sources: Baskerville and Emin, Ecology 50 (1969) 514-517; Allen, Environmental Entomology 5
 * (1976) 388-396. This is an estimate: a heated container does not follow a sine wave.
 */
public final class SingleSine {
  private SingleSine() {}

  /**
   * The heat of a day, °C·days.
   *
   * @param minC lowest temperature of the day, °C
   * @param maxC highest, °C, at least the lowest
   */
  public static double degreeDays(double minC, double maxC, HeatRule rule) {
    if (!(minC <= maxC)) {
      throw new IllegalArgumentException(
          "the lowest temperature " + minC + " °C lies above the highest " + maxC + " °C");
    }
    Double ceiling = rule.ceilingC();
    double capped = ceiling == null ? 0 : meanAbove(minC, maxC, ceiling);
    return Math.max(0, meanAbove(minC, maxC, rule.baseC()) - capped);
  }

  private static double meanAbove(double minC, double maxC, double thresholdC) {
    if (thresholdC >= maxC) {
      return 0;
    }
    double mean = (minC + maxC) / 2;
    if (thresholdC <= minC) {
      return mean - thresholdC;
    }
    double half = (maxC - minC) / 2;
    double sine = Math.max(-1, Math.min(1, (thresholdC - mean) / half));
    double angle = Math.asin(sine);
    return ((mean - thresholdC) * (Math.PI / 2 - angle) + half * Math.cos(angle)) / Math.PI;
  }
}
