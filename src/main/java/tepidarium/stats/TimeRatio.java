package tepidarium.stats;

import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.apache.commons.statistics.distribution.ChiSquaredDistribution;

/**
 * Estimates the ratio of event times of two groups from interval-censored rows: ln T = μ + δ ·
 * (second group) + σ W. All individuals have their event in the end. Seeds of one container are not
 * independent: the interval is too narrow by the root of the {@link Dispersion}. Source:
 * accelerated failure time, Kalbfleisch and Prentice, The Statistical Analysis of Failure Time Data
 * (2002), chapter 3.
 *
 * @param logRatio δ
 * @param error the standard error of δ
 * @param limits of the ratio exp(δ), profile likelihood, 95 %
 * @param logLikelihood log-likelihood with δ fitted
 * @param logLikelihoodOfOne log-likelihood with δ = 0
 */
public record TimeRatio(
    double mu,
    double sigma,
    double logRatio,
    double error,
    ConfidenceInterval limits,
    double logLikelihood,
    double logLikelihoodOfOne) {

  /**
   * Estimates the ratio of the second group to the first; empty if the fit of a group or of both is
   * not identified.
   */
  public static Optional<TimeRatio> of(
      TimeFamily family, List<Censored> first, List<Censored> second) {
    TimeModel model = new TimeModel(family, false);
    IntervalFit one = IntervalFit.of(model, first);
    IntervalFit two = IntervalFit.of(model, second);
    IntervalFit both =
        IntervalFit.of(model, Stream.concat(first.stream(), second.stream()).toList());
    if (!one.identified() || !two.identified() || !both.identified()) {
      return Optional.empty();
    }
    Maximum.Smooth joint = joint(one.likelihood(), two.likelihood());
    double[] start = {
      one.estimate().mu(),
      Math.log((one.estimate().sigma() + two.estimate().sigma()) / 2),
      two.estimate().mu() - one.estimate().mu()
    };
    Maximum.Top top = Maximum.newton(joint, start);
    double error = Math.sqrt(Maximum.covariance(joint, top.at())[2][2]);
    double drop =
        Math.sqrt(
            ChiSquaredDistribution.of(1).inverseCumulativeProbability(ConfidenceInterval.LEVEL));
    double low = new Profile(joint, top.at(), top.value(), 2).end(-drop * error, drop);
    double high = new Profile(joint, top.at(), top.value(), 2).end(drop * error, drop);
    return Optional.of(
        new TimeRatio(
            top.at()[0],
            Math.exp(top.at()[1]),
            top.at()[2],
            error,
            new ConfidenceInterval(Math.exp(low), Math.exp(high)),
            top.value(),
            both.estimate().logLikelihood()));
  }

  private static Maximum.Smooth joint(IntervalLikelihood one, IntervalLikelihood two) {
    return (x, slope) -> {
      double[] slopeOne = new double[2];
      double[] slopeTwo = new double[2];
      double value =
          one.value(new double[] {x[0], x[1]}, slopeOne)
              + two.value(new double[] {x[0] + x[2], x[1]}, slopeTwo);
      slope[0] = slopeOne[0] + slopeTwo[0];
      slope[1] = slopeOne[1] + slopeTwo[1];
      slope[2] = slopeTwo[0];
      return value;
    };
  }

  public double ratio() {
    return Math.exp(logRatio);
  }

  /** The likelihood-ratio statistic, one degree of freedom. */
  public double chiSquare() {
    return Math.max(0, 2 * (logLikelihood - logLikelihoodOfOne));
  }

  public double p() {
    return ChiSquaredDistribution.of(1).survivalProbability(chiSquare());
  }
}
