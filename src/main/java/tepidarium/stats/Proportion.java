package tepidarium.stats;

import org.apache.commons.statistics.distribution.NormalDistribution;
import org.apache.commons.statistics.interval.BinomialConfidenceInterval;
import org.apache.commons.statistics.interval.Interval;

/**
 * Hits in a number of independent trials with the same probability.
 *
 * @param hits 0 to {@code trials}
 * @param trials at least 1
 */
public record Proportion(int hits, int trials) {
  private static final double Z =
      NormalDistribution.of(0, 1)
          .inverseCumulativeProbability(1 - (1 - ConfidenceInterval.LEVEL) / 2);

  public Proportion {
    if (trials < 1) {
      throw new IllegalArgumentException("at least one trial is needed, not " + trials);
    }
    if (hits < 0 || hits > trials) {
      throw new IllegalArgumentException("hits must be from 0 to " + trials + ", not " + hits);
    }
  }

  /** Hits divided by trials, 0 to 1. */
  public double fraction() {
    return (double) hits / trials;
  }

  /**
   * The score interval at 95 % without continuity correction. Source: Wilson, Journal of the
   * American Statistical Association 22 (1927) 209-212; method 3 of Newcombe, Statistics in
   * Medicine 17 (1998) 857-872.
   */
  public ConfidenceInterval wilson() {
    return limits(BinomialConfidenceInterval.WILSON_SCORE);
  }

  /**
   * The exact interval with a coverage of at least 95 %. Source: Clopper and Pearson, Biometrika 26
   * (1934) 404-413; method 5 of Newcombe (1998).
   */
  public ConfidenceInterval exact() {
    return limits(BinomialConfidenceInterval.CLOPPER_PEARSON);
  }

  /**
   * Wilson's score interval for a fraction seen in an effective number of trials, which need not be
   * whole.
   */
  static ConfidenceInterval wilson(double fraction, double trials) {
    return wilson(fraction, trials, Z);
  }

  /**
   * Wilson's score interval with any quantile.
   *
   * @param z such as 1.96, or Student's t
   */
  static ConfidenceInterval wilson(double fraction, double trials, double z) {
    double share = z * z / trials;
    double middle = (fraction + share / 2) / (1 + share);
    double reach = z * Math.sqrt((fraction * (1 - fraction) + share / 4) / trials) / (1 + share);
    return new ConfidenceInterval(Math.max(0, middle - reach), Math.min(1, middle + reach));
  }

  private ConfidenceInterval limits(BinomialConfidenceInterval method) {
    Interval found = method.fromErrorRate(trials, hits, 1 - ConfidenceInterval.LEVEL);
    double low = hits == 0 ? 0 : found.getLowerBound();
    double high = hits == trials ? 1 : found.getUpperBound();
    return new ConfidenceInterval(low, high);
  }
}
