package tepidarium.stats;

/**
 * A confidence interval, in the unit of its parameter. An end that the data leave open is infinite.
 */
public record ConfidenceInterval(double low, double high) {
  /** The two-sided confidence level of all intervals unless stated otherwise. */
  public static final double LEVEL = 0.95;

  public ConfidenceInterval {
    if (!(low <= high)) {
      throw new IllegalArgumentException(
          "the lower end " + low + " must not be above the upper end " + high);
    }
  }

  public boolean contains(double value) {
    return low <= value && value <= high;
  }
}
