package tepidarium.rollup;

/**
 * Covered time and time outside one limit of the band.
 *
 * @param coveredMs time covered by readings of the limit's quantity, ms
 * @param outsideMs covered time outside the limit, ms
 */
public record LimitTime(long coveredMs, double outsideMs) {
  public static final LimitTime NONE = new LimitTime(0, 0);

  public LimitTime plus(LimitTime other) {
    return new LimitTime(coveredMs + other.coveredMs, outsideMs + other.outsideMs);
  }
}
