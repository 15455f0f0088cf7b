package tepidarium.stats;

import java.util.function.DoubleUnaryOperator;
import org.hipparchus.optim.MaxEval;
import org.hipparchus.optim.nonlinear.scalar.GoalType;
import org.hipparchus.optim.univariate.BrentOptimizer;
import org.hipparchus.optim.univariate.SearchInterval;
import org.hipparchus.optim.univariate.UnivariateObjectiveFunction;

/**
 * Finds where a function of one variable with one peak in an interval is largest, by Brent's
 * method.
 *
 * <p>Source: Brent, Algorithms for Minimization Without Derivatives (1973), chapter 5.
 */
public final class Peak {
  private static final double RELATIVE_ACCURACY = 1e-8;
  private static final int MAX_EVALUATIONS = 200;
  private static final double LOWEST = -1e300;

  private Peak() {}

  /**
   * The place of the maximum.
   *
   * @param function may be minus infinity
   * @param low lower end of the interval
   * @param high upper end, above {@code low}
   * @param accuracy how far the place may be off, in its unit, above 0
   */
  public static double of(DoubleUnaryOperator function, double low, double high, double accuracy) {
    return new BrentOptimizer(RELATIVE_ACCURACY, accuracy)
        .optimize(
            new MaxEval(MAX_EVALUATIONS),
            GoalType.MAXIMIZE,
            new SearchInterval(low, high),
            new UnivariateObjectiveFunction(x -> Math.max(LOWEST, function.applyAsDouble(x))))
        .getPoint();
  }
}
