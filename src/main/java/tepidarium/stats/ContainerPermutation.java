package tepidarium.stats;

import java.util.List;

/**
 * Compares two kinds of containers by a permutation test with the container, not the seed, as the
 * unit: the share of all assignments of containers to kinds with at least the observed difference
 * of mean fractions. Source: Fisher, The Design of Experiments (1935), the randomisation test.
 *
 * @param difference mean fraction of the first kind less that of the second
 * @param asExtreme assignments with at least this absolute difference
 * @param arrangements all assignments; the smallest possible p is about 2 / arrangements
 */
public record ContainerPermutation(double difference, long asExtreme, long arrangements) {
  private static final int MAX_CONTAINERS = 22;
  private static final double ROUNDING = 1e-9;

  /**
   * Counts all assignments.
   *
   * @throws IllegalArgumentException for an empty kind, or more than 22 containers in all
   */
  public static ContainerPermutation of(List<Proportion> first, List<Proportion> second) {
    int all = first.size() + second.size();
    if (first.isEmpty() || second.isEmpty() || all > MAX_CONTAINERS) {
      throw new IllegalArgumentException(
          "each kind needs at least one container, and both kinds together at most "
              + MAX_CONTAINERS);
    }
    double[] fractions = new double[all];
    for (int i = 0; i < all; i++) {
      fractions[i] = (i < first.size() ? first.get(i) : second.get(i - first.size())).fraction();
    }
    double observed = difference(fractions, (1 << first.size()) - 1, first.size());
    long extreme = 0;
    long count = 0;
    for (int chosen = 0; chosen < 1 << all; chosen++) {
      if (Integer.bitCount(chosen) == first.size()) {
        count++;
        double other = difference(fractions, chosen, first.size());
        extreme += Math.abs(other) >= Math.abs(observed) - ROUNDING ? 1 : 0;
      }
    }
    return new ContainerPermutation(observed, extreme, count);
  }

  private static double difference(double[] fractions, int chosen, int size) {
    double in = 0;
    double out = 0;
    for (int i = 0; i < fractions.length; i++) {
      if ((chosen >> i & 1) == 1) {
        in += fractions[i];
      } else {
        out += fractions[i];
      }
    }
    return in / size - out / (fractions.length - size);
  }

  /** Two-sided. */
  public double p() {
    return (double) asExtreme / arrangements;
  }
}
