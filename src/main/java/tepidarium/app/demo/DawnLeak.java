package tepidarium.app.demo;

import java.time.Instant;
import java.time.LocalTime;

/**
 * Simulates a light leak: for the last 12 days, the morning sun shines in through the seam of a lid
 * for 40 min each day. The illuminance starts and ends at 3 lux. Its maximum depends on the day's
 * weather and is between 12 and 25 lux.
 */
record DawnLeak(DemoCalendar calendar, Noise noise) implements Signal {
  static final int SINCE_DAYS = 12;
  static final double FROM_HOUR = 6.5;
  static final double LENGTH_HOURS = 40 / 60.0;
  private static final double MIN_LUX = 3;

  @Override
  public double at(Instant instant) {
    double fraction = (calendar.hourOfDay(instant) - FROM_HOUR) / LENGTH_HOURS;
    if (fraction < 0
        || fraction > 1
        || instant.isBefore(calendar.at(SINCE_DAYS, LocalTime.MIDNIGHT))) {
      return 0;
    }
    double maxLux = noise.between(12, 25, calendar.day(instant));
    return MIN_LUX + (maxLux - MIN_LUX) * Math.sin(fraction * Math.PI);
  }
}
