package tepidarium.heat;

/**
 * Heat summed over a period. The sums of adjoining periods add up to the sum over both.
 *
 * @param degreeHours heat in covered time, °C·h
 * @param hoursAboveBase covered time above the base temperature, h
 * @param coveredMs time between readings that are at most the longest gap apart, ms
 * @param gapMs time without known temperature, ms
 * @param leftOutMs part of the gaps that readings would cover if none were left out because of
 *     faults, ms
 */
public record HeatSum(
    double degreeHours, double hoursAboveBase, long coveredMs, long gapMs, long leftOutMs) {
  public static final HeatSum ZERO = gap(0);
  static final double MS_PER_HOUR = 3_600_000.0;

  /** A time without any readings. */
  public static HeatSum gap(long ms) {
    return new HeatSum(0, 0, 0, ms, 0);
  }

  public HeatSum plus(HeatSum other) {
    return new HeatSum(
        degreeHours + other.degreeHours,
        hoursAboveBase + other.hoursAboveBase,
        coveredMs + other.coveredMs,
        gapMs + other.gapMs,
        leftOutMs + other.leftOutMs);
  }

  public double coveredHours() {
    return coveredMs / MS_PER_HOUR;
  }

  public double gapHours() {
    return gapMs / MS_PER_HOUR;
  }

  public double leftOutHours() {
    return leftOutMs / MS_PER_HOUR;
  }

  /** The lower bound of the heat, °C·h: none in the gaps. */
  public double lower() {
    return degreeHours;
  }

  /**
   * The upper bound of the heat, °C·h: gaps at the ceiling or, without one, at the high limit of
   * the band.
   *
   * @param highLimitC high limit of the container's band, °C
   */
  public double upper(HeatRule rule, double highLimitC) {
    Double ceiling = rule.ceilingC();
    return degreeHours + gapHours() * rule.gain(ceiling == null ? highLimitC : ceiling);
  }
}
