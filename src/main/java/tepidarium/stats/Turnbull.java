package tepidarium.stats;

import java.util.ArrayList;
import java.util.List;
import java.util.TreeSet;
import java.util.function.Predicate;

/**
 * The likeliest curve of interval-censored rows without any assumption on its shape: how much of
 * all meets its event in each of the stretches in which the curve can rise. Within a stretch it is
 * not known where. Rows from 0 that were never looked at again change nothing. Source: Turnbull,
 * Journal of the Royal Statistical Society B 38 (1976) 290-295; stretches as in Peto, Applied
 * Statistics 22 (1973) 86-91.
 *
 * @param steps in order; the masses add up to 1
 */
public record Turnbull(List<Step> steps, double logLikelihood) {
  private static final double NOTHING = 1e-9;

  /**
   * A stretch after {@code left} and up to {@code right}, infinite where it is never seen to end,
   * and the part of all that meets its event in it.
   */
  public record Step(double left, double right, double mass) {}

  public Turnbull {
    steps = List.copyOf(steps);
  }

  /**
   * The likeliest curve.
   *
   * @throws IllegalArgumentException where no row says anything
   */
  public static Turnbull of(List<Censored> all) {
    List<Censored> rows = Censored.compact(all);
    if (rows.isEmpty()) {
      throw new IllegalArgumentException("nothing was looked at after its start");
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

  /** From each start of a row to the next end, where no other start lies between. */
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

  /** The part that has met its event for certain by a time: all of each stretch that has ended. */
  public double atLeastBy(double time) {
    return sum(step -> step.right() <= time);
  }

  /** The part that can have met its event by a time: all of each stretch that has begun. */
  public double atMostBy(double time) {
    return sum(step -> step.left() < time && step.right() < Double.POSITIVE_INFINITY);
  }

  private double sum(Predicate<Step> which) {
    return Math.min(1, steps.stream().filter(which).mapToDouble(Step::mass).sum());
  }

  /**
   * The stretch in which a part of all, above 0 and at most 1, has met its event; low and high are
   * infinite where it was never seen.
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
