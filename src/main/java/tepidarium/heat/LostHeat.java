package tepidarium.heat;

import java.time.Duration;
import tepidarium.reading.Samples;
import tepidarium.reading.Span;

/**
 * Degree-hours lost to cold: what the seeds would have received at the band's low limit, less what
 * they did receive, over the time they were colder than it. Time above the limit makes up for
 * nothing, and gaps lose nothing, since nothing is known of them.
 */
public final class LostHeat {
  private LostHeat() {}

  /**
   * The heat lost in a span, °C·h, never negative.
   *
   * @param temperature °C
   * @param lowC the band's low limit, °C
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
