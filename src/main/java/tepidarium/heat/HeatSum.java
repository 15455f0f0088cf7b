package tepidarium.heat;

/**
 * Heat added up over a stretch of time. Two sums over adjoining stretches add to the sum over both.
 *
 * @param degreeHours over covered time only, °C·h
 * @param hoursAboveBase covered time in which the temperature was above the base, h
 * @param coveredMs time between readings close enough to be trusted, ms
 * @param gapMs time in which nothing is known, ms
 */
public record HeatSum(double degreeHours, double hoursAboveBase, long coveredMs, long gapMs) {
  public static final HeatSum ZERO = new HeatSum(0, 0, 0, 0);
  static final double MS_PER_HOUR = 3_600_000.0;

  public HeatSum plus(HeatSum other) {
    return new HeatSum(
        degreeHours + other.degreeHours,
        hoursAboveBase + other.hoursAboveBase,
        coveredMs + other.coveredMs,
        gapMs + other.gapMs);
  }

  public double coveredHours() {
    return coveredMs / MS_PER_HOUR;
  }

  public double gapHours() {
    return gapMs / MS_PER_HOUR;
  }

  /** The least that the seeds can have received: nothing during the gaps, °C·h. */
  public double lower() {
    return degreeHours;
  }

  /**
   * The most that the seeds can have received, °C·h: throughout the gaps at the ceiling, or, where
   * there is none, at the band's high limit.
   *
   * @param highLimitC the high limit of the container's band, °C
   */
  public double upper(HeatRule rule, double highLimitC) {
    Double ceiling = rule.ceilingC();
    return degreeHours + gapHours() * rule.gain(ceiling == null ? highLimitC : ceiling);
  }
}
