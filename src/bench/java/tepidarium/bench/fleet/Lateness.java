package tepidarium.bench.fleet;

/** How many readings were stored later after they were sent than each of some limits. */
final class Lateness {
  private final double[] limits;
  private final double[] later;
  private double all;
  private double longest;

  /** For limits in seconds. */
  Lateness(double... limits) {
    this.limits = limits;
    later = new double[limits.length];
  }

  /** Readings whose lateness went evenly from one figure to another, s. */
  void add(double readings, double from, double to) {
    all += readings;
    double low = Math.min(from, to);
    double high = Math.max(from, to);
    longest = Math.max(longest, high);
    for (int i = 0; i < limits.length; i++) {
      if (high > limits[i]) {
        double above = high - Math.max(low, limits[i]);
        later[i] += high > low ? readings * above / (high - low) : readings;
      }
    }
  }

  /** The share of readings that were later than the limit with this index. */
  double share(int limit) {
    return all == 0 ? 0 : later[limit] / all;
  }

  double all() {
    return all;
  }

  /** The longest lateness, s. */
  double longest() {
    return longest;
  }
}
