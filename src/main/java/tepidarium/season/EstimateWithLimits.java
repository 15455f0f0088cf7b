package tepidarium.season;

import org.jspecify.annotations.Nullable;
import tepidarium.stats.AutocorrelatedMean.Estimate;
import tepidarium.stats.ConfidenceInterval;

/**
 * A value with its 95 % interval.
 *
 * @param low lower end; null together with {@code high} if the interval is not known
 */
public record EstimateWithLimits(double value, @Nullable Double low, @Nullable Double high) {
  static EstimateWithLimits of(double value, ConfidenceInterval limits) {
    return new EstimateWithLimits(value, limits.low(), limits.high());
  }

  static @Nullable EstimateWithLimits of(@Nullable Estimate estimate) {
    return estimate == null
        ? null
        : new EstimateWithLimits(estimate.value(), estimate.low(), estimate.high());
  }

  /** Whether the interval excludes zero. */
  boolean apart() {
    return (low != null && low > 0) || (high != null && high < 0);
  }
}
