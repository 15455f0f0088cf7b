package tepidarium.heat;

import org.jspecify.annotations.Nullable;
import tepidarium.container.ContainerSettings;
import tepidarium.stats.Linear;

/**
 * What temperature is worth to the seeds: nothing below the base, no more above the ceiling than at
 * it.
 *
 * @param baseC base temperature, °C
 * @param ceilingC ceiling temperature, °C, or null for none
 * @throws IllegalArgumentException when the ceiling does not lie above the base
 */
public record HeatRule(double baseC, @Nullable Double ceilingC) {
  public HeatRule {
    if (!Double.isFinite(baseC)
        || (ceilingC != null && !(ceilingC > baseC && Double.isFinite(ceilingC)))) {
      throw new IllegalArgumentException(
          "the ceiling temperature " + ceilingC + " °C must lie above the base " + baseC + " °C");
    }
  }

  /** By the base and ceiling of a container. */
  public static HeatRule of(ContainerSettings settings) {
    return new HeatRule(settings.baseC(), settings.ceilingC());
  }

  /** The mean of max(0, min(T, ceiling) − base) over a straight line, °C. */
  public double meanGain(double startC, double endC) {
    double gain = Linear.meanAbove(startC, endC, baseC);
    return ceilingC == null ? gain : gain - Linear.meanAbove(startC, endC, ceilingC);
  }

  /**
   * The rule by which temperatures give what they give by this rule when all of them are lowered;
   * raised, where the step is negative.
   */
  HeatRule forTemperaturesLoweredBy(double stepC) {
    return new HeatRule(baseC + stepC, ceilingC == null ? null : ceilingC + stepC);
  }

  /** What one hour at a steady temperature is worth, °C·h. */
  public double gain(double temperatureC) {
    return meanGain(temperatureC, temperatureC);
  }
}
