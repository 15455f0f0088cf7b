package tepidarium.app;

import java.time.Duration;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import org.jspecify.annotations.Nullable;

/**
 * Decides which raw readings are old enough to be deleted. A clock that is wrong must not delete
 * what cannot be brought back, so age is judged by the newest reading as well as the clock, nothing
 * is deleted within an hour of a start or a jump of the clock or while the clock is in doubt, and
 * at most one day's worth of readings is deleted an hour. For one thread.
 */
final class Retention {
  static final Duration CALM = Duration.ofHours(1);
  static final Duration BETWEEN = Duration.ofHours(1);
  static final Duration AT_ONCE = Duration.ofDays(1);

  private final Duration keep;
  private final Duration maxGap;
  private final ClockJumps jumps = new ClockJumps();
  private long calmSinceNanos;
  private @Nullable Long deletedNanos;

  /**
   * How things are.
   *
   * @param nanos time that no one can set
   * @param clockProblem why the clock is in doubt; null where it is not
   * @param oldest instant of the oldest raw reading; null where there is none
   * @param newest instant of the newest reading that is not in the future; null where there is none
   */
  record Seen(
      Instant now,
      long nanos,
      @Nullable String clockProblem,
      @Nullable Instant oldest,
      @Nullable Instant newest) {}

  /**
   * What to do.
   *
   * @param before readings before this instant are to be deleted now; null for none
   * @param words what is deleted next, for people
   */
  record Plan(@Nullable Instant before, String words) {}

  /**
   * Begins.
   *
   * @param keep for how long raw readings are kept
   * @param maxGap the longest gap that a straight line crosses; readings that long before the
   *     instant stay, as the hours after it need them
   * @param startNanos time that no one can set, at the start of the service
   */
  Retention(Duration keep, Duration maxGap, long startNanos) {
    this.keep = keep;
    this.maxGap = maxGap;
    this.calmSinceNanos = startNanos;
  }

  Plan plan(Seen seen) {
    if (!jumps.take(seen.now(), seen.nanos()).isZero()) {
      calmSinceNanos = seen.nanos();
    }
    Instant oldest = seen.oldest();
    Instant newest = seen.newest();
    if (oldest == null || newest == null) {
      return new Plan(null, "nothing to delete: no raw readings");
    }
    if (seen.clockProblem() != null) {
      return new Plan(
          null, "paused while the clock of this machine is in doubt: nothing is deleted");
    }
    Instant limit = (newest.isBefore(seen.now()) ? newest : seen.now()).minus(keep);
    if (!oldest.isBefore(limit)) {
      return new Plan(null, "nothing to delete: the oldest raw reading is of " + shown(oldest));
    }
    Instant next = oldest.plus(AT_ONCE).plus(maxGap);
    Instant before = next.isBefore(limit) ? next : limit;
    Duration wait = untilAllowed(seen.nanos());
    String what = "raw readings from " + shown(oldest) + " to " + shown(before);
    return wait.isZero()
        ? new Plan(before, "deleting " + what)
        : new Plan(null, "next at " + shown(seen.now().plus(wait)) + ": deletes " + what);
  }

  private Duration untilAllowed(long nanos) {
    Duration calm = CALM.minusNanos(nanos - calmSinceNanos);
    Long deleted = deletedNanos;
    Duration pause = deleted == null ? Duration.ZERO : BETWEEN.minusNanos(nanos - deleted);
    Duration longer = calm.compareTo(pause) > 0 ? calm : pause;
    return longer.isNegative() ? Duration.ZERO : longer;
  }

  /** Readings have been deleted as planned. */
  void deleted(long nanos) {
    deletedNanos = nanos;
  }

  private static String shown(Instant instant) {
    return instant.truncatedTo(ChronoUnit.SECONDS).toString();
  }
}
