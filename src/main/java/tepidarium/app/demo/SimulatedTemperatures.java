package tepidarium.app.demo;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalTime;

/** Temperatures of the garden's rooms and heat sources, °C. All figures are invented. */
final class SimulatedTemperatures {
  private static final double ROOM_MEAN_C = 18;
  private static final double COOLING_HOURS = 8.5;
  private static final double REHEATING_HOURS = 1.2;

  /** Out of step with the sensors, or each would always meet the same part of the cycle. */
  private static final long MAT_PERIOD_MS = Duration.ofMinutes(23).toMillis();

  private static final double MAT_ON_FRACTION = 0.4;
  private static final double MAT_SWING_C = 0.8;
  private static final double BOILER_PERIOD_HOURS = 0.9;
  static final double LAMP_RISE_C = 13.5;
  static final double LAMP_TAU_HOURS = 6;
  private static final double LAMP_STEP_HOURS = 0.5;

  private final DemoCalendar calendar;
  private final Noise noise;
  private final Instant failed;
  private final Instant mended;

  SimulatedTemperatures(DemoCalendar calendar, Noise noise) {
    this.calendar = calendar;
    this.noise = noise;
    this.failed = calendar.at(9, LocalTime.of(1, 30));
    this.mended = calendar.at(9, LocalTime.of(6, 30));
  }

  /** The shed: 15 to 21 °C, coldest at four in the morning. */
  double room(Instant at) {
    double day = Math.cos((calendar.hourOfDay(at) - 16) / 24 * 2 * Math.PI);
    return ROOM_MEAN_C + 2.5 * day + clamped(0.25 * noise.slow(at, Duration.ofHours(5)), 0.5);
  }

  /** The airing cupboard, with the night in which its heating failed. */
  double cupboard(Instant at) {
    if (at.isBefore(failed)) {
      return heatedCupboard(at);
    }
    if (at.isBefore(mended)) {
      return fallen(at);
    }
    double missing = heatedCupboard(mended) - fallen(mended);
    return heatedCupboard(at)
        - missing * Math.exp(-DemoCalendar.hours(mended, at) / REHEATING_HOURS);
  }

  /** First order: what is left of the difference to the room shrinks with the time constant. */
  private double fallen(Instant at) {
    double left = Math.exp(-DemoCalendar.hours(failed, at) / COOLING_HOURS);
    return room(at) + (heatedCupboard(failed) - room(failed)) * left;
  }

  private double heatedCupboard(Instant at) {
    double hour = calendar.hourOfDay(at);
    double hotWater = 0.5 * bump(hour, 7, 1.2) + 0.6 * bump(hour, 19, 1.5);
    return 30.9 + 0.12 * (room(at) - ROOM_MEAN_C) + hotWater;
  }

  /** From 0 up to 1 at the middle, and down again. */
  private static double bump(double hour, double middle, double width) {
    double distance = (hour - middle) / width;
    return Math.exp(-distance * distance);
  }

  /** A switched heat mat: a sawtooth that rises quickly and falls slowly. */
  double mat(Instant at) {
    double part = (double) Math.floorMod(at.toEpochMilli(), MAT_PERIOD_MS) / MAT_PERIOD_MS;
    double saw =
        part < MAT_ON_FRACTION
            ? 2 * part / MAT_ON_FRACTION - 1
            : 1 - 2 * (part - MAT_ON_FRACTION) / (1 - MAT_ON_FRACTION);
    return 31.7 + MAT_SWING_C * saw + 0.05 * (room(at) - ROOM_MEAN_C);
  }

  /** The shelf beside the boiler. */
  double boiler(Instant at) {
    double cycle =
        Math.sin(DemoCalendar.hours(calendar.start(), at) / BOILER_PERIOD_HOURS * 2 * Math.PI);
    return 30.8 + 0.25 * cycle + 0.1 * (room(at) - ROOM_MEAN_C);
  }

  /**
   * A box with a lamp that is always on and a jar of water in it, tried before any seed is at risk:
   * a first-order body, {@link #LAMP_RISE_C} above a room that it follows with its time constant.
   */
  double lampBox(Instant at) {
    double followed = 0;
    double weights = 0;
    // The room of the past, weighted by what is left of it now; after eight time constants nothing.
    for (double ago = LAMP_STEP_HOURS / 2; ago < 8 * LAMP_TAU_HOURS; ago += LAMP_STEP_HOURS) {
      double weight = Math.exp(-ago / LAMP_TAU_HOURS);
      followed += weight * room(at.minusMillis(Math.round(ago * 3_600_000)));
      weights += weight;
    }
    return LAMP_RISE_C + followed / weights;
  }

  private static double clamped(double value, double most) {
    return Math.max(-most, Math.min(most, value));
  }
}
