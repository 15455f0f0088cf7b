package tepidarium.stats;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.apache.commons.statistics.distribution.NormalDistribution;
import org.hipparchus.linear.EigenDecompositionSymmetric;
import org.hipparchus.random.HaltonSequenceGenerator;
import org.jspecify.annotations.Nullable;

/**
 * The posterior distribution of the parameters of a model with a final fraction, given
 * interval-censored rows, as weighted draws. The draws are a fixed low-discrepancy sequence around
 * the maximum, scaled by the curvature there and weighted by importance sampling (Halton sequence;
 * Robert and Casella, Monte Carlo Statistical Methods, 2004, chapter 3).
 */
public final class Posterior {
  private static final int DRAWS = 1_000;
  private static final int[] PRIMES = {2, 3, 5};

  /** Factor by which draws are spread wider than the curvature, to cover the tails. */
  private static final double WIDER = 1.5;

  /**
   * Minimum effective sample size, as a share of the draws. Below it the draws do not represent the
   * posterior. Common practice, no source.
   */
  private static final double MIN_EFFECTIVE_SHARE = 0.02;

  /** Minimum number of intervals with events if the estimated final fraction is 1. */
  private static final int MIN_INTERVALS = 3;

  /** The logit of a fraction of 0.95. */
  private static final double NEAR_BOUND = 3;

  private static final NormalDistribution NORMAL = NormalDistribution.of(0, 1);

  /** One draw of the parameters with its weight; the weights add up to 1. */
  public record Draw(double mu, double sigma, double finalFraction, double share) {}

  /** The prior distribution: μ, ln σ and ln(p / (1 − p)) are normal and independent. */
  public record Prior(
      double mu,
      double muError,
      double logSigma,
      double logSigmaError,
      double logit,
      double logitError) {
    /** Assumed spread between sowings if there are fewer than three; common practice, no source. */
    private static final double[] USUAL_SPREAD = {0.3, 0.4, 0.8};

    /**
     * The prior from past sowings: the mean of their estimates. Its error includes the spread
     * between them and the error of each. For fewer than three sowings the assumed spread is used.
     *
     * @param past identified fits of the same family with a final fraction
     * @throws IllegalArgumentException if there is none
     */
    public static Prior ofPast(List<IntervalFit> past) {
      if (past.isEmpty()) {
        throw new IllegalArgumentException("at least one past sowing is needed");
      }
      double[] mean = new double[3];
      double[] error = new double[3];
      for (int j = 0; j < 3; j++) {
        double sum = 0;
        double squares = 0;
        double own = 0;
        for (IntervalFit fit : past) {
          double at = fit.at()[j];
          sum += at;
          squares += at * at;
          own += Math.pow(Math.min(fit.standardErrors()[j], 2), 2);
        }
        int n = past.size();
        mean[j] = sum / n;
        double between = n < 2 ? 0 : Math.max(0, (squares - sum * sum / n) / (n - 1));
        double least = n < 3 ? USUAL_SPREAD[j] * USUAL_SPREAD[j] : 0;
        error[j] = Math.sqrt(Math.max(between, least) * (1 + 1.0 / n) + own / n / n);
        error[j] = Math.max(error[j], 0.05);
      }
      return new Prior(mean[0], error[0], mean[1], error[1], mean[2], error[2]);
    }

    /** The logarithm of its maximum density, without a constant that is equal for all priors. */
    private double logTop() {
      return -Math.log(muError * logSigmaError * logitError);
    }

    private double addTo(double[] x, double[] slope) {
      double[] mean = {mu, logSigma, logit};
      double[] error = {muError, logSigmaError, logitError};
      double sum = 0;
      for (int j = 0; j < 3; j++) {
        double z = (x[j] - mean[j]) / error[j];
        sum -= z * z / 2;
        slope[j] -= z / error[j];
      }
      return sum;
    }
  }

  private final TimeFamily family;
  private final List<Draw> draws;
  private final double logEvidence;

  private Posterior(TimeFamily family, List<Draw> draws, double logEvidence) {
    this.family = family;
    this.draws = List.copyOf(draws);
    this.logEvidence = logEvidence;
  }

