package tepidarium.stats;

import java.util.Arrays;

/** Calculates medians. */
public final class Median {
  private Median() {}

  /** The median; the mean of the two middle values for an even number; NaN for none. */
  public static double of(double... values) {
    double[] sorted = values.clone();
    Arrays.sort(sorted);
    return ofSorted(sorted);
  }

  /** The median of values in ascending order; NaN for none. */
  public static double ofSorted(double... sorted) {
    int n = sorted.length;
    return n == 0 ? Double.NaN : (sorted[(n - 1) / 2] + sorted[n / 2]) / 2;
  }
}
