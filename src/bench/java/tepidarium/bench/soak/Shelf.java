package tepidarium.bench.soak;

import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.Random;

/**
 * Eight containers with a sensor each. The first sensor never fails and has a mean of exactly 30
 * °C. The others have warmer days and colder nights, some of them too cold, and die for some days
 * again and again. Everything is a function of the time, so that what was sent can be counted
 * again.
 */
final class Shelf {
  static final int SENSORS = 8;

  /** Mean temperature of the first container, °C. */
  static final double STEADY_C = 30;

  private static final int HOURS_PER_DAY = 24;

  private final Plan plan;
  private final int readingsPerStep;

  Shelf(Plan plan) {
    this.plan = plan;
    this.readingsPerStep = plan.readingsPerStep();
  }

  static String sensor(int number) {
    return "box-" + (number + 1);
  }

  /** Whether a sensor sends in the hour of a step. */
  boolean isAlive(int sensor, int step) {
    if (sensor == 0) {
      return true;
    }
    int period = HOURS_PER_DAY * (7 + 5 * sensor);
    int dead = HOURS_PER_DAY / 2 * (1 + sensor % 4) + 5;
    return (step + 150 * sensor) % period < period - dead;
  }

  /** The number of readings that a sensor has in a step. */
  int readings(int sensor, int step) {
    return isAlive(sensor, step) ? readingsPerStep : 0;
  }

  /** The readings of a sensor in a step, as one JSON array. */
  byte[] payload(int sensor, int step) {
    StringBuilder array = new StringBuilder("[");
    Instant begin = plan.start().plus(Plan.STEP.multipliedBy(step));
    double weather = new Random(1_000L * sensor + step / HOURS_PER_DAY).nextDouble();
    for (int i = 1; i <= readingsPerStep; i++) {
      long hundredths = Math.round(100 * temperature(sensor, weather, step, i));
      array
          .append(i == 1 ? "{" : ",{")
          .append("\"temperature\":")
          .append(BigDecimal.valueOf(hundredths, 2))
          .append(",\"humidity\":88.")
          .append((i * 7 + sensor) % 5)
          .append(",\"at\":\"")
          .append(begin.plus(plan.readingEvery().multipliedBy(i)))
          .append("\"}");
    }
    return array.append(']').toString().getBytes(StandardCharsets.UTF_8);
  }

  private double temperature(int sensor, double weather, int step, int i) {
    double ripple = i % 2 == 0 ? 0.1 : -0.1;
    if (sensor == 0) {
      return STEADY_C + ripple;
    }
    double hour = step % HOURS_PER_DAY + (double) i / readingsPerStep;
    double day = 1.2 * Math.sin(2 * Math.PI * (hour - 9) / HOURS_PER_DAY);
    return 31.2 + day - 1.5 * weather + ripple;
  }
}
