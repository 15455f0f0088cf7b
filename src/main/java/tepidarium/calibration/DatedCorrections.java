package tepidarium.calibration;

import java.time.Instant;

/**
 * Corrects readings of a drifting sensor by its corrections at two dates. Before the first date the
 * first correction applies, after the second date the second, and between them a linear
 * interpolation. Source of the propagation of uncertainty: JCGM 100:2008 (GUM).
 *
 * <p>Both corrections usually come from the same reference and share its error. Their uncertainties
 * are therefore added as fully correlated (GUM 5.2.2, equation 16 with correlation 1). For
 * independent corrections the result is too large by at most the factor √2.
 *
 * <p>The sensor may also have drifted in one step, at any instant between the dates with equal
 * probability. Its expected value is the same interpolation. Its variance w (1 − w) · drift² is
 * added, where w is the fraction of the time passed. After the second date the drift may continue
 * or reverse, at most at the same rate: the variance of a rectangular distribution with half-width
 * rate · time is added.
 *
 * @param to after {@code from}
 */
public record DatedCorrections(Instant from, Correction first, Instant to, Correction second) {
  public DatedCorrections {
    if (!from.isBefore(to)) {
      throw new IllegalArgumentException("the second calibration must be later than the first");
    }
  }

  /** Time since the first date, in units of the time between both. */
  private double elapsed(long atMs) {
    long fromMs = from.toEpochMilli();
    return (double) (atMs - fromMs) / (to.toEpochMilli() - fromMs);
  }

  private double share(long atMs) {
    return Math.max(0, Math.min(1, elapsed(atMs)));
  }

  public double corrected(Instant at, double reading) {
    return corrected(at.toEpochMilli(), reading);
  }

  double corrected(long atMs, double reading) {
    double share = share(atMs);
    return (1 - share) * first.corrected(reading) + share * second.corrected(reading);
  }

  /** The change of the corrected value from the first date to the second. */
  public double drift(double reading) {
    return second.corrected(reading) - first.corrected(reading);
  }

  /**
   * Standard uncertainty of a corrected reading.
   *
   * @param repeatability standard uncertainty of the reading itself
   */
  public double uncertainty(Instant at, double reading, double repeatability) {
    double share = share(at.toEpochMilli());
    double beyond = Math.max(0, elapsed(at.toEpochMilli()) - 1);
    double gain = (1 - share) * first.gain() + share * second.gain();
    double square =
        square((1 - share) * first.uncertainty(reading) + share * second.uncertainty(reading))
            + share * (1 - share) * square(drift(reading))
            + square(FixedPoint.ofLimits(beyond * drift(reading)))
            + square(gain * repeatability);
    return Math.sqrt(square);
  }

  private static double square(double value) {
    return value * value;
  }
}
