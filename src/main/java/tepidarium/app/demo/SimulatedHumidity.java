package tepidarium.app.demo;

import java.time.Duration;
import java.time.Instant;

/** Simulates the relative humidity in the garden, in percent. All figures are invented. */
final class SimulatedHumidity {
  private static final double WET_PERCENT = 97.2;
  private static final double DRYING_DAYS = 6;
  private static final double DRYING_PERCENT = 21;
  private static final double DRIEST_PERCENT = 60;

  private final DemoCalendar calendar;

  SimulatedHumidity(DemoCalendar calendar) {
    this.calendar = calendar;
  }

  /** Humidity in a sealed container. */
  Signal sealed(Noise noise) {
    return at -> WET_PERCENT + 0.5 * noise.slow(at, Duration.ofHours(7));
  }

  /** Humidity in a leaking container: falls during the last 6 days, to about 76 % now. */
  Signal drying(Noise noise) {
    Instant from = calendar.now().minus(Duration.ofHours((long) (DRYING_DAYS * 24)));
    Signal wet = sealed(noise);
    return at -> {
      double days = Math.max(0, DemoCalendar.hours(from, at) / 24);
      double lost = DRYING_PERCENT * Math.pow(days / DRYING_DAYS, 1.2);
      return Math.max(DRIEST_PERCENT, wet.at(at) - lost);
    };
  }

  /** Humidity in the room; falls as the temperature rises. */
  Signal room(SimulatedTemperatures temperatures, Noise noise) {
    return at -> 58 - 1.8 * (temperatures.room(at) - 18) + 3 * noise.slow(at, Duration.ofHours(6));
  }
}
