package tepidarium.stats;

import org.jspecify.annotations.Nullable;

/**
 * Compares the means of two groups of few units, such as the containers on two heat sources,
 * against the variation between units of a group.
 */
public final class GroupMeans {
  /** Above this number of arrangements the permutation test is not calculated. */
  private static final long MAX_ARRANGEMENTS = 2_000_000;

  /** Sums of equal units may differ in the last digits with the order in which they were added. */
  private static final double ROUNDING = 1e-9;

  /** A difference with its 95 % interval. */
  public record Difference(double value, double low, double high) {}

  /**
   * An exact permutation test.
   *
   * @param p two-sided; null if there are too many arrangements to count
   * @param leastP smallest possible p for groups of these sizes
   */
  public record Permutation(@Nullable Double p, double leastP) {}

  private GroupMeans() {}

  /** The mean and its 95 % interval by Student's t; null for fewer than two values. */
  public static @Nullable Difference mean(double[] values) {
    if (values.length < 2) {
      return null;
    }
    double mean = average(values);
    double reach = Math.sqrt(variance(values) / values.length) * Student.t95(values.length - 1.0);
    return new Difference(mean, mean - reach, mean + reach);
  }

  /**
   * Mean of a less mean of b, with the interval after Welch, Biometrika 34 (1947) 28-35. Null if a
   * group has fewer than two units, because the spread between units is then unknown.
   */
  public static @Nullable Difference welch(double[] a, double[] b) {
    if (a.length < 2 || b.length < 2) {
      return null;
    }
    double va = variance(a) / a.length;
    double vb = variance(b) / b.length;
    double value = average(a) - average(b);
    if (va + vb == 0) {
      return new Difference(value, value, value);
    }
    double freedom =
        (va + vb) * (va + vb) / (va * va / (a.length - 1.0) + vb * vb / (b.length - 1.0));
    double reach = Math.sqrt(va + vb) * Student.t95(freedom);
    return new Difference(value, value - reach, value + reach);
  }

  /**
   * The permutation test of equal means (Fisher's permutation principle). Its p is the share of all
   * assignments of the units to two groups of these sizes with at least the observed absolute
   * difference of means.
   *
   * @throws IllegalArgumentException when a group is empty
   */
  public static Permutation permutation(double[] a, double[] b) {
    if (a.length == 0 || b.length == 0) {
      throw new IllegalArgumentException("each group needs at least one unit");
    }
    double[] all = new double[a.length + b.length];
    System.arraycopy(a, 0, all, 0, a.length);
    System.arraycopy(b, 0, all, a.length, b.length);
    double arrangements = arrangements(all.length, a.length);
    double least = (a.length == b.length ? 2 : 1) / arrangements;
    if (arrangements > MAX_ARRANGEMENTS) {
      return new Permutation(null, least);
    }
    double total = average(all) * all.length;
    Dealer dealer = new Dealer(all, a.length, total, Math.abs(average(a) - average(b)));
    dealer.deal(0, 0, 0);
    return new Permutation(dealer.asFarApart / arrangements, least);
  }

  private static double arrangements(int units, int chosen) {
    double ways = 1;
    for (int i = 1; i <= chosen; i++) {
      ways = ways * (units - chosen + i) / i;
    }
    return Math.rint(ways);
  }

  private static double average(double[] values) {
    double sum = 0;
    for (double value : values) {
      sum += value;
    }
    return sum / values.length;
  }

  private static double variance(double[] values) {
    double mean = average(values);
    double squares = 0;
    for (double value : values) {
      squares += (value - mean) * (value - mean);
    }
    return squares / (values.length - 1);
  }

  private static final class Dealer {
    private final double[] units;
    private final int wanted;
    private final double total;
    private final double seen;
    private long asFarApart;

    Dealer(double[] units, int wanted, double total, double seen) {
      this.units = units;
      this.wanted = wanted;
      this.total = total;
      this.seen = seen;
    }

    void deal(int next, int taken, double sum) {
      if (taken == wanted) {
        double apart = Math.abs(sum / wanted - (total - sum) / (units.length - wanted));
        if (apart >= seen - ROUNDING * Math.max(1, seen)) {
          asFarApart++;
        }
        return;
      }
      for (int i = next; i <= units.length - (wanted - taken); i++) {
        deal(i + 1, taken + 1, sum + units[i]);
      }
    }
  }
}
