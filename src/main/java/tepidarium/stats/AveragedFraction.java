package tepidarium.stats;

import java.util.ArrayList;
import java.util.List;
import org.apache.commons.statistics.distribution.NormalDistribution;

/**
 * Computes the 95 % interval of the final fraction when the family of the curve is not known: the
 * model-averaged profile likelihood interval. At its lower end the mean over the families of Φ(r)
 * is 0.975, at its upper end 0.025. There r is the signed root of twice the drop of a family's
 * profile log-likelihood, and a family weighs exp(−AIC / 2). Source: Fletcher and Turek, Journal of
 * Agricultural, Biological, and Environmental Statistics 17 (2012) 38-51.
 */
final class AveragedFraction {
  private static final NormalDistribution NORMAL = NormalDistribution.of(0, 1);
  private static final int STEPS = 30;

  /**
   * The fit of one family.
   *
   * @param profile profile likelihood of the logit of the final fraction
   * @param logit logit with the highest likelihood
   * @param logLikelihood highest log-likelihood
   * @param limits 95 % interval of the final fraction with this family alone
   */
  record Family(Profile profile, double logit, double logLikelihood, ConfidenceInterval limits) {
    private double tail(double at) {
      double root = profile.rootDrop(at);
      return NORMAL.cumulativeProbability(at < logit ? root : -root);
    }
  }

  private final List<Family> families;
  private final List<Double> weights = new ArrayList<>();

  /**
   * Averages over families fitted to the same rows with the same number of parameters.
   *
   * @param families at least one
   */
  AveragedFraction(List<Family> families) {
    this.families = List.copyOf(families);
    double top = families.stream().mapToDouble(Family::logLikelihood).max().orElseThrow();
    double sum = families.stream().mapToDouble(f -> Math.exp(f.logLikelihood() - top)).sum();
    families.forEach(f -> weights.add(Math.exp(f.logLikelihood() - top) / sum));
  }

  private double tail(double logit) {
    double sum = 0;
    for (int i = 0; i < families.size(); i++) {
      sum += weights.get(i) * families.get(i).tail(logit);
    }
    return sum;
  }

  ConfidenceInterval limits() {
    double tail = (1 - ConfidenceInterval.LEVEL) / 2;
    double[] lows =
        families.stream().mapToDouble(f -> Logit.of(f.limits().low())).sorted().toArray();
    double[] highs =
        families.stream().mapToDouble(f -> Logit.of(f.limits().high())).sorted().toArray();
    double low = end(lows[0], lows[lows.length - 1], 1 - tail);
    double high = end(highs[0], highs[highs.length - 1], tail);
    return new ConfidenceInterval(Logit.fraction(low), Logit.fraction(high));
  }

  /** One end of the interval. It lies between the lowest and highest end of the families. */
  private double end(double least, double most, double wanted) {
    double low = Math.max(least, -IntervalFit.BOUND_LOGIT);
    double high = Math.min(most, IntervalFit.BOUND_LOGIT);
    if (most > high && tail(high) > wanted) {
      return Double.POSITIVE_INFINITY;
    }
    if (least < low && tail(low) < wanted) {
      return Double.NEGATIVE_INFINITY;
    }
    for (int i = 0; i < STEPS && low < high; i++) {
      double middle = (low + high) / 2;
      if (tail(middle) > wanted) {
        low = middle;
      } else {
        high = middle;
      }
    }
    return (low + high) / 2;
  }
}