  /**
   * Calculates the posterior. Without a prior, μ and ln σ have flat priors and p has Beta(½, ½).
   * Empty if rows and prior do not identify the parameters.
   */
  public static Optional<Posterior> of(
      TimeFamily family, List<Censored> all, @Nullable Prior prior) {
    TimeModel model = new TimeModel(family, true);
    IntervalFit fit = IntervalFit.of(model, all);
    double[] start =
        prior == null
            ? start(fit, all)
            : new double[] {prior.mu(), prior.logSigma(), prior.logit()};
    if (start == null) {
      return Optional.empty();
    }
    List<Censored> rows = Censored.compact(all);
    IntervalLikelihood likelihood = new IntervalLikelihood(model, rows);
    Maximum.Smooth weight =
        (x, slope) -> {
          double value = likelihood.value(x, slope);
          if (prior != null) {
            return value + prior.addTo(x, slope);
          }
          double p = Logit.fraction(x[2]);
          slope[2] += 0.5 - p;
          return value + 0.5 * Math.log(p) + 0.5 * Math.log(Logit.fraction(-x[2]));
        };
    Maximum.Top top = Maximum.newton(weight, start);
    return Double.isFinite(top.value())
        ? draw(family, weight, top, prior == null ? 0 : prior.logTop())
        : Optional.empty();
  }

  /**
   * The start of the search. If the estimated final fraction is 1, the other two parameters must be
   * identified without it, with events in at least three intervals: fewer leave the fraction open.
   * Beta(½, ½) keeps the fraction below its bound.
   */
  private static double @Nullable [] start(IntervalFit fit, List<Censored> all) {
    if (fit.identified()) {
      return fit.at();
    }
    IntervalFit whole = IntervalFit.of(new TimeModel(fit.model().family(), false), all);
    long intervals = whole.rows().stream().filter(row -> !row.open()).count();
    return whole.identified() && intervals >= MIN_INTERVALS
        ? new double[] {whole.at()[0], whole.at()[1], NEAR_BOUND}
        : null;
  }

  private static Optional<Posterior> draw(
      TimeFamily family, Maximum.Smooth weight, Maximum.Top top, double logPrior) {
    EigenDecompositionSymmetric curvature = Maximum.curvature(weight, top.at());
    double[][] axis = new double[3][];
    double logVolume = 0;
    for (int j = 0; j < 3; j++) {
      double bend = curvature.getEigenvalue(j);
      if (!(bend < 0)) {
        return Optional.empty();
      }
      double spread = WIDER / Math.sqrt(-bend);
      axis[j] = curvature.getEigenvector(j).mapMultiply(spread).toArray();
      logVolume += Math.log(spread);
    }
    List<double[]> places = new ArrayList<>();
    double[] shares = new double[DRAWS];
    double[] slope = new double[3];
    double sum = 0;
    HaltonSequenceGenerator halton = new HaltonSequenceGenerator(PRIMES.length, PRIMES, null);
    halton.nextVector(); // The first point is 0, whose normal quantile is infinite.
    for (int i = 0; i < DRAWS; i++) {
      double[] net = halton.nextVector();
      double[] x = top.at().clone();
      double squares = 0;
      for (int j = 0; j < 3; j++) {
        double z = NORMAL.inverseCumulativeProbability(net[j]);
        squares += z * z;
        for (int k = 0; k < 3; k++) {
          x[k] += z * axis[j][k];
        }
      }
      places.add(x);
      shares[i] = Math.exp(weight.value(x, slope) - top.value() + squares / 2);
      sum += shares[i];
    }
    List<Draw> draws = new ArrayList<>();
    double squaredShares = 0;
    for (int i = 0; i < DRAWS; i++) {
      double share = shares[i] / sum;
      squaredShares += share * share;
      double[] x = places.get(i);
      draws.add(new Draw(x[0], Math.exp(x[1]), Logit.fraction(x[2]), share));
    }
    return 1 / (squaredShares * DRAWS) < MIN_EFFECTIVE_SHARE
        ? Optional.empty()
        : Optional.of(
            new Posterior(
                family, draws, top.value() + logPrior + logVolume + Math.log(sum / DRAWS)));
  }

  public TimeFamily family() {
    return family;
  }

  /**
   * The log-evidence: the logarithm of the likelihood averaged over the prior, without a constant.
   * Compare it only between families with the same rows, all with a prior or all without.
   */
  public double logEvidence() {
    return logEvidence;
  }

  public List<Draw> draws() {
    return draws;
  }

  /** The probability of an event by {@code to}, given none by {@code from}. */
  public double meets(Draw draw, double from, double to) {
    double p = draw.finalFraction();
    double left = family.below((Math.log(from) - draw.mu()) / draw.sigma());
    double between =
        to == Double.POSITIVE_INFINITY
            ? 1 - left
            : family.between(
                (Math.log(from) - draw.mu()) / draw.sigma(),
                (Math.log(to) - draw.mu()) / draw.sigma());
    double still = 1 - p * left;
    return still <= 0 ? 1 : Math.min(1, p * between / still);
  }
}
