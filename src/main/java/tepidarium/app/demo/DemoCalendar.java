package tepidarium.app.demo;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalTime;
import java.time.ZoneId;
import java.time.temporal.ChronoUnit;

/**
 * Converts days and local times of the demo to instants. All demo data is relative to now.
 *
 * @param now end of the history and start of the live readings
 * @param zone time zone of the garden
 */
record DemoCalendar(Instant now, ZoneId zone) {
  static final int DAYS = 28;
  private static final double SECONDS_PER_HOUR = 3600;

  DemoCalendar {
    now = now.truncatedTo(ChronoUnit.SECONDS);
  }

  /** The first instant of the history. */
  Instant start() {
    return now.minus(Duration.ofDays(DAYS));
  }

  /** Returns the instant of a local time, a number of days before today. */
  Instant at(int daysAgo, LocalTime time) {
    return now.atZone(zone).toLocalDate().minusDays(daysAgo).atTime(time).atZone(zone).toInstant();
  }

  /** Returns the local time of day, hours from 0 to 24. */
  double hourOfDay(Instant instant) {
    return instant.atZone(zone).toLocalTime().toSecondOfDay() / SECONDS_PER_HOUR;
  }

  /**
   * Returns the number of the local day since the start of the history. It selects the weather of
   * the day.
   */
  long day(Instant instant) {
    return ChronoUnit.DAYS.between(
        start().atZone(zone).toLocalDate(), instant.atZone(zone).toLocalDate());
  }

  static double hours(Instant from, Instant to) {
    return Duration.between(from, to).toMillis() / 3_600_000.0;
  }
}
