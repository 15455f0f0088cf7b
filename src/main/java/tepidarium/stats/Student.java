package tepidarium.stats;

import org.apache.commons.statistics.distribution.TDistribution;

/** Quantiles of Student's t distribution. */
final class Student {
  private static final double BOTH_TAILS_95 = 0.975;

  private Student() {}

  /** The 97.5 % point, which leaves 5 % in both tails. */
  static double t95(double degreesOfFreedom) {
    return t95(degreesOfFreedom, 1);
  }

  /** The point that leaves 5 % in both tails over several comparisons (Bonferroni). */
  static double t95(double degreesOfFreedom, int comparisons) {
    return TDistribution.of(degreesOfFreedom)
        .inverseCumulativeProbability(1 - (1 - BOTH_TAILS_95) / comparisons);
  }
}
