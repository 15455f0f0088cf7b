package tepidarium.season;

import org.jspecify.annotations.Nullable;
import tepidarium.stats.AutocorrelatedMean.Estimate;
import tepidarium.stats.ConfidenceInterval;

/**
 * A figure with its 95 % interval.
 *
 * @param low null, as {@code high} is, where it cannot be told
 */
public record Interval(double value, @Nullable Double low, @Nullable Double high) {
  static Interval of(double value, ConfidenceInterval limits) {
    return new Interval(value, limits.low(), limits.high());
  }

  static @Nullable Interval of(@Nullable Estimate estimate) {
    return estimate == null
        ? null
        : new Interval(estimate.value(), estimate.low(), estimate.high());
  }

  /** Whether zero lies outside. */
  boolean apart() {
    return (low != null && low > 0) || (high != null && high < 0);
  }
}
