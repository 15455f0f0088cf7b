package tepidarium.alert;

import java.time.Duration;
import tepidarium.heat.Limit;

/**
 * Decides when a condition becomes active and when it returns.
 *
 * @param deadband distance inside the limit at which a value counts as returned, in the unit of the
 *     quantity
 * @param onDelay time outside the limit before the condition becomes active
 * @param offDelay time back inside the limit before the condition returns
 * @throws IllegalArgumentException when one of them is negative
 */
public record Rule(Limit limit, double deadband, Duration onDelay, Duration offDelay) {
  /** Tolerance for binary rounding of decimal limits; far below the resolution of any sensor. */
  private static final double TOLERANCE = 1e-9;

  public Rule {
    if (!(deadband >= 0) || onDelay.isNegative() || offDelay.isNegative()) {
      throw new IllegalArgumentException("deadband and delays cannot be negative");
    }
  }

  boolean outside(double value) {
    return limit.outside(value);
  }

  /** Whether the value is inside the limit by at least the deadband. */
  boolean clear(double value) {
    return limit.side() == Limit.Side.LOW
        ? value >= limit.value() + deadband - TOLERANCE
        : value <= limit.value() - deadband + TOLERANCE;
  }

  /** The worse of two values. */
  double worse(double a, double b) {
    return limit.side() == Limit.Side.LOW ? Math.min(a, b) : Math.max(a, b);
  }
}
