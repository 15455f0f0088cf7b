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
 * Detects trouble of the service itself from regular measurements: no connection to the broker,
 * readings that are not stored, a full disk, a wrong clock, a failed backup. Continues trouble that
 * was active when the service last stopped. To be used by one thread.
 */
public final class SelfMonitor {
  /**
   * Hysteresis of disk space: the trouble ends when the free space is this many times the limit.
   */
  private static final double DISK_HYSTERESIS = 1.2;

  /**
   * The limits beyond which there is trouble.
   *
   * @param brokerAway time without a connection to the broker
   * @param freeBytes free space on the disk of the data folder
   */
  public record Limits(Duration brokerAway, long freeBytes) {}

  /**
   * One measurement.
   *
   * @param monotonicNanos monotonic time
   * @param freeBytes free space on the disk of the data folder
   * @param intakeProblem why waiting messages are not stored; null if they are stored
   * @param clockProblem why the clock is in doubt; null if it is trusted
   * @param backupProblem why the last automatic backup failed; null if it did not fail
   */
  record Measurement(
      Instant now,
      long monotonicNanos,
      boolean brokerUp,
      long freeBytes,
      @Nullable String intakeProblem,
      @Nullable String clockProblem,
      @Nullable String backupProblem) {}

  private final Limits limits;
  private final Consumer<Trouble> listener;
  private final Map<Kind, Trouble> latest = new EnumMap<>(Kind.class);
  private final ClockJumps jumps = new ClockJumps();
  private @Nullable Long brokerLostNanos;
  private @Nullable Instant brokerLostAt;

  /**
   * Creates the monitor.
   *
   * @param before the latest trouble of each kind, from the last run
   * @param listener receives each start and end of trouble
   */
  SelfMonitor(Limits limits, List<Trouble> before, Consumer<Trouble> listener) {
    this.limits = limits;
    this.listener = listener;
    before.forEach(trouble -> latest.put(trouble.kind(), trouble));
  }

  void check(Measurement measurement) {
    checkClockJump(measurement);
    checkBroker(measurement);
    checkDisk(measurement);
    checkIntake(measurement);
    checkClockTrust(measurement);
    checkBackup(measurement);
  }

  private Optional<Trouble> active(Kind kind) {
    return Optional.ofNullable(latest.get(kind)).filter(Trouble::active);
  }

  private void report(Trouble trouble) {
    listener.accept(trouble);
    latest.put(trouble.kind(), trouble);
  }

  private void checkClockJump(Measurement measurement) {
    Duration jump = jumps.measure(measurement.now(), measurement.monotonicNanos());
    if (!jump.isZero()) {
      String detail =
          String.format(
              Locale.ROOT,
              "The clock of this machine jumped %s by %d s, or the machine was suspended.",
              jump.isNegative() ? "back" : "ahead",
              jump.abs().toSeconds());
      report(new Trouble(Kind.CLOCK, measurement.now(), measurement.now(), detail));
    }
  }

  /** Measures the time with the monotonic clock, because the wall clock can jump. */
  private void checkBroker(Measurement measurement) {
    if (measurement.brokerUp()) {
      brokerLostNanos = null;
      active(Kind.BROKER).ifPresent(trouble -> report(trouble.ended(measurement.now())));
      return;
    }
    Long lostNanos = brokerLostNanos;
    Instant lostAt = brokerLostAt;
    if (lostNanos == null || lostAt == null) {
      brokerLostNanos = measurement.monotonicNanos();
      brokerLostAt = measurement.now();
      return;
    }
    Duration away = Duration.ofNanos(measurement.monotonicNanos() - lostNanos);
    if (away.compareTo(limits.brokerAway()) >= 0 && active(Kind.BROKER).isEmpty()) {
      String detail = "The MQTT broker cannot be reached. The service receives no readings.";
      report(new Trouble(Kind.BROKER, lostAt, null, detail));
    }
  }

  private void checkDisk(Measurement measurement) {
    Optional<Trouble> active = active(Kind.DISK);
    if (measurement.freeBytes() < limits.freeBytes() && active.isEmpty()) {
      String detail =
          "Only "
              + (measurement.freeBytes() >> 20)
              + " MiB are free on the disk of the data folder. The limit is "
              + (limits.freeBytes() >> 20)
              + " MiB.";
      report(new Trouble(Kind.DISK, measurement.now(), null, detail));
    } else if (measurement.freeBytes() >= limits.freeBytes() * DISK_HYSTERESIS) {
      active.ifPresent(trouble -> report(trouble.ended(measurement.now())));
    }
  }

  private void checkIntake(Measurement measurement) {
    String why = measurement.intakeProblem();
    updateTrouble(
        Kind.INTAKE, why == null ? null : "Readings are not stored: " + why + '.', measurement);
  }

  private void checkClockTrust(Measurement measurement) {
    updateTrouble(Kind.DATE, measurement.clockProblem(), measurement);
  }

  private void checkBackup(Measurement measurement) {
    String why = measurement.backupProblem();
    updateTrouble(
        Kind.BACKUP, why == null ? null : "The automatic backup failed: " + why + '.', measurement);
  }

  /** Starts or ends trouble. It lasts as long as its description is not null. */
  private void updateTrouble(Kind kind, @Nullable String description, Measurement measurement) {
    Optional<Trouble> active = active(kind);
    if (description == null) {
      active.ifPresent(trouble -> report(trouble.ended(measurement.now())));
    } else if (active.isEmpty()) {
      report(new Trouble(kind, measurement.now(), null, description));
    }
  }

  /** Returns the latest trouble of a kind, active or over; empty if there was none. */
  Optional<Trouble> latest(Kind kind) {
    return Optional.ofNullable(latest.get(kind));
  }
}
