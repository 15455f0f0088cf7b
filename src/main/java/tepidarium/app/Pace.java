package tepidarium.app;

import java.time.Duration;
import java.util.function.LongSupplier;

/**
 * The intervals of the service's regular work, in real time, and its monotonic time. Tests and
 * simulations use other values than the default.
 *
 * @param checks interval at which silence, shelving and the health of the service are checked.
 *     {@code PeriodicChecks} evaluates forecasts and sensor faults every minute.
 * @param notices interval at which notices are decided and deliveries are tried again
 * @param housekeeping interval of hourly sums, searches for faults and deletions
 * @param backups interval at which it is checked whether a backup is due
 * @param nanos monotonic time, ns; measures jumps of the clock and pauses between deletions
 */
public record Pace(
    Duration checks,
    Duration notices,
    Duration housekeeping,
    Duration backups,
    LongSupplier nanos) {
  /** The pace of a real service. */
  public static final Pace DEFAULT =
      new Pace(
          Duration.ofSeconds(5),
          Duration.ofSeconds(1),
          Duration.ofMinutes(10),
          Duration.ofMinutes(1),
          System::nanoTime);

  /** Returns a pace with another interval of checks. */
  public Pace withChecks(Duration interval) {
    return new Pace(interval, notices, housekeeping, backups, nanos);
  }
}
