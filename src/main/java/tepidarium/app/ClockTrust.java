package tepidarium.app;

import java.time.Duration;
import java.time.Instant;
import java.util.Collection;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import tepidarium.reading.Reading;

/**
 * Decides whether the clock of this machine can be trusted. The clock is in doubt if it differs
 * from the last known time by more than a day, at the start or later. It is trusted again when a
 * sensor's own time confirms it, or when it is again within a day of the last known time.
 * Thread-safe.
 */
final class ClockTrust {
  /** Largest difference to the last known time that is trusted. */
  static final Duration MAX_DIFFERENCE = Duration.ofDays(1);

  /** Largest difference between the clock and a reading's own time that confirms the clock. */
  static final Duration TOLERANCE = Duration.ofMinutes(5);

  private @Nullable Instant lastTrusted;
  private @Nullable String problem;

  /**
   * Creates the check.
   *
   * @param lastTrusted the last known time, from an earlier run; null if there is none
   */
  ClockTrust(@Nullable Instant lastTrusted) {
    this.lastTrusted = lastTrusted;
  }

  /** Checks the clock. Call this at the start and at intervals of at most a few minutes. */
  synchronized void check(Instant now) {
    Instant last = lastTrusted;
    if (last != null) {
      Duration difference = Duration.between(last, now);
      if (difference.abs().compareTo(MAX_DIFFERENCE) > 0) {
        problem = describe(last, now, difference);
        return;
      }
    }
    trust(now);
  }

  /**
   * Confirms the clock if one of the stored readings has its own time and that time agrees with the
   * clock.
   */
  synchronized void confirmBy(Collection<Reading> readings, Instant arrivedAt) {
    if (problem != null && readings.stream().anyMatch(reading -> agrees(reading, arrivedAt))) {
      trust(arrivedAt);
    }
  }

  /** Trusts the clock because the user confirms it. */
  synchronized void confirm(Instant now) {
    trust(now);
  }

  private static boolean agrees(Reading reading, Instant arrivedAt) {
    Duration apart = Duration.between(reading.at(), arrivedAt).abs();
    return reading.arrival() == null && apart.compareTo(TOLERANCE) <= 0;
  }

  private void trust(Instant now) {
    lastTrusted = now;
    problem = null;
  }

  /**
   * Returns the last known time: the last instant at which the clock was trusted. Null before the
   * first.
   */
  synchronized @Nullable Instant lastTrusted() {
    return lastTrusted;
  }

  /** Returns why the clock is in doubt and what to do; null if the clock is trusted. */
  synchronized @Nullable String problem() {
    return problem;
  }

  private static String describe(Instant last, Instant now, Duration difference) {
    return String.format(
        Locale.ROOT,
        "The clock of this machine shows %s, %.1f days %s the last known time, %s. Set the clock."
            + " If it is right, wait for a reading with the sensor's own time, or start once with"
            + " --trust-clock. No old readings are deleted until then.",
        now,
        difference.abs().toMinutes() / 1440.0,
        difference.isNegative() ? "behind" : "ahead of",
        last);
  }
}
