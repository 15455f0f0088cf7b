package tepidarium.heat;

import java.time.Duration;
import tepidarium.reading.Samples;
import tepidarium.reading.Span;

/**
 * Calculates the degree-hours lost to cold: the heat at the low limit of the band less the received
 * heat, over the time colder than the limit. Time above the limit does not compensate. Gaps add no
 * loss.
 */
public final class LostHeat {
  private LostHeat() {}

  /**
   * The heat lost in a span, °C·h, at least 0.
   *
   * @param temperature °C
   * @param lowC low limit of the band, °C
   */
  public static double of(
      Samples temperature, Span span, HeatRule rule, double lowC, Duration maxGap) {
    double cap = rule.ceilingC() == null ? lowC : Math.min(rule.ceilingC(), lowC);
    if (cap <= rule.baseC()) {
      return 0;
    }
    HeatRule upToLimit = new HeatRule(rule.baseC(), cap);
    HeatSum received = DegreeHours.of(temperature, span, upToLimit, maxGap);
    double wanted = upToLimit.gain(cap) * received.coveredHours();
    return Math.max(0, wanted - received.degreeHours());
  }
}
