package tepidarium.stats;

import java.util.function.ToDoubleFunction;
import org.hipparchus.optim.InitialGuess;
import org.hipparchus.optim.MaxEval;
import org.hipparchus.optim.SimpleValueChecker;
import org.hipparchus.optim.nonlinear.scalar.GoalType;
import org.hipparchus.optim.nonlinear.scalar.ObjectiveFunction;
import org.hipparchus.optim.nonlinear.scalar.noderiv.NelderMeadSimplex;
import org.hipparchus.optim.nonlinear.scalar.noderiv.SimplexOptimizer;

/** Finds the maximum of a smooth function of a few variables. Deterministic. */
final class Maximum {
  private static final int MOST_STEPS = 100;
  private static final double LONGEST_STEP = 3;
  private static final double DIFFERENCE = 1e-5;
  private static final double DONE = 1e-13;

  /** A function and its gradient. */
  interface Smooth {
    /** The value at x; writes the gradient into {@code slope}. Not finite if x is impossible. */
    double value(double[] x, double[] slope);
  }

  /** The result of a search: its position, its value, and whether the gradient is 0 there. */
  static final class Top {
    private final double[] at;
    private final double value;
    private final boolean level;

    Top(double[] at, double value, boolean level) {
      this.at = at;
      this.value = value;
      this.level = level;
    }

    double[] at() {
      return at;
    }

    double value() {
      return value;
    }

    boolean level() {
      return level;
    }
  }

  private Maximum() {}

  /** Maximizes without a gradient, by Nelder and Mead, The Computer Journal 7 (1965) 308-313. */
  static double[] climb(ToDoubleFunction<double[]> height, double[] start) {
    return new SimplexOptimizer(new SimpleValueChecker(1e-12, 1e-12))
        .optimize(
            new MaxEval(10_000),
            GoalType.MAXIMIZE,
            new InitialGuess(start),
            new ObjectiveFunction(
                x -> {
                  double value = height.applyAsDouble(x);
                  return Double.isNaN(value) ? Double.NEGATIVE_INFINITY : value;
                }),
            new NelderMeadSimplex(start.length, 0.5))
        .getPoint();
  }

  /** Maximizes by Newton's method, modified to go uphill if the function is not concave. */
  static Top newton(Smooth function, double[] start) {
    double[] at = start.clone();
    double[] slope = new double[at.length];
    double value = function.value(at, slope);
    for (int step = 0; step < MOST_STEPS; step++) {
      double[] move = uphill(curvature(function, at), slope);
      double gain = dot(move, slope);
      if (!(gain > DONE)) {
        return new Top(at, value, gain >= 0);
      }
      double[] next = at.clone();
      double[] nextSlope = new double[at.length];
      double nextValue = Double.NEGATIVE_INFINITY;
      double share = Math.min(1, LONGEST_STEP / length(move));
      for (int half = 0; half < 40; half++, share /= 2) {
        for (int i = 0; i < at.length; i++) {
          next[i] = at[i] + share * move[i];
        }
        nextValue = function.value(next, nextSlope);
        if (nextValue >= value + 1e-4 * share * gain) {
          break;
        }
      }
      if (!(nextValue > value)) {
        return new Top(at, value, gain < 1e-7);
      }
      at = next;
      slope = nextSlope;
      value = nextValue;
    }
    return new Top(at, value, false);
  }

  /** The eigenvectors and eigenvalues of the Hessian, from differences of the gradient. */
  static Axes curvature(Smooth function, double[] at) {
    int n = at.length;
    double[][] second = new double[n][n];
    double[] up = new double[n];
    double[] down = new double[n];
    for (int i = 0; i < n; i++) {
      double[] x = at.clone();
      x[i] = at[i] + DIFFERENCE;
      function.value(x, up);
      x[i] = at[i] - DIFFERENCE;
      function.value(x, down);
      for (int j = 0; j < n; j++) {
        second[i][j] = (up[j] - down[j]) / (2 * DIFFERENCE);
      }
    }
    for (int i = 0; i < n; i++) {
      for (int j = 0; j < i; j++) {
        double mean = (second[i][j] + second[j][i]) / 2;
        second[i][j] = Double.isFinite(mean) ? mean : 0;
        second[j][i] = second[i][j];
      }
      second[i][i] = Double.isFinite(second[i][i]) ? second[i][i] : -1;
    }
    return new Axes(second);
  }

  private static double[] uphill(Axes axes, double[] slope) {
    int n = slope.length;
    double steepest = 0;
    for (int i = 0; i < n; i++) {
      steepest = Math.max(steepest, Math.abs(axes.bend(i)));
    }
    double[] move = new double[n];
    for (int i = 0; i < n; i++) {
      double[] axis = axes.axis(i);
      double bend = Math.max(Math.abs(axes.bend(i)), 1e-9 * Math.max(steepest, 1e-3));
      double along = dot(axis, slope) / bend;
      for (int j = 0; j < n; j++) {
        move[j] += along * axis[j];
      }
    }
    return move;
  }

  private static double dot(double[] a, double[] b) {
    double sum = 0;
    for (int i = 0; i < a.length; i++) {
      sum += a[i] * b[i];
    }
    return sum;
  }

  private static double length(double[] a) {
    return Math.sqrt(dot(a, a));
  }
}
