package tepidarium.stats;

import java.util.List;
import java.util.TreeSet;

/**
 * How high the likelihood of a model gets at the edges of what it can be, where its numbers mean
 * nothing any more. A fit counts only where it is higher inside.
 */
final class Degenerate {
  private final List<Censored> rows;
  private final boolean withFraction;

  Degenerate(TimeModel model, List<Censored> rows) {
    this.rows = rows;
    this.withFraction = model.withFinalFraction();
  }

  /**
   * With σ → 0: all that meet their event do so just before or just after one moment. Minus
   * infinity where some row rules that out at every moment.
   */
  double withoutSpread() {
    TreeSet<Double> moments = new TreeSet<>();
    for (Censored row : rows) {
      if (row.left() > 0) {
        moments.add(row.left());
      }
      if (!row.open()) {
        moments.add(row.right());
      }
    }
    return moments.stream().mapToDouble(this::around).max().orElse(Double.NEGATIVE_INFINITY);
  }

  private double around(double moment) {
    int places = withFraction ? 3 : 2;
    boolean[][] holds = new boolean[rows.size()][];
    int[] count = new int[rows.size()];
    for (int i = 0; i < holds.length; i++) {
      Censored row = rows.get(i);
      boolean before = row.left() < moment && moment <= row.right();
      boolean after = row.left() <= moment && moment < row.right();
      boolean never = withFraction && row.open();
      if (!before && !after && !never) {
        return Double.NEGATIVE_INFINITY;
      }
      holds[i] = places == 3 ? new boolean[] {before, after, never} : new boolean[] {before, after};
      count[i] = row.count();
    }
    Mixture mixture = new Mixture(holds, count);
    return mixture.logLikelihood(mixture.masses());
  }

  /** With σ → ∞: some at once, the others never. */
  double withoutEnd() {
    double atOnce = 0;
    double never = 0;
    for (Censored row : rows) {
      if (row.left() > 0 && !row.open()) {
        return Double.NEGATIVE_INFINITY;
      }
      if (row.open()) {
        never += row.count();
      } else {
        atOnce += row.count();
      }
    }
    return part(atOnce, atOnce + never) + part(never, atOnce + never);
  }

  private static double part(double count, double of) {
    return count == 0 ? 0 : count * Math.log(count / of);
  }
}
