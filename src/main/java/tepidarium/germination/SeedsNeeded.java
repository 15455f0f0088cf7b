package tepidarium.germination;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalLong;
import java.util.function.LongToDoubleFunction;
import java.util.stream.DoubleStream;
import org.apache.commons.numbers.gamma.RegularizedBeta;
import tepidarium.stats.BetaBinomial;
import tepidarium.stats.Proportion;

/**
 * How many seeds to sow so that at least so many germinate with a stated confidence. Every way adds
 * luck; the later ones also add what is not known about the fraction. None is answered where more
 * than {@value #MOST_SEEDS} seeds would be needed.
 */
public final class SeedsNeeded {
  public static final int MOST_SEEDS = 1_000_000_000;

  private static final int MEANS = 60;
  private static final int SPREADS = 24;
  private static final double ROUNDING = 1e-12;

  private SeedsNeeded() {}

  /**
   * With a fraction that is taken as known: the fewest n with P(X ≥ wanted) ≥ confidence for X
   * binomial, a quantile of the negative binomial distribution.
   *
   * @param wanted at least 1
   * @param confidence above 0 and below 1
   * @param fraction above 0 and at most 1
   */
  public static OptionalLong knownFraction(int wanted, double confidence, double fraction) {
    if (!(fraction > 0 && fraction <= 1)) {
      throw new IllegalArgumentException("the fraction must be above 0 and at most 1");
    }
    return fewest(wanted, confidence, n -> binomialAtLeast(wanted, (double) n, fraction));
  }

  /** P(X ≥ wanted) = I(p; wanted, n − wanted + 1), the regularised incomplete beta function. */
  static double binomialAtLeast(double wanted, double n, double fraction) {
    if (wanted <= 0) {
      return 1;
    }
    if (wanted > n) {
      return 0;
    }
    return fraction == 1 ? 1 : RegularizedBeta.value(fraction, wanted, n - wanted + 1.0);
  }

  /**
   * After one past result, the fraction being as uncertain as that result leaves it: beta-binomial
   * with Jeffreys' prior Beta(½, ½), see {@link BetaBinomial#after(Proportion)}. The next lot is
   * taken to be like the past one.
   */
  public static OptionalLong afterResult(int wanted, double confidence, Proportion past) {
    return after(wanted, confidence, BetaBinomial.after(past));
  }

  /** With a fraction that follows a beta distribution. */
  public static OptionalLong after(int wanted, double confidence, BetaBinomial fraction) {
    return fewest(wanted, confidence, n -> fraction.atLeast(wanted, n));
  }

  /**
   * After several past lots, for a lot that is not yet known: lots differ, each with a fraction of
   * its own from one beta distribution, whose mean and spread are as uncertain as the lots leave
   * them. Summed over a grid of both, with the prior Beta(½, ½) for the mean and Beta(1, 5) for the
   * spread ρ (lots of one species usually differ by less than ρ = 0.2; common practice, no source).
   *
   * @param lots at least two
   */
  public static OptionalLong afterLots(int wanted, double confidence, List<Proportion> lots) {
    if (lots.size() < 2) {
      throw new IllegalArgumentException("it takes two lots to see how far lots differ");
    }
    List<BetaBinomial> nodes = new ArrayList<>();
    List<Double> logs = new ArrayList<>();
    for (int i = 0; i < MEANS; i++) {
      // Equal steps of the arcsine are equal shares of the prior of the mean.
      double mean = Math.pow(Math.sin((i + 0.5) / MEANS * Math.PI / 2), 2);
      for (int j = 0; j < SPREADS; j++) {
        // Equal steps of the quantile are equal shares of the prior of the spread.
        double spread = 1 - Math.pow(1 - (j + 0.5) / SPREADS, 0.2);
        BetaBinomial node = BetaBinomial.ofMean(mean, spread);
        nodes.add(node);
        logs.add(node.logLikelihood(lots));
      }
    }
    double most = logs.stream().mapToDouble(log -> log).max().orElseThrow();
    double[] weights = logs.stream().mapToDouble(log -> Math.exp(log - most)).toArray();
    double sum = DoubleStream.of(weights).sum();
    return fewest(
        wanted,
        confidence,
        n -> {
          double probability = 0;
          for (int i = 0; i < weights.length; i++) {
            if (weights[i] > 1e-7) {
              probability += weights[i] / sum * nodes.get(i).atLeast(wanted, n);
            }
          }
          return probability;
        });
  }

  /** The probability rises with n, so that the first n that is enough is found by halving. */
  private static OptionalLong fewest(
      int wanted, double confidence, LongToDoubleFunction probability) {
    if (wanted < 1) {
      throw new IllegalArgumentException("wanted must be at least 1");
    }
    if (!(confidence > 0 && confidence < 1)) {
      throw new IllegalArgumentException("the confidence must lie between 0 and 1");
    }
    double needed = confidence - ROUNDING;
    long enough = wanted;
    while (probability.applyAsDouble(enough) < needed) {
      enough *= 2;
      if (enough > MOST_SEEDS) {
        if (probability.applyAsDouble(MOST_SEEDS) < needed) {
          return OptionalLong.empty();
        }
        enough = MOST_SEEDS;
        break;
      }
    }
    long few = wanted - 1L;
    while (enough - few > 1) {
      long middle = (few + enough) / 2;
      if (probability.applyAsDouble(middle) < needed) {
        few = middle;
      } else {
        enough = middle;
      }
    }
    return OptionalLong.of(enough);
  }
}
