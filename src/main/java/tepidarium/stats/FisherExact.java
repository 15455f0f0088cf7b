package tepidarium.stats;

/**
 * Fisher's exact test of a two-by-two table, two-sided: the probability, with both margins fixed,
 * of all tables that are no more probable than the observed one. Source: Fisher, The Design of
 * Experiments (1935).
 *
 * <p>Two tables can be equally probable although their computed probabilities differ in the last
 * digits. Therefore a table counts if its probability is at most (1 + 1e-7) times that of the
 * observed table. Statistical software commonly uses this tolerance.
 */
final class FisherExact {
  static final double TIE = 1 + 1e-7;

  private FisherExact() {}

  /**
   * The two-sided p, 0 to 1. Below about 1e-300 it is 0.
   *
   * @param a hits in the first group, of which each has at least one trial
   * @param b hits in the second group
   */
  static double twoSided(Proportion a, Proportion b) {
    Hypergeometric weights = Hypergeometric.of(a, b);
    long mode = weights.mode();
    double limit = weights.between(mode, a.hits()) * TIE;
    double all = 0;
    double extreme = 0;
    double weight = 1;
    for (long k = mode; k <= weights.most() && weight > 0; k++) {
      all += weight;
      extreme += weight <= limit ? weight : 0;
      weight *= weights.step(k);
    }
    weight = 1;
    for (long k = mode - 1; k >= weights.least() && weight > 0; k--) {
      weight /= weights.step(k);
      all += weight;
      extreme += weight <= limit ? weight : 0;
    }
    return Math.min(1, extreme / all);
  }
}
