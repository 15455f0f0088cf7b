package tepidarium.stats;

import java.util.List;
import org.hipparchus.special.Beta;

/**
 * The beta-binomial distribution: hits in trials with a common probability that follows a beta
 * distribution. It predicts a result from a past one: with the prior Beta(½, ½) (Jeffreys, Theory
 * of Probability, 1961) and x hits in n trials, the probability follows Beta(x + ½, n − x + ½).
 *
 * @param alpha above 0
 * @param beta above 0
 */
public record BetaBinomial(double alpha, double beta) {
  private static final double MAX_SPREAD = 0.999;

  public BetaBinomial {
    if (!(alpha > 0 && beta > 0 && alpha + beta < Double.POSITIVE_INFINITY)) {
      throw new IllegalArgumentException(
          "alpha and beta must be above 0, not " + alpha + " and " + beta);
    }
  }

  /** The posterior after a past result, with Jeffreys' prior. */
  public static BetaBinomial after(Proportion past) {
    return after(past, 0.5, 0.5);
  }

  /** The posterior after a past result, with a prior Beta(a, b). */
  public static BetaBinomial after(Proportion past, double a, double b) {
    return new BetaBinomial(past.hits() + a, past.trials() - past.hits() + b);
  }

  /** The distribution with a mean and a spread ρ = 1/(α + β + 1), both above 0 and below 1. */
  public static BetaBinomial ofMean(double mean, double spread) {
    double size = 1 / spread - 1;
    return new BetaBinomial(mean * size, (1 - mean) * size);
  }

  public double mean() {
    return alpha / (alpha + beta);
  }

  /** The spread ρ: the correlation of two trials with the same probability, 0 to 1. */
  public double spread() {
    return 1 / (alpha + beta + 1);
  }

  /** The natural logarithm of the probability of exactly {@code hits} hits. */
  public double logProbability(int hits, int trials) {
    return logChoose(trials, hits)
        + Beta.logBeta(hits + alpha, trials - hits + beta)
        - Beta.logBeta(alpha, beta);
  }

  private static double logChoose(int n, int k) {
    return -Math.log1p(n) - Beta.logBeta(n - k + 1.0, k + 1.0);
  }

  /** The probability of at least {@code wanted} hits. */
  public double atLeast(long wanted, long trials) {
    if (wanted <= 0) {
      return 1;
    }
    if (wanted > trials) {
      return 0;
    }
    double log = Beta.logBeta(alpha, trials + beta) - Beta.logBeta(alpha, beta);
    double sum = Math.exp(log);
    for (long k = 0; k + 1 < wanted; k++) {
      log += Math.log((trials - k) * (k + alpha) / ((k + 1) * (trials - k - 1 + beta)));
      sum += Math.exp(log);
    }
    return Math.max(0, 1 - sum);
  }

  /** The log-likelihood of several groups, each with its own probability. */
  public double logLikelihood(List<Proportion> groups) {
    return groups.stream().mapToDouble(g -> logProbability(g.hits(), g.trials())).sum();
  }

  /**
   * Fits the distribution of the probability over several groups, such as lots. If groups differ no
   * more than by chance, the estimated spread is at its bound of 0, which means one common
   * probability. Source: maximum likelihood; Griffiths, Biometrics 29 (1973) 637-648.
   *
   * @throws IllegalArgumentException for fewer than two groups, or if all or none of the trials
   *     were hits, because the spread is then not identified
   */
  public static BetaBinomial fit(List<Proportion> groups) {
    int hits = groups.stream().mapToInt(Proportion::hits).sum();
    int trials = groups.stream().mapToInt(Proportion::trials).sum();
    if (groups.size() < 2 || hits == 0 || hits == trials) {
      throw new IllegalArgumentException(
          "the spread between groups cannot be estimated: at least two groups, with some hits and"
              + " some misses, are needed");
    }
    double logit = Math.log((double) hits / (trials - hits));
    BetaBinomial best = at(logit, -4);
    for (double start : new double[] {-9, -6, -4, -2, -0.5, 1}) {
      double[] found =
          Maximum.climb(x -> at(x[0], x[1]).logLikelihood(groups), new double[] {logit, start});
      BetaBinomial candidate = at(found[0], found[1]);
      if (candidate.logLikelihood(groups) > best.logLikelihood(groups)) {
        best = candidate;
      }
    }
    return best;
  }

  private static BetaBinomial at(double logitMean, double logitSpread) {
    double mean = 1 / (1 + Math.exp(-Math.max(-30, Math.min(30, logitMean))));
    double spread = 1 / (1 + Math.exp(-Math.max(-13, logitSpread)));
    return ofMean(Math.min(Math.max(mean, 1e-12), 1 - 1e-12), Math.min(spread, MAX_SPREAD));
  }
}
