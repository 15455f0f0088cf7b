package tepidarium.stats;

import java.util.List;
import java.util.TreeSet;

/**
 * Calculates the limits of the likelihood of a model at the boundaries of its parameter space,
 * where estimates are not meaningful. A fit is accepted only if its likelihood is higher inside.
 */
final class Degenerate {
  private final List<Censored> rows;
  private final boolean withFraction;

  Degenerate(TimeModel model, List<Censored> rows) {
    this.rows = rows;
    this.withFraction = model.withFinalFraction();
  }

  /**
   * The limit for σ → 0: all events happen at one time. Minus infinity if the rows exclude every
   * such time.
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

  /** The limit for σ → ∞: some events happen at once, the others never. */
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
