package tepidarium.app.demo;

import java.time.Instant;
import java.time.LocalTime;

/**
 * A lid whose seam faces the window: since twelve days ago the low sun gets in each morning for
 * forty minutes, 3 lux at either end and at most 25 in between, by the weather of the day.
 */
record DawnLeak(DemoCalendar calendar, Noise noise) implements Signal {
  static final int SINCE_DAYS = 12;
  static final double FROM_HOUR = 6.5;
  static final double LENGTH_HOURS = 40 / 60.0;
  private static final double LEAST_LUX = 3;

  @Override
  public double at(Instant instant) {
    double part = (calendar.hourOfDay(instant) - FROM_HOUR) / LENGTH_HOURS;
    if (part < 0 || part > 1 || instant.isBefore(calendar.at(SINCE_DAYS, LocalTime.MIDNIGHT))) {
      return 0;
    }
    double most = noise.between(12, 25, calendar.day(instant));
    return LEAST_LUX + (most - LEAST_LUX) * Math.sin(part * Math.PI);
  }
}
