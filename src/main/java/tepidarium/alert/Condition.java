package tepidarium.alert;

import java.time.Duration;
import java.time.Instant;
import org.jspecify.annotations.Nullable;

/**
 * Where one condition stands after the readings so far. It becomes active when readings have been
 * strictly outside the limit for the on-delay, counted from the first of them, and returns when
 * they have been back inside by the deadband for the off-delay. Readings further apart than the
 * longest gap do not count as one stretch. Immutable; readings come in order of their time.
 *
 * @param since the first reading outside; null while inside
 * @param active whether the on-delay has run out
 * @param clearSince the first reading back inside by the deadband; null while there is none
 * @param lastAt the newest reading seen; null before the first
 * @param worst the value furthest outside since then; not a number while inside
 */
public record Condition(
    @Nullable Instant since,
    boolean active,
    @Nullable Instant clearSince,
    @Nullable Instant lastAt,
    double worst) {
  /** Nothing seen yet. */
  public static final Condition UNKNOWN = new Condition(null, false, null, null, Double.NaN);

  /** An active condition found again after a restart. */
  static Condition activeSince(Instant since, Instant lastAt, double worst) {
    return new Condition(since, true, null, lastAt, worst);
  }

  /** Judged up to an instant, and inside then. */
  static Condition insideAt(Instant at) {
    return new Condition(null, false, null, at, Double.NaN);
  }

  /** The condition after one more reading. */
  public Condition after(Rule rule, Duration maxGap, Instant at, double value) {
    boolean gap = lastAt != null && Duration.between(lastAt, at).compareTo(maxGap) > 0;
    return active ? whileActive(rule, gap, at, value) : whileInactive(rule, gap, at, value);
  }

  /** The same, but where it has only now gone outside, it did so at the instant given. */
  Condition since(Condition before, Instant began) {
    boolean fresh = since != null && !since.equals(before.since);
    return fresh ? new Condition(began, active, clearSince, lastAt, worst) : this;
  }

  /**
   * The same as if nothing had been seen after the instant: a clock that was set back would else
   * make every reading older than the newest. What is active stays so.
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
