package tepidarium.app.demo;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalTime;
import java.time.ZoneId;
import java.time.temporal.ChronoUnit;

/**
 * The demo's days: everything happened so long before now, at the local time of the garden.
 *
 * @param now where history ends and life goes on
 * @param zone where a day begins
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

  /** A local time, so many days before today. */
  Instant at(int daysAgo, LocalTime time) {
    return now.atZone(zone).toLocalDate().minusDays(daysAgo).atTime(time).atZone(zone).toInstant();
  }

  /** The local time of day, hours from 0 to 24. */
  double hourOfDay(Instant instant) {
    return instant.atZone(zone).toLocalTime().toSecondOfDay() / SECONDS_PER_HOUR;
  }

  /** Which day of the history it is locally, so that each day can have its own weather. */
  long day(Instant instant) {
    return ChronoUnit.DAYS.between(
        start().atZone(zone).toLocalDate(), instant.atZone(zone).toLocalDate());
  }

  static double hours(Instant from, Instant to) {
    return Duration.between(from, to).toMillis() / 3_600_000.0;
  }
}
