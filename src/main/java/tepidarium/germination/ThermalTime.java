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
 * The thermal-time model: each seed needs its own sum of heat above the base temperature before it
 * germinates, lognormal over seeds, and a fraction never does. Fitted by maximum likelihood on the
 * heat between checks. Source: Garcia-Huidobro, Monteith and Squire, J. Exp. Bot. 33 (1982)
 * 288-296; Ellis et al., J. Exp. Bot. 37 (1986) 1503-1515; Bradford, Weed Science 50 (2002)
 * 248-260.
 *
 * @param baseC the base temperature that heat is counted from, °C
 * @param medianHeat heat by which half of those that ever germinate have done so, in the unit of
 *     the heat given, such as °C·h
 * @param sigma the standard deviation of the natural logarithm of the heat needed
 * @param finalFraction the fraction that ever germinates; 1 where the counts show no other
 * @param finalFractionFitted whether that is a fitted number
 * @param medianBeyond whether the median lies too far beyond the heat that was seen to be told
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
   * Seeds that germinated while their heat rose from one sum to another.
   *
   * @param from heat at the last check at which they had not germinated, at least 0
   * @param to heat at the check at which they had; infinite where they were never seen to
   */
  public record HeatInterval(double from, double to, int count) {
    /** Counts by heat at a constant temperature. */
    static HeatInterval atConstant(Censored row, double temperatureC, double baseC) {
      double rate = Math.max(0, temperatureC - baseC);
      double to = row.open() ? Double.POSITIVE_INFINITY : rate * row.right();
      return new HeatInterval(rate * row.left(), to, row.count());
    }
  }

  /**
   * The model at one base temperature. None where some seed germinated without any heat above this
   * base, or where the counts cannot tell the numbers.
   */
  public static Optional<ThermalTime> at(
      double baseC, List<HeatInterval> intervals, boolean withFinalFraction) {
    return rows(intervals).flatMap(rows -> fit(rows, withFinalFraction)).map(fit -> of(baseC, fit));
  }

  static ThermalTime of(double baseC, IntervalFit fit) {
    IntervalFit.Estimate e = fit.estimate();
    return new ThermalTime(
        baseC,
        Math.exp(e.mu()),
        e.sigma(),
        e.finalFraction(),
        fit.model().withFinalFraction(),
        fit.medianBeyond(),
        e.logLikelihood());
  }

  /** None where some seed germinated without any heat. */
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
   * Lognormal with a final fraction, or without where the fraction sits on its bound of 1. None
   * where a fit with a final fraction is refused for any other reason.
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

  /** σ in decimal logarithms, as much of the literature gives it. */
  public double sigmaLog10() {
    return sigma / Math.log(10);
  }

  /**
   * Akaike's criterion.
   *
   * @param baseFitted whether the base was chosen by the same counts, and so counts as a number
   */
  public double aic(boolean baseFitted) {
    int numbers = 2 + (finalFractionFitted ? 1 : 0) + (baseFitted ? 1 : 0);
    return 2 * numbers - 2 * logLikelihood;
  }

  /** Heat by which a part of those that ever germinate, above 0 and below 1, have done so. */
  public double heatFor(double part) {
    return medianHeat * Math.exp(sigma * NORMAL.inverseCumulativeProbability(part));
  }

  /**
   * How long that takes at a constant temperature, in h where heat is in °C·h; none at or below the
   * base. Not to be used far outside the temperatures that were fitted: above the optimum it takes
   * longer again.
   */
  public OptionalDouble timeFor(double part, double temperatureC) {
    return temperatureC > baseC
        ? OptionalDouble.of(heatFor(part) / (temperatureC - baseC))
        : OptionalDouble.empty();
  }
}
