package tepidarium.container;

import java.time.Duration;
import java.time.Instant;

/**
 * Corrects readings of a sensor that drifts, from its corrections at two dates: linear between
 * them, the earlier before, the later after. Source of the propagation: JCGM 100:2008 (GUM).
 *
 * <p>Both corrections usually come from one reference, whose error they share. Their uncertainties
 * are therefore added as fully correlated (GUM 5.2.2, equation 16 with correlation 1), which is too
 * much by at most the factor √2 where they are independent.
 *
 * <p>Between the dates the drift may also have come all at once, at any instant with equal
 * probability. The mean of that is the same straight line, and its variance w (1 − w) · drift²,
 * with w the share of time gone by, is added. After the later date the drift may go on or turn, at
 * most at the rate seen: a rectangular distribution of half-width rate · time is added.
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
  private double elapsed(Instant at) {
    return (double) Duration.between(from, at).toMillis() / Duration.between(from, to).toMillis();
  }

  private double share(Instant at) {
    return Math.max(0, Math.min(1, elapsed(at)));
  }

  public double corrected(Instant at, double reading) {
    double share = share(at);
    return (1 - share) * first.corrected(reading) + share * second.corrected(reading);
  }

  /** By how much the corrected value changed from the first date to the second. */
  public double drift(double reading) {
    return second.corrected(reading) - first.corrected(reading);
  }

  /**
   * Standard uncertainty of a corrected reading.
   *
   * @param repeatability standard uncertainty of the reading itself
   */
  public double uncertainty(Instant at, double reading, double repeatability) {
    double share = share(at);
    double beyond = Math.max(0, elapsed(at) - 1);
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
