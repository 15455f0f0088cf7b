package tepidarium.stats;

import java.util.ArrayList;
import java.util.List;
import java.util.TreeSet;
import java.util.function.Predicate;

/**
 * The nonparametric maximum-likelihood curve of interval-censored rows: the mass of events in each
 * interval in which the curve can rise. Within an interval the position is not identified. Rows
 * that are right-censored at 0 are ignored. Source: Turnbull, Journal of the Royal Statistical
 * Society B 38 (1976) 290-295; intervals as in Peto, Applied Statistics 22 (1973) 86-91.
 *
 * @param steps intervals in order; the masses add up to 1
 */
public record Turnbull(List<Step> steps, double logLikelihood) {
  private static final double NOTHING = 1e-9;

  /**
   * An interval after {@code left} and up to {@code right}, infinite if it is open, with its mass
   * of events.
   */
  public record Step(double left, double right, double mass) {}

  public Turnbull {
    steps = List.copyOf(steps);
  }

  /**
   * Fits the curve.
   *
   * @throws IllegalArgumentException if no row has information
   */
  public static Turnbull of(List<Censored> all) {
    List<Censored> rows = Censored.compact(all);
    if (rows.isEmpty()) {
      throw new IllegalArgumentException(NoFit.NO_CHECK.words());
    }
    List<Step> stretches = stretches(rows);
    boolean[][] holds = new boolean[rows.size()][stretches.size()];
    int[] count = new int[rows.size()];
    for (int i = 0; i < holds.length; i++) {
      Censored row = rows.get(i);
      count[i] = row.count();
      for (int j = 0; j < stretches.size(); j++) {
        Step stretch = stretches.get(j);
        holds[i][j] = row.left() <= stretch.left() && stretch.right() <= row.right();
      }
    }
    Mixture mixture = new Mixture(holds, count);
    double[] masses = mixture.masses();
    List<Step> steps = new ArrayList<>();
    for (int j = 0; j < masses.length; j++) {
      if (masses[j] > NOTHING) {
        Step stretch = stretches.get(j);
        steps.add(new Step(stretch.left(), stretch.right(), masses[j]));
      }
    }
    return new Turnbull(steps, mixture.logLikelihood(masses));
  }

  /**
   * The intervals from a left end of a row to the next right end, without another left end between.
   */
  private static List<Step> stretches(List<Censored> rows) {
    TreeSet<Double> lefts = new TreeSet<>();
    TreeSet<Double> rights = new TreeSet<>();
    for (Censored row : rows) {
      lefts.add(row.left());
      rights.add(row.right());
    }
    List<Step> stretches = new ArrayList<>();
    for (double right : rights) {
      Double left = lefts.lower(right);
      Double before = rights.lower(right);
      if (left != null && (before == null || left >= before)) {
        stretches.add(new Step(left, right, 0));
      }
    }
    return stretches;
  }

  /**
   * The lower bound of the cumulative fraction at a time: the mass of all intervals that have
   * ended.
   */
  public double atLeastBy(double time) {
    return sum(step -> step.right() <= time);
  }

  /**
   * The upper bound of the cumulative fraction at a time: the mass of all intervals that have
   * begun.
   */
  public double atMostBy(double time) {
    return sum(step -> step.left() < time && step.right() < Double.POSITIVE_INFINITY);
  }

  private double sum(Predicate<Step> which) {
    return Math.min(1, steps.stream().filter(which).mapToDouble(Step::mass).sum());
  }

  /**
   * The interval in which the cumulative fraction reaches a value above 0 and at most 1; both ends
   * are infinite if it never does.
   */
  public ConfidenceInterval when(double part) {
    double sum = 0;
    for (Step step : steps) {
      sum += step.mass();
      if (sum >= part - NOTHING && step.right() < Double.POSITIVE_INFINITY) {
        return new ConfidenceInterval(step.left(), step.right());
      }
    }
    return new ConfidenceInterval(Double.POSITIVE_INFINITY, Double.POSITIVE_INFINITY);
  }
}
