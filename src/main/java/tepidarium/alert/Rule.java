package tepidarium.alert;

import java.time.Duration;
import tepidarium.heat.Limit;

/**
 * When a condition becomes active and when it returns.
 *
 * @param deadband how far back inside the limit a value must be to return, unit of the quantity
 * @param onDelay how long values must be outside before the condition is active
 * @param offDelay how long values must be back inside before it returns
 * @throws IllegalArgumentException when one of them is negative
 */
public record Rule(Limit limit, double deadband, Duration onDelay, Duration offDelay) {
  /** Decimal limits are not exact in binary; far below what any sensor resolves. */
  private static final double TOLERANCE = 1e-9;

  public Rule {
    if (!(deadband >= 0) || onDelay.isNegative() || offDelay.isNegative()) {
      throw new IllegalArgumentException("deadband and delays cannot be negative");
    }
  }

  boolean outside(double value) {
    return limit.outside(value);
  }

  /** Whether the value is back inside by at least the deadband. */
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
