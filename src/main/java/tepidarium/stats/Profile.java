package tepidarium.stats;

import org.hipparchus.analysis.solvers.BrentSolver;

/**
 * The profile likelihood of one parameter: the other parameters are fitted at each of its values.
 */
final class Profile {
  private static final double FARTHEST = 60;
  private static final double RELATIVE_ACCURACY = 1e-14;
  private static final double ACCURACY = 1e-8;
  private static final double DROP_ACCURACY = 1e-7;
  private static final int MAX_EVALUATIONS = 200;

  private final Maximum.Smooth function;
  private final double[] top;
  private final double height;
  private final int index;
  private double[] others;

  Profile(Maximum.Smooth function, double[] top, double height, int index) {
    this.function = function;
    this.top = top;
    this.height = height;
    this.index = index;
    this.others = without(top);
  }

  /**
   * The root drop at a value of the parameter: √(2 · (highest log-likelihood − log-likelihood at
   * this value)).
   */
  double rootDrop(double value) {
    double[] whole = new double[top.length];
    double[] wholeSlope = new double[top.length];
    Maximum.Smooth rest =
        (x, slope) -> {
          put(x, value, whole);
          double found = function.value(whole, wholeSlope);
          System.arraycopy(without(wholeSlope), 0, slope, 0, slope.length);
          return found;
        };
    Maximum.Top found = Maximum.newton(rest, others);
    if (Double.isFinite(found.value())) {
      others = found.at();
    }
    return Math.sqrt(2 * Math.max(0, height - found.value()));
  }

  /**
   * The value at which the root drop reaches a target, in the direction of the first step; infinite
   * with the sign of the step if it does not.
   */
  double end(double firstStep, double target) {
    double inside = 0;
    double outside = firstStep;
    double[] start = others;
    while (!(rootDrop(top[index] + outside) >= target)) {
      if (!(Math.abs(outside) <= FARTHEST)) {
        return firstStep * Double.POSITIVE_INFINITY;
      }
      start = others;
      inside = outside;
      outside *= 1.5;
    }
    double[] near = start;
    return new BrentSolver(RELATIVE_ACCURACY, ACCURACY, DROP_ACCURACY)
        .solve(
            MAX_EVALUATIONS,
            value -> {
              others = near;
              return Math.min(rootDrop(value) - target, target);
            },
            top[index] + Math.min(inside, outside),
            top[index] + Math.max(inside, outside));
  }

  private void put(double[] x, double value, double[] whole) {
    for (int i = 0, j = 0; i < whole.length; i++) {
      whole[i] = i == index ? value : x[j++];
    }
  }

  private double[] without(double[] whole) {
    double[] rest = new double[whole.length - 1];
    for (int i = 0, j = 0; i < whole.length; i++) {
      if (i != index) {
        rest[j++] = whole[i];
      }
    }
    return rest;
  }
}
