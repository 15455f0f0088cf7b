package tepidarium.stats;

import java.util.Arrays;

/**
 * Finds the maximum-likelihood masses of a few cells, where each row is known only to lie in one of
 * several cells. Source: the self-consistency algorithm of Turnbull, Journal of the Royal
 * Statistical Society B 38 (1976) 290-295, in which the likelihood rises at every step. It is
 * accelerated by squared extrapolation (Varadhan and Roland, Scandinavian Journal of Statistics 35
 * (2008) 335-353).
 */
final class Mixture {
  private static final int MAX_ROUNDS = 5_000;
  private static final double DONE = 1e-11;

  private final boolean[][] holds;
  private final int[] count;
  private final double total;

  /**
   * @param holds for each row, the cells in which it may lie
   * @param count number of individuals of each row
   */
  Mixture(boolean[][] holds, int[] count) {
    this.holds = holds;
    this.count = count;
    this.total = Arrays.stream(count).asDoubleStream().sum();
  }

  /** The masses, which add up to 1. */
  double[] masses() {
    int places = holds[0].length;
    double[] now = new double[places];
    Arrays.fill(now, 1.0 / places);
    for (int round = 0; round < MAX_ROUNDS; round++) {
      double[] one = step(now);
      double[] two = step(one);
      double[] next = step(extrapolated(now, one, two));
      next = logLikelihood(next) >= logLikelihood(two) ? next : two;
      double change = 0;
      for (int j = 0; j < places; j++) {
        change = Math.max(change, Math.abs(next[j] - now[j]));
      }
      now = next;
      if (change < DONE) {
        break;
      }
    }
    return now;
  }

  private static double[] extrapolated(double[] now, double[] one, double[] two) {
    double first = 0;
    double second = 0;
    for (int j = 0; j < now.length; j++) {
      double r = one[j] - now[j];
      double v = two[j] - one[j] - r;
      first += r * r;
      second += v * v;
    }
    if (second == 0) {
      return two;
    }
    double stride = -Math.max(1, Math.sqrt(first / second));
    double[] next = new double[now.length];
    double sum = 0;
    for (int j = 0; j < now.length; j++) {
      double r = one[j] - now[j];
      double v = two[j] - one[j] - r;
      next[j] = Math.max(two[j] * 1e-3, now[j] - 2 * stride * r + stride * stride * v);
      sum += next[j];
    }
    for (int j = 0; j < next.length; j++) {
      next[j] /= sum;
    }
    return next;
  }

  private double[] step(double[] masses) {
    double[] next = new double[masses.length];
    for (int i = 0; i < count.length; i++) {
      double weight = count[i] / (total * within(i, masses));
      for (int j = 0; j < masses.length; j++) {
        if (holds[i][j]) {
          next[j] += weight * masses[j];
        }
      }
    }
    return next;
  }

  double logLikelihood(double[] masses) {
    double sum = 0;
    for (int i = 0; i < count.length; i++) {
      sum += count[i] * Math.log(within(i, masses));
    }
    return sum;
  }

  private double within(int row, double[] masses) {
    double sum = 0;
    for (int j = 0; j < masses.length; j++) {
      if (holds[row][j]) {
        sum += masses[j];
      }
    }
    return sum;
  }
}
