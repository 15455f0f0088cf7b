package tepidarium.stats;

import java.util.ArrayList;
import java.util.List;
import org.apache.commons.statistics.distribution.ChiSquaredDistribution;

/**
 * Tests whether two groups of interval-censored rows have their events at the same rate. Each row
 * has the score (S(l) ln S(l) − S(r) ln S(r)) / (S(l) − S(r)) with S the common survival curve of
 * both ({@link Turnbull}). The sum of the scores of a group is compared with its distribution over
 * all assignments of rows to groups. Intervals may differ, but very different check times of the
 * groups make the test doubtful. Source: scores of Finkelstein, Biometrics 42 (1986) 845-854, in
 * the permutation form of Fay, Statistics in Medicine 18 (1999) 273-285.
 *
 * @param score sum over the first group less its share of the total; above 0 if it is later
 * @param variance variance of the score over all assignments
 */
public record IntervalLogRank(double score, double variance) {
  public static IntervalLogRank of(List<Censored> first, List<Censored> second) {
    List<Censored> one = Censored.compact(first);
    List<Censored> two = Censored.compact(second);
    List<Censored> both = new ArrayList<>(one);
    both.addAll(two);
    double n = Censored.count(both);
    double n1 = Censored.count(one);
    if (n1 == 0 || n1 == n) {
      return new IntervalLogRank(0, 0);
    }
    Turnbull common = Turnbull.of(both);
    double mean = sum(common, both, 0, 1) / n;
    double squares = sum(common, both, mean, 2);
    return new IntervalLogRank(sum(common, one, mean, 1), n1 * (n - n1) / (n * (n - 1)) * squares);
  }

  private static double sum(Turnbull common, List<Censored> rows, double mean, int power) {
    return rows.stream()
        .mapToDouble(row -> row.count() * Math.pow(-score(common, row) - mean, power))
        .sum();
  }

  private static double score(Turnbull common, Censored row) {
    double left = 1 - common.atLeastBy(row.left());
    double right = row.open() ? 0 : 1 - common.atLeastBy(row.right());
    return left - right < 1e-12 ? Math.log(left) + 1 : (term(left) - term(right)) / (left - right);
  }

  private static double term(double survival) {
    return survival <= 0 ? 0 : survival * Math.log(survival);
  }

  /** One degree of freedom; 0 where nothing can be computed. */
  public double chiSquare() {
    return variance == 0 ? 0 : score * score / variance;
  }

  /** Two-sided. */
  public double p() {
    return ChiSquaredDistribution.of(1).survivalProbability(chiSquare());
  }
}
