package tepidarium.app;

import java.time.Duration;
import java.time.Instant;
import java.util.Collection;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import tepidarium.reading.Reading;

/**
 * Decides whether the clock of this machine can be trusted. It is in doubt when it is more than a
 * day ahead of or behind the last instant seen, at a start or later, until a reading with its own
 * time agrees with it or it comes back. Safe for use by several threads.
 */
final class ClockTrust {
  /** A stop that is longer, or a clock that is further off, has to be confirmed. */
  static final Duration MOST = Duration.ofDays(1);

  /** How closely a reading's own time must agree. */
  static final Duration AGREES = Duration.ofMinutes(5);

  private @Nullable Instant lastSeen;
  private @Nullable String problem;

  /**
   * Begins to watch.
   *
   * @param lastSeen the last instant known from an earlier run; null where there is none
   */
  ClockTrust(@Nullable Instant lastSeen) {
    this.lastSeen = lastSeen;
  }

  /** Looks at the clock; to be called at the start and every few seconds or minutes. */
  synchronized void take(Instant now) {
    Instant last = lastSeen;
    if (last != null) {
      Duration away = Duration.between(last, now);
      if (away.abs().compareTo(MOST) > 0) {
        problem = words(last, now, away);
        return;
      }
    }
    trust(now);
  }

  /** Readings came in that were stored; their own times may confirm the clock. */
  synchronized void heard(Collection<Reading> readings, Instant arrivedAt) {
    if (problem != null && readings.stream().anyMatch(reading -> agrees(reading, arrivedAt))) {
      trust(arrivedAt);
    }
  }

  /** A person says that the clock is right. */
  synchronized void confirm(Instant now) {
    trust(now);
  }

  private static boolean agrees(Reading reading, Instant arrivedAt) {
    Duration apart = Duration.between(reading.at(), arrivedAt).abs();
    return reading.arrival() == null && apart.compareTo(AGREES) <= 0;
  }

  private void trust(Instant now) {
    lastSeen = now;
    problem = null;
  }

  /** The last instant at which the clock was trusted; null before the first. */
  synchronized @Nullable Instant lastSeen() {
    return lastSeen;
  }

  /** Why the clock is in doubt and what to do; null where it is not. */
  synchronized @Nullable String problem() {
    return problem;
  }

  private static String words(Instant last, Instant now, Duration away) {
    return String.format(
        Locale.ROOT,
        "The clock of this machine says %s, %.1f days %s the last instant seen, %s. Set the clock."
            + " If it is right, wait for a reading with its own time, or start once with"
            + " --trust-clock. Until then no old reading is deleted.",
        now,
        away.abs().toMinutes() / 1440.0,
        away.isNegative() ? "behind" : "ahead of",
        last);
  }
}
