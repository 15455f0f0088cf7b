package tepidarium.stats;

/**
 * The hypergeometric distribution of the hits in the first of two groups, with all margins fixed.
 * Its probabilities are computed relative to each other, from one number of hits to the next.
 *
 * @param trialsA trials of the first group
 * @param trialsB trials of the second group
 * @param hits hits of both groups together
 */
record Hypergeometric(long trialsA, long trialsB, long hits) {
  static Hypergeometric of(Proportion a, Proportion b) {
    return new Hypergeometric(a.trials(), b.trials(), (long) a.hits() + b.hits());
  }

  /** The minimum possible number of hits in the first group. */
  long least() {
    return Math.max(0, hits - trialsB);
  }

  /** The maximum possible number of hits in the first group. */
  long most() {
    return Math.min(trialsA, hits);
  }

  /** The most probable number of hits in the first group. */
  long mode() {
    return Math.min(most(), (hits + 1) * (trialsA + 1) / (trialsA + trialsB + 2));
  }

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
