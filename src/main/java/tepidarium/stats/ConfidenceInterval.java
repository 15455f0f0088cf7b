package tepidarium.stats;

/**
 * The two ends of an interval of confidence, in the unit of what they enclose. An end that the data
 * leave open is infinite.
 */
public record ConfidenceInterval(double low, double high) {
  /** The two-sided level of every interval where nothing else is said. */
  public static final double LEVEL = 0.95;

  public ConfidenceInterval {
    if (!(low <= high)) {
      throw new IllegalArgumentException("an interval from " + low + " to " + high);
    }
  }

  public boolean contains(double value) {
    return low <= value && value <= high;
  }
}
