package tepidarium.stats;

import org.apache.commons.statistics.interval.BinomialConfidenceInterval;
import org.apache.commons.statistics.interval.Interval;

/**
 * So many hits in so many trials, each trial independent and with the same chance.
 *
 * @param hits 0 to {@code trials}
 * @param trials at least 1
 */
public record Proportion(int hits, int trials) {
  public Proportion {
    if (trials < 1) {
      throw new IllegalArgumentException("at least one trial is needed, not " + trials);
    }
    if (hits < 0 || hits > trials) {
      throw new IllegalArgumentException(hits + " hits in " + trials + " trials");
    }
  }

  /** Hits by trials, 0 to 1. */
  public double fraction() {
    return (double) hits / trials;
  }

  /**
   * The score interval at 95 % without continuity correction. Source: Wilson, Journal of the
   * American Statistical Association 22 (1927) 209-212; method 3 of Newcombe, Statistics in
   * Medicine 17 (1998) 857-872.
   */
  public Limits wilson() {
    return limits(BinomialConfidenceInterval.WILSON_SCORE);
  }

  /**
   * The exact interval at 95 %, which covers at least so often. Source: Clopper and Pearson,
   * Biometrika 26 (1934) 404-413; method 5 of Newcombe (1998).
   */
  public Limits exact() {
    return limits(BinomialConfidenceInterval.CLOPPER_PEARSON);
  }

  private Limits limits(BinomialConfidenceInterval method) {
    Interval found = method.fromErrorRate(trials, hits, 1 - Limits.LEVEL);
    double low = hits == 0 ? 0 : found.getLowerBound();
    double high = hits == trials ? 1 : found.getUpperBound();
    return new Limits(low, high);
  }
}
