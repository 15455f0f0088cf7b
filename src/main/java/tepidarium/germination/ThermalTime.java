package tepidarium.germination;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.apache.commons.statistics.distribution.NormalDistribution;
import tepidarium.stats.Censored;
import tepidarium.stats.IntervalFit;
import tepidarium.stats.TimeFamily;
import tepidarium.stats.TimeModel;

/**
 * A fitted thermal-time model: each seed germinates after its own heat sum above the base
 * temperature. The sums are lognormal over seeds; a fraction of the seeds never germinates. Fitted
 * by maximum likelihood to the heat between checks. Source: Garcia-Huidobro, Monteith and Squire,
 * J. Exp. Bot. 33 (1982) 288-296; Ellis et al., J. Exp. Bot. 37 (1986) 1503-1515; Bradford, Weed
 * Science 50 (2002) 248-260.
 *
 * @param baseC base temperature, °C
 * @param medianHeat median heat of the seeds that germinate, in the unit of the heat, such as °C·h
 * @param sigma standard deviation of the natural logarithm of the heat
 * @param finalFraction fraction of seeds that ever germinate; 1 if it was not fitted
 * @param finalFractionFitted whether the final fraction was fitted
 * @param medianBeyond whether the median is too far above the heat at the checks to be reliable
 */
public record ThermalTime(
    double baseC,
    double medianHeat,
    double sigma,
    double finalFraction,
    boolean finalFractionFitted,
    boolean medianBeyond,
    double logLikelihood) {
  private static final NormalDistribution NORMAL = NormalDistribution.of(0, 1);

  /**
   * Seeds that germinated between two heat sums.
   *
   * @param from heat at the last check at which they had not germinated, at least 0
   * @param to heat at the check at which they had germinated; infinite if they were never seen to
   */
  public record HeatInterval(double from, double to, int count) {
    /** A row of times, converted to heat at a constant temperature. */
    static HeatInterval atConstant(Censored row, double temperatureC, double baseC) {
      double rate = Math.max(0, temperatureC - baseC);
      double to = row.open() ? Double.POSITIVE_INFINITY : rate * row.right();
      return new HeatInterval(rate * row.left(), to, row.count());
    }
  }

  /**
   * Fits the model at one base temperature. Empty if a seed germinated without any heat above this
   * base, or if the counts do not identify the model.
   */
  public static Optional<ThermalTime> at(
      double baseC, List<HeatInterval> intervals, boolean withFinalFraction) {
    return rows(intervals).flatMap(rows -> fit(rows, withFinalFraction)).map(fit -> of(baseC, fit));
  }

  static ThermalTime of(double baseC, IntervalFit fit) {
    IntervalFit.Estimate estimate = fit.estimate();
    return new ThermalTime(
        baseC,
        Math.exp(estimate.mu()),
        estimate.sigma(),
        estimate.finalFraction(),
        fit.model().withFinalFraction(),
        fit.medianBeyond(),
        estimate.logLikelihood());
  }

  /** The intervals as censored rows; empty if a seed germinated without any heat. */
  static Optional<List<Censored>> rows(List<HeatInterval> intervals) {
    List<Censored> rows = new ArrayList<>(intervals.size());
    for (HeatInterval interval : intervals) {
      if (interval.count() > 0) {
        if (!(interval.to() > interval.from())) {
          return Optional.empty();
        }
        rows.add(new Censored(interval.from(), interval.to(), interval.count()));
      }
    }
    return Optional.of(rows);
  }

  /**
   * Fits a lognormal model with a final fraction; without one if the estimated fraction is 1. Empty
   * if the fit is not identified.
   */
  static Optional<IntervalFit> fit(List<Censored> rows, boolean withFinalFraction) {
    if (withFinalFraction) {
      IntervalFit fit = IntervalFit.of(new TimeModel(TimeFamily.LOGNORMAL, true), rows);
      if (!fit.fractionOnBound()) {
        return Optional.of(fit).filter(IntervalFit::identified);
      }
    }
    return Optional.of(IntervalFit.of(new TimeModel(TimeFamily.LOGNORMAL, false), rows))
        .filter(IntervalFit::identified);
  }

  /** σ in decimal logarithms, as often given in the literature. */
  public double sigmaLog10() {
    return sigma / Math.log(10);
  }

  /**
   * Akaike's information criterion.
   *
   * @param baseFitted whether the base was fitted to the same counts and therefore counts as a
   *     parameter
   */
  public double aic(boolean baseFitted) {
    int parameters = 2 + (finalFractionFitted ? 1 : 0) + (baseFitted ? 1 : 0);
    return 2 * parameters - 2 * logLikelihood;
  }

  /**
   * The heat by which a part of the germinating seeds has germinated; the part is above 0 and below
   * 1.
   */
  public double heatFor(double part) {
    return medianHeat * Math.exp(sigma * NORMAL.inverseCumulativeProbability(part));
  }

  /**
   * The time until a part of the germinating seeds has germinated at a constant temperature, h if
   * heat is in °C·h; empty at or below the base. Do not use it far outside the fitted temperatures:
   * above the optimum germination takes longer again.
   */
  public OptionalDouble timeFor(double part, double temperatureC) {
    return temperatureC > baseC
        ? OptionalDouble.of(heatFor(part) / (temperatureC - baseC))
        : OptionalDouble.empty();
  }
}
