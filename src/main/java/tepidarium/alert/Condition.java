package tepidarium.alert;

import java.time.Duration;
import java.time.Instant;
import org.jspecify.annotations.Nullable;

/**
 * The state of one condition after the readings so far. It becomes active when readings have been
 * outside the limit for the on-delay. It returns when readings have been inside by at least the
 * deadband for the off-delay. Readings further apart than the longest gap do not count as
 * continuous. Immutable; readings must be added in time order.
 *
 * @param since the first reading outside; null while inside
 * @param active whether the on-delay is over
 * @param clearSince the first reading inside by at least the deadband; null if there is none
 * @param lastAt the newest reading; null before the first
 * @param worst the value furthest outside since then; NaN while inside
 */
public record Condition(
    @Nullable Instant since,
    boolean active,
    @Nullable Instant clearSince,
    @Nullable Instant lastAt,
    double worst) {
  /** No reading yet. */
  public static final Condition UNKNOWN = new Condition(null, false, null, null, Double.NaN);

  /** An active condition restored after a restart. */
  static Condition activeSince(Instant since, Instant lastAt, double worst) {
    return new Condition(since, true, null, lastAt, worst);
  }

  /** A condition evaluated up to an instant, at which it was inside. */
  static Condition insideAt(Instant at) {
    return new Condition(null, false, null, at, Double.NaN);
  }

  /** Returns the condition after one more reading. */
  public Condition after(Rule rule, Duration maxGap, Instant at, double value) {
    boolean gap = lastAt != null && Duration.between(lastAt, at).compareTo(maxGap) > 0;
    return active ? whileActive(rule, gap, at, value) : whileInactive(rule, gap, at, value);
  }

  /** Replaces the start with the given instant if the condition has just gone outside. */
  Condition since(Condition before, Instant began) {
    boolean fresh = since != null && !since.equals(before.since);
    return fresh ? new Condition(began, active, clearSince, lastAt, worst) : this;
  }

  /**
   * Removes the effect of readings after the instant. Needed after the clock was set back;
   * otherwise all new readings would be older than the newest one. An active condition stays
   * active.
   */
  Condition forgetAfter(Instant instant) {
    if (lastAt == null || !lastAt.isAfter(instant)) {
      return this;
    }
    if (!active) {
      return UNKNOWN;
    }
    Instant began = since != null && since.isAfter(instant) ? instant : since;
    return new Condition(began, true, null, instant, worst);
  }

  private Condition whileInactive(Rule rule, boolean gap, Instant at, double value) {
    if (!rule.outside(value)) {
      return new Condition(null, false, null, at, Double.NaN);
    }
    if (since == null || gap) {
      return new Condition(at, rule.onDelay().isZero(), null, at, value);
    }
    boolean delayOver = longEnough(since, at, rule.onDelay());
    return new Condition(since, delayOver, null, at, rule.worse(worst, value));
  }

  private Condition whileActive(Rule rule, boolean gap, Instant at, double value) {
    if (!rule.clear(value)) {
      return new Condition(since, true, null, at, rule.worse(worst, value));
    }
    Instant start = clearSince == null || gap ? at : clearSince;
    if (longEnough(start, at, rule.offDelay())) {
      return new Condition(null, false, null, at, Double.NaN);
    }
    return new Condition(since, true, start, at, worst);
  }

  private static boolean longEnough(Instant start, Instant at, Duration delay) {
    return Duration.between(start, at).compareTo(delay) >= 0;
  }
}
