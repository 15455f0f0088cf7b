package tepidarium.stats;

/**
 * Fisher's exact test of a two-by-two table, two-sided: the probability, with both margins fixed,
 * of all tables that are no more probable than the observed one. Source: Fisher, The Design of
 * Experiments (1935).
 *
 * <p>Two tables can be equally probable although their computed probabilities differ in the last
 * digits. So every table counts whose probability is at most that of the observed one times 1 +
 * 1e-7, the tolerance that statistical software commonly uses.
 */
final class FisherExact {
  private static final double TIE = 1 + 1e-7;

  private FisherExact() {}

  /**
   * The two-sided p, 0 to 1. Below about 1e-300 it is 0.
   *
   * @param a hits in the first group, of which each has at least one trial
   * @param b hits in the second group
   */
  static double twoSided(Proportion a, Proportion b) {
    long hits = (long) a.hits() + b.hits();
    long least = Math.max(0, hits - b.trials());
    long most = Math.min(a.trials(), hits);
    long mode =
        Math.min(most, (hits + 1) * (a.trials() + 1) / ((long) a.trials() + b.trials() + 2));
    Weights weights = new Weights(a.trials(), b.trials(), hits);
    double limit = weights.between(mode, a.hits()) * TIE;
    double all = 0;
    double extreme = 0;
    double weight = 1;
    for (long k = mode; k <= most && weight > 0; k++) {
      all += weight;
      extreme += weight <= limit ? weight : 0;
      weight *= weights.step(k);
    }
    weight = 1;
    for (long k = mode - 1; k >= least && weight > 0; k--) {
      weight /= weights.step(k);
      all += weight;
      extreme += weight <= limit ? weight : 0;
    }
    return Math.min(1, extreme / all);
  }

  /** Hypergeometric probabilities relative to each other. */
  private record Weights(long trialsA, long trialsB, long hits) {
    /** The probability of k + 1 hits in the first group over that of k. */
    double step(long k) {
      return (double) (trialsA - k) * (hits - k) / ((double) (k + 1) * (trialsB - hits + k + 1));
    }

    /** The probability of {@code to} hits over that of {@code from} hits. */
    double between(long from, long to) {
      double ratio = 1;
      for (long k = from; k < to; k++) {
        ratio *= step(k);
      }
      for (long k = from - 1; k >= to; k--) {
        ratio /= step(k);
      }
      return ratio;
    }
  }
}
