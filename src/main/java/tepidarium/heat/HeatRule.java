package tepidarium.heat;

import org.jspecify.annotations.Nullable;
import tepidarium.container.ContainerSettings;
import tepidarium.stats.Linear;

/**
 * Converts temperature to heat: none below the base temperature, and above the ceiling the same as
 * at the ceiling.
 *
 * @param baseC base temperature, °C
 * @param ceilingC ceiling temperature, °C; null if none
 * @throws IllegalArgumentException if the ceiling is not above the base
 */
public record HeatRule(double baseC, @Nullable Double ceilingC) {
  public HeatRule {
    if (!Double.isFinite(baseC)
        || (ceilingC != null && !(ceilingC > baseC && Double.isFinite(ceilingC)))) {
      throw new IllegalArgumentException(
          "the ceiling temperature " + ceilingC + " °C must lie above the base " + baseC + " °C");
    }
  }

  /** The rule with the base and ceiling of a container. */
  public static HeatRule of(ContainerSettings settings) {
    return new HeatRule(settings.baseC(), settings.ceilingC());
  }

  /** The mean of max(0, min(T, ceiling) − base) over a straight line, °C. */
  public double meanGain(double startC, double endC) {
    double gain = Linear.meanAbove(startC, endC, baseC);
    return ceilingC == null ? gain : gain - Linear.meanAbove(startC, endC, ceilingC);
  }

  /**
   * The rule that gives the same heat as this one when all temperatures are lower by a step, or
   * higher if the step is negative: base and ceiling rise by the step.
   */
  HeatRule forTemperaturesLoweredBy(double stepC) {
    return new HeatRule(baseC + stepC, ceilingC == null ? null : ceilingC + stepC);
  }

  /** The heat of one hour at a constant temperature, °C·h. */
  public double gain(double temperatureC) {
    return meanGain(temperatureC, temperatureC);
  }
}
