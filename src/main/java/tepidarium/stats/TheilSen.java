package tepidarium.stats;

import java.util.Arrays;
import org.apache.commons.statistics.distribution.NormalDistribution;

/**
 * A straight line fitted robustly: its slope is the median of the slopes between all pairs of
 * points, its level the median of y − slope · x. Up to 29 % of the points may be far off without
 * moving it far. The 95 % interval of the slope is that of Sen by the normal approximation of
 * Kendall's statistic. It takes errors as independent, and is approximate below ten points.
 * Sources: Theil, Proc. Kon. Ned. Akad. Wet. A 53 (1950) 386–392; Sen, JASA 63 (1968) 1379–1389.
 *
 * @param slope unit of y per unit of x
 * @param intercept y at x = 0
 * @param interval 95 % interval of the slope
 */
public record TheilSen(double slope, double intercept, ConfidenceInterval interval) {
  /** With fewer points, no order of y is improbable enough for a 95 % interval. */
  public static final int FEWEST_POINTS = 6;

  private static final double Z = NormalDistribution.of(0, 1).inverseCumulativeProbability(0.975);

  /**
   * Fits the line.
   *
   * @param x strictly ascending
   * @throws IllegalArgumentException when there are fewer than six points or x does not ascend
   */
  public static TheilSen of(double[] x, double[] y) {
    int n = x.length;
    if (n < FEWEST_POINTS || y.length != n) {
      throw new IllegalArgumentException("at least " + FEWEST_POINTS + " points are needed");
    }
    double[] slopes = new double[n * (n - 1) / 2];
    int count = 0;
    for (int i = 0; i < n; i++) {
      for (int j = i + 1; j < n; j++) {
        if (!(x[j] > x[i])) {
          throw new IllegalArgumentException("x must ascend, at index " + j);
        }
        slopes[count++] = (y[j] - y[i]) / (x[j] - x[i]);
      }
    }
    Arrays.sort(slopes);
    double slope = Median.ofSorted(slopes);
    double[] levels = new double[n];
    for (int i = 0; i < n; i++) {
      levels[i] = y[i] - slope * x[i];
    }
    Arrays.sort(levels);
    double reach = Z * Math.sqrt(n * (n - 1.0) * (2.0 * n + 5) / 18);
    int below = (int) Math.floor((count - reach) / 2);
    ConfidenceInterval interval =
        new ConfidenceInterval(
            slopes[Math.max(0, below - 1)], slopes[Math.min(count - 1, count - below)]);
    return new TheilSen(slope, Median.ofSorted(levels), interval);
  }
}
