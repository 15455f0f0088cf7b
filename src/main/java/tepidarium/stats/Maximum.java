package tepidarium.stats;

import java.util.Arrays;
import java.util.function.ToDoubleFunction;
import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.EigenDecompositionSymmetric;
import org.hipparchus.linear.MatrixUtils;
import org.hipparchus.linear.RealMatrix;
import org.hipparchus.optim.InitialGuess;
import org.hipparchus.optim.MaxEval;
import org.hipparchus.optim.SimpleValueChecker;
import org.hipparchus.optim.nonlinear.scalar.GoalType;
import org.hipparchus.optim.nonlinear.scalar.ObjectiveFunction;
import org.hipparchus.optim.nonlinear.scalar.noderiv.NelderMeadSimplex;
import org.hipparchus.optim.nonlinear.scalar.noderiv.SimplexOptimizer;

/** Finds the maximum of a smooth function of a few variables. Deterministic. */
final class Maximum {
  private static final int MAX_STEPS = 100;
  private static final double MAX_STEP = 3;
  private static final double DIFFERENCE = 1e-5;
  private static final double DONE = 1e-13;

  /** The squares of larger values could overflow when the eigenvalues are computed. */
  private static final double MAX_CURVATURE = 1e100;

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
    for (int step = 0; step < MAX_STEPS; step++) {
      double[] move = uphill(curvature(function, at), slope);
      double gain = dot(move, slope);
      if (!(gain > DONE)) {
        return new Top(at, value, gain >= 0);
      }
      double[] next = at.clone();
      double[] nextSlope = new double[at.length];
      double nextValue = Double.NEGATIVE_INFINITY;
      double share = Math.min(1, MAX_STEP / length(move));
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
  static EigenDecompositionSymmetric curvature(Smooth function, double[] at) {
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
        second[i][j] = Math.abs(mean) < MAX_CURVATURE ? mean : 0;
        second[j][i] = second[i][j];
      }
      second[i][i] = Math.abs(second[i][i]) < MAX_CURVATURE ? second[i][i] : -1;
    }
    return new EigenDecompositionSymmetric(new Array2DRowRealMatrix(second, false));
  }

  /**
   * The covariance of the parameters at a maximum of the log-likelihood: the inverse of the
   * negative second derivatives. Its values are not finite where the function is flat.
   */
  static double[][] covariance(Smooth function, double[] at) {
    EigenDecompositionSymmetric curvature = curvature(function, at);
    RealMatrix inverse =
        MatrixUtils.createRealDiagonalMatrix(
            Arrays.stream(curvature.getEigenvalues()).map(value -> -1 / value).toArray());
    return curvature.getV().multiply(inverse).multiply(curvature.getVT()).getData();
  }

  private static double[] uphill(EigenDecompositionSymmetric curvature, double[] slope) {
    int n = slope.length;
    double steepest = Arrays.stream(curvature.getEigenvalues()).map(Math::abs).max().orElse(0);
    double[] move = new double[n];
    for (int i = 0; i < n; i++) {
      double[] axis = curvature.getEigenvector(i).toArray();
      double bend = Math.max(Math.abs(curvature.getEigenvalue(i)), 1e-9 * Math.max(steepest, 1e-3));
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
