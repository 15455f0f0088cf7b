package tepidarium.stats;

import org.apache.commons.statistics.distribution.NormalDistribution;
import org.hipparchus.analysis.solvers.BrentSolver;

/**
 * The range of k independent standard normal values: the studentized range with infinite degrees of
 * freedom. Source: Tukey's honest significance test; Hartley, Biometrika 32 (1942) 334-348, the
 * integral k ∫ φ(z) (Φ(z) − Φ(z − q))^(k−1) dz.
 */
final class StudentizedRange {
  private static final NormalDistribution NORMAL = NormalDistribution.of(0, 1);
  private static final double REACH = 9;
  private static final double STEP = 0.02;
  private static final double ACCURACY = 1e-12;
  private static final int MAX_EVALUATIONS = 200;

  private StudentizedRange() {}

  /** The probability that the range of k values is at most q. */
  static double probability(double q, int k) {
    double sum = 0;
    for (double z = -REACH; z <= REACH + q; z += STEP) {
      double inside = NORMAL.cumulativeProbability(z) - NORMAL.cumulativeProbability(z - q);
      sum += NORMAL.density(z) * Math.pow(inside, k - 1.0);
    }
    return Math.min(1, k * sum * STEP);
  }

  /**
   * The range that k values stay below with this probability.
   *
   * @param probability between 0 and 1, both excluded
   * @param k at least 2
   */
  static double quantile(double probability, int k) {
    return new BrentSolver(ACCURACY)
        .solve(MAX_EVALUATIONS, q -> probability(q, k) - probability, 0, 2 * REACH);
  }
}
