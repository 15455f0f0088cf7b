package tepidarium.alert;

import java.time.Duration;
import org.jspecify.annotations.Nullable;
import tepidarium.alert.AlertKind.LimitRange;
import tepidarium.reading.InvalidInput;

/**
 * Overrides the default rule of one alert kind in one container. A null part keeps the default.
 *
 * @param limit in the unit of the kind; must be null if the container's band sets the limit
 * @param deadband in the unit of the kind, 0 to 1,000
 * @param onDelay 0 to 24 hours
 * @param offDelay 0 to 24 hours
 */
public record RuleOverride(
    @Nullable Double limit,
    @Nullable Double deadband,
    @Nullable Duration onDelay,
    @Nullable Duration offDelay,
    @Nullable Priority priority) {
  /** Overrides nothing. */
  public static final RuleOverride NONE = new RuleOverride(null, null, null, null, null);

  private static final double MAX_MINUTES = 24 * 60;
  private static final double MAX_DEADBAND = 1_000;

  /**
   * Checks the ranges for the kind.
   *
   * @throws InvalidInput naming the field and the remedy
   */
  public void check(AlertKind kind) {
    if (limit != null) {
      checkLimit(kind, limit);
    }
    within(
        kind, "deadband", deadband, 0, MAX_DEADBAND, kind.unit().equals("°C") ? "K" : kind.unit());
    within(kind, "onDelayMinutes", minutes(onDelay), 0, MAX_MINUTES, "min");
    within(kind, "offDelayMinutes", minutes(offDelay), 0, MAX_MINUTES, "min");
  }

  private static void checkLimit(AlertKind kind, double limit) {
    LimitRange range = kind.limitRange();
    if (range == null) {
      throw new InvalidInput(
          kind.key() + ".limit is part of the container's band: change it there");
    }
    within(kind, "limit", limit, range.low(), range.high(), kind.unit());
  }

  private static @Nullable Double minutes(@Nullable Duration delay) {
    return delay == null ? null : delay.toMillis() / 60_000.0;
  }

  private static void within(
      AlertKind kind, String field, @Nullable Double value, double low, double high, String unit) {
    if (value != null && !(value >= low && value <= high)) {
      throw InvalidInput.range(kind.key() + '.' + field, low, high, unit);
    }
  }
}
