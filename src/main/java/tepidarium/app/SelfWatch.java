package tepidarium.app;

import java.time.Duration;
import java.time.Instant;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;
import tepidarium.alert.notify.Trouble;
import tepidarium.alert.notify.Trouble.Kind;

/**
 * Finds out when the service itself is in trouble: no broker for a time, readings that are not
 * stored, a disk that fills, a clock that jumped. Fed with measurements; takes up trouble that
 * lasted when the service ended. To be used by one thread.
 */
public final class SelfWatch {
  /**
   * A disk is out of trouble once it has this much more than the limit, so that it says so once.
   */
  private static final double ENOUGH = 1.2;

  /**
   * From when on something is trouble.
   *
   * @param brokerAway how long no broker may be heard
   * @param freeBytes how much space must be left for the data folder
   */
  public record Limits(Duration brokerAway, long freeBytes) {}

  /**
   * How things are.
   *
   * @param monotonicNanos time that no one can set
   * @param freeBytes space left for the data folder
   * @param notTakenIn why messages that wait are not stored; null when they are
   * @param clockProblem why the clock is in doubt; null where it is not
   */
  record Measured(
      Instant now,
      long monotonicNanos,
      boolean brokerUp,
      long freeBytes,
      @Nullable String notTakenIn,
      @Nullable String clockProblem) {}

  private final Limits limits;
  private final Consumer<Trouble> told;
  private final Map<Kind, Trouble> known = new EnumMap<>(Kind.class);
  private final ClockJumps jumps = new ClockJumps();
  private @Nullable Long brokerLostNanos;
  private @Nullable Instant brokerLostAt;

  /**
   * Begins to watch.
   *
   * @param before trouble known from before
   * @param told hears of each trouble and of each end
   */
  SelfWatch(Limits limits, List<Trouble> before, Consumer<Trouble> told) {
    this.limits = limits;
    this.told = told;
    before.forEach(trouble -> known.put(trouble.kind(), trouble));
  }

  void take(Measured measured) {
    takeClock(measured);
    takeBroker(measured);
    takeDisk(measured);
    takeIntake(measured);
    takeDate(measured);
  }

  private Optional<Trouble> lasting(Kind kind) {
    return Optional.ofNullable(known.get(kind)).filter(Trouble::active);
  }

  private void say(Trouble trouble) {
    told.accept(trouble);
    known.put(trouble.kind(), trouble);
  }

  private void takeClock(Measured measured) {
    Duration jump = jumps.take(measured.now(), measured.monotonicNanos());
    if (!jump.isZero()) {
      String detail =
          String.format(
              Locale.ROOT,
              "The clock of this machine jumped %s by %d s, or the machine slept.",
              jump.isNegative() ? "back" : "ahead",
              jump.abs().toSeconds());
      say(new Trouble(Kind.CLOCK, measured.now(), measured.now(), detail));
    }
  }

  /** Counted by the monotonic clock, since the other one may jump. */
  private void takeBroker(Measured measured) {
    if (measured.brokerUp()) {
      brokerLostNanos = null;
      lasting(Kind.BROKER).ifPresent(trouble -> say(trouble.ended(measured.now())));
      return;
    }
    Long lostNanos = brokerLostNanos;
    Instant lostAt = brokerLostAt;
    if (lostNanos == null || lostAt == null) {
      brokerLostNanos = measured.monotonicNanos();
      brokerLostAt = measured.now();
      return;
    }
    Duration away = Duration.ofNanos(measured.monotonicNanos() - lostNanos);
    if (away.compareTo(limits.brokerAway()) >= 0 && lasting(Kind.BROKER).isEmpty()) {
      String detail = "No broker is heard, so that no container is watched.";
      say(new Trouble(Kind.BROKER, lostAt, null, detail));
    }
  }

  private void takeDisk(Measured measured) {
    Optional<Trouble> lasting = lasting(Kind.DISK);
    if (measured.freeBytes() < limits.freeBytes() && lasting.isEmpty()) {
      String detail =
          "Only "
              + (measured.freeBytes() >> 20)
              + " MiB are left on the disk of the data folder; the limit is "
              + (limits.freeBytes() >> 20)
              + " MiB.";
      say(new Trouble(Kind.DISK, measured.now(), null, detail));
    } else if (measured.freeBytes() >= limits.freeBytes() * ENOUGH) {
      lasting.ifPresent(trouble -> say(trouble.ended(measured.now())));
    }
  }

  private void takeIntake(Measured measured) {
    String why = measured.notTakenIn();
    takeLasting(
        Kind.INTAKE, why == null ? null : "Readings are not taken in: " + why + '.', measured);
  }

  private void takeDate(Measured measured) {
    takeLasting(Kind.DATE, measured.clockProblem(), measured);
  }

  /** Trouble that lasts for as long as there are words for it. */
  private void takeLasting(Kind kind, @Nullable String words, Measured measured) {
    Optional<Trouble> lasting = lasting(kind);
    if (words == null) {
      lasting.ifPresent(trouble -> say(trouble.ended(measured.now())));
    } else if (lasting.isEmpty()) {
      say(new Trouble(kind, measured.now(), null, words));
    }
  }

  /** The newest trouble of a kind, lasting or over. */
  Optional<Trouble> newest(Kind kind) {
    return Optional.ofNullable(known.get(kind));
  }
}
