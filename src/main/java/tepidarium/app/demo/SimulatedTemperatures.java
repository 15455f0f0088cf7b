package tepidarium.app.demo;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalTime;

/**
 * Simulates the temperatures of the room and of the heat sources, in °C. All figures are invented.
 */
final class SimulatedTemperatures {
  private static final double ROOM_MEAN_C = 18;
  private static final double COOLING_HOURS = 8.5;
  private static final double REHEATING_HOURS = 1.2;

  /**
   * Not a multiple of the reporting interval, so that the readings cover all parts of the cycle.
   */
  private static final long MAT_PERIOD_MS = Duration.ofMinutes(23).toMillis();

  private static final double MAT_ON_FRACTION = 0.4;
  private static final double MAT_AMPLITUDE_C = 0.8;
  private static final double BOILER_PERIOD_HOURS = 0.9;
  static final double LAMP_RISE_C = 13.5;
  static final double LAMP_TAU_HOURS = 6;
  private static final double LAMP_STEP_HOURS = 0.5;

  private final DemoCalendar calendar;
  private final Noise noise;
  private final Instant failed;
  private final Instant repaired;

  SimulatedTemperatures(DemoCalendar calendar, Noise noise) {
    this.calendar = calendar;
    this.noise = noise;
    this.failed = calendar.at(9, LocalTime.of(1, 30));
    this.repaired = calendar.at(9, LocalTime.of(6, 30));
  }

  /** The room: 15 to 21 °C, coldest at 04:00. */
  double room(Instant at) {
    double day = Math.cos((calendar.hourOfDay(at) - 16) / 24 * 2 * Math.PI);
    return ROOM_MEAN_C + 2.5 * day + clamped(0.25 * noise.slow(at, Duration.ofHours(5)), 0.5);
  }

  /** The airing cupboard, with a heating failure in one night. */
  double cupboard(Instant at) {
    if (at.isBefore(failed)) {
      return heatedCupboard(at);
    }
    if (at.isBefore(repaired)) {
      return cooling(at);
    }
    double deficit = heatedCupboard(repaired) - cooling(repaired);
    return heatedCupboard(at)
        - deficit * Math.exp(-DemoCalendar.hours(repaired, at) / REHEATING_HOURS);
  }

  /** First-order cooling towards the room temperature. */
  private double cooling(Instant at) {
    double remaining = Math.exp(-DemoCalendar.hours(failed, at) / COOLING_HOURS);
    return room(at) + (heatedCupboard(failed) - room(failed)) * remaining;
  }

  private double heatedCupboard(Instant at) {
    double hour = calendar.hourOfDay(at);
    double hotWater = 0.5 * bellCurve(hour, 7, 1.2) + 0.6 * bellCurve(hour, 19, 1.5);
    return 30.9 + 0.12 * (room(at) - ROOM_MEAN_C) + hotWater;
  }

  /** A bell curve with its maximum of 1 at the middle. */
  private static double bellCurve(double hour, double middle, double width) {
    double distance = (hour - middle) / width;
    return Math.exp(-distance * distance);
  }

  /** A switched heat mat: a sawtooth that rises faster than it falls. */
  double mat(Instant at) {
    double phase = (double) Math.floorMod(at.toEpochMilli(), MAT_PERIOD_MS) / MAT_PERIOD_MS;
    double sawtooth =
        phase < MAT_ON_FRACTION
            ? 2 * phase / MAT_ON_FRACTION - 1
            : 1 - 2 * (phase - MAT_ON_FRACTION) / (1 - MAT_ON_FRACTION);
    return 31.7 + MAT_AMPLITUDE_C * sawtooth + 0.05 * (room(at) - ROOM_MEAN_C);
  }

  /** The shelf beside the boiler. */
  double boiler(Instant at) {
    double cycle =
        Math.sin(DemoCalendar.hours(calendar.start(), at) / BOILER_PERIOD_HOURS * 2 * Math.PI);
    return 30.8 + 0.25 * cycle + 0.1 * (room(at) - ROOM_MEAN_C);
  }

  /**
   * A trial box without seeds, with a lamp that is always on and a jar of water. A first-order
   * system: it follows the room temperature with {@link #LAMP_TAU_HOURS} and is {@link
   * #LAMP_RISE_C} warmer.
   */
  double lampBox(Instant at) {
    double weightedSum = 0;
    double weightSum = 0;
    // Mean of the past room temperature with exponential weights, cut off at 8 time constants.
    for (double ago = LAMP_STEP_HOURS / 2; ago < 8 * LAMP_TAU_HOURS; ago += LAMP_STEP_HOURS) {
      double weight = Math.exp(-ago / LAMP_TAU_HOURS);
      weightedSum += weight * room(at.minusMillis(Math.round(ago * 3_600_000)));
      weightSum += weight;
    }
    return LAMP_RISE_C + weightedSum / weightSum;
  }

  private static double clamped(double value, double limit) {
    return Math.max(-limit, Math.min(limit, value));
  }
}
