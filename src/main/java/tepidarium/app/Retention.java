package tepidarium.app;

import java.time.Duration;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import org.jspecify.annotations.Nullable;

/**
 * Decides which raw readings are deleted because of their age. Deletion cannot be undone, so four
 * rules protect against a wrong clock. The age counts from the newest reading if that is before the
 * clock's time. Nothing is deleted within an hour of a start or of a jump of the clock. Nothing is
 * deleted while the clock is in doubt. At most one day's readings are deleted per hour. To be used
 * by one thread.
 */
final class Retention {
  static final Duration MIN_STABLE_TIME = Duration.ofHours(1);
  static final Duration DELETION_INTERVAL = Duration.ofHours(1);
  static final Duration MAX_DELETED_SPAN = Duration.ofDays(1);

  private final Duration keep;
  private final Duration maxGap;
  private final ClockJumps jumps = new ClockJumps();
  private long stableSinceNanos;
  private @Nullable Long lastDeletionNanos;

  /**
   * The clocks and the stored readings at one time.
   *
   * @param nanos monotonic time
   * @param clockProblem why the clock is in doubt; null if it is trusted
   * @param oldest instant of the oldest raw reading; null if there is none
   * @param newest instant of the newest reading that is not in the future; null if there is none
   */
  record State(
      Instant now,
      long nanos,
      @Nullable String clockProblem,
      @Nullable Instant oldest,
      @Nullable Instant newest) {}

  /**
   * The next deletion.
   *
   * @param before readings before this instant are to be deleted now; null to delete none
   * @param description which readings are deleted next and when, for the health of the service
   */
  record Plan(@Nullable Instant before, String description) {}

  /**
   * Creates the rules.
   *
   * @param keep age at which raw readings are deleted
   * @param maxGap longest gap between readings that is interpolated; readings within this time
   *     before the limit are kept, because the hours after the limit need them
   * @param startNanos monotonic time at the start of the service
   */
  Retention(Duration keep, Duration maxGap, long startNanos) {
    this.keep = keep;
    this.maxGap = maxGap;
    this.stableSinceNanos = startNanos;
  }

  Plan plan(State state) {
    if (!jumps.measure(state.now(), state.nanos()).isZero()) {
      stableSinceNanos = state.nanos();
    }
    Instant oldest = state.oldest();
    Instant newest = state.newest();
    if (oldest == null || newest == null) {
      return new Plan(null, "nothing to delete: no raw readings");
    }
    if (state.clockProblem() != null) {
      return new Plan(
          null, "paused while the clock of this machine is in doubt: nothing is deleted");
    }
    Instant limit = (newest.isBefore(state.now()) ? newest : state.now()).minus(keep);
    if (!oldest.isBefore(limit)) {
      return new Plan(null, "nothing to delete: the oldest raw reading is of " + shown(oldest));
    }
    Instant next = oldest.plus(MAX_DELETED_SPAN).plus(maxGap);
    Instant before = next.isBefore(limit) ? next : limit;
    Duration wait = untilAllowed(state.nanos());
    String readings = "raw readings from " + shown(oldest) + " to " + shown(before);
    return wait.isZero()
        ? new Plan(before, "deleting " + readings)
        : new Plan(null, "next at " + shown(state.now().plus(wait)) + ": deletes " + readings);
  }

  private Duration untilAllowed(long nanos) {
    Duration stabilisation = MIN_STABLE_TIME.minusNanos(nanos - stableSinceNanos);
    Long deleted = lastDeletionNanos;
    Duration pause =
        deleted == null ? Duration.ZERO : DELETION_INTERVAL.minusNanos(nanos - deleted);
    Duration longer = stabilisation.compareTo(pause) > 0 ? stabilisation : pause;
    return longer.isNegative() ? Duration.ZERO : longer;
  }

  /** Notes that the planned readings have been deleted. */
  void deleted(long nanos) {
    lastDeletionNanos = nanos;
  }

  private static String shown(Instant instant) {
    return instant.truncatedTo(ChronoUnit.SECONDS).toString();
  }
}
