package tepidarium.stats;

import org.apache.commons.statistics.distribution.NormalDistribution;

/**
 * A location-scale family of times (or heat sums) T: ln T = μ + σ W, named by the distribution of
 * W. Source: Kalbfleisch and Prentice, The Statistical Analysis of Failure Time Data (2002),
 * chapter 2.
 */
public enum TimeFamily {
  /** W is standard normal. */
  LOGNORMAL("lognormal") {
    @Override
    double below(double w) {
      return NORMAL.cumulativeProbability(w);
    }

    @Override
    double above(double w) {
      return NORMAL.survivalProbability(w);
    }

    @Override
    double density(double w) {
      return NORMAL.density(w);
    }

    @Override
    double quantile(double p) {
      return NORMAL.inverseCumulativeProbability(p);
    }
  },
  /** W is standard logistic. */
  LOGLOGISTIC("loglogistic") {
    @Override
    double below(double w) {
      return 1 / (1 + Math.exp(-w));
    }

    @Override
    double above(double w) {
      return 1 / (1 + Math.exp(w));
    }

    @Override
    double density(double w) {
      return below(w) * above(w);
    }

    @Override
    double quantile(double p) {
      return Math.log(p) - Math.log1p(-p);
    }
  },
  /** W is the smallest extreme value: shape 1/σ, scale exp(μ). */
  WEIBULL("weibull") {
    @Override
    double below(double w) {
      return -Math.expm1(-Math.exp(w));
    }

    @Override
    double above(double w) {
      return Math.exp(-Math.exp(w));
    }

    @Override
    double density(double w) {
      return w > 700 ? 0 : Math.exp(w - Math.exp(w));
    }

    @Override
    double quantile(double p) {
      return Math.log(-Math.log1p(-p));
    }
  };

  private static final NormalDistribution NORMAL = NormalDistribution.of(0, 1);

  private final String word;

  TimeFamily(String word) {
    this.word = word;
  }

  /** Its name in the API. */
  public String word() {
    return word;
  }

  /** P(W ≤ w). */
  abstract double below(double w);

  /** P(W > w), exact in the tail. */
  abstract double above(double w);

  abstract double density(double w);

  /** The w with P(W ≤ w) = p, for p above 0 and below 1. */
  abstract double quantile(double p);

  /** P(low &lt; W ≤ high), without loss in either tail. */
  final double between(double low, double high) {
    return low > 0 ? above(low) - above(high) : below(high) - below(low);
  }
}
