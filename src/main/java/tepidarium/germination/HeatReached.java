package tepidarium.germination;

import java.util.OptionalDouble;
import tepidarium.stats.Linear;

/** Finds the time at which a heat sum is reached. Temperature is linear between readings. */
public final class HeatReached {
  private HeatReached() {}

  /**
   * The first time at which the integral of max(0, T − base) reaches a target; empty if it does not
   * within the readings.
   *
   * @param hours times of the readings, h, ascending
   * @param temperatureC temperature at each time, °C
   * @param degreeHours target, °C·h, above 0
   */
  public static OptionalDouble at(
      double[] hours, double[] temperatureC, double baseC, double degreeHours) {
    double missing = degreeHours;
    for (int i = 1; i < hours.length; i++) {
      double length = hours[i] - hours[i - 1];
      double start = temperatureC[i - 1];
      double end = temperatureC[i];
      double heat = length * Linear.meanAbove(start, end, baseC);
      if (heat >= missing && heat > 0) {
        double slope = (end - start) / length;
        double wait = start < baseC ? length * Linear.crossing(start, end, baseC) : 0;
        double excess = Math.max(0, start - baseC);
        double root = Math.sqrt(Math.max(0, excess * excess + 2 * slope * missing));
        return OptionalDouble.of(hours[i - 1] + wait + 2 * missing / (excess + root));
      }
      missing -= heat;
    }
    return OptionalDouble.empty();
  }
}
