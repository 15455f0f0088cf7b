package tepidarium.germination;

import java.util.List;
import java.util.Optional;
import java.util.function.DoubleFunction;
import org.hipparchus.optim.MaxEval;
import org.hipparchus.optim.nonlinear.scalar.GoalType;
import org.hipparchus.optim.univariate.BrentOptimizer;
import org.hipparchus.optim.univariate.SearchInterval;
import org.hipparchus.optim.univariate.UnivariateObjectiveFunction;
import org.jspecify.annotations.Nullable;
import tepidarium.stats.Limits;

/**
 * The base temperature by the likelihood of the {@link ThermalTime} model, over a range of bases,
 * with its profile-likelihood interval. The heat above each base is worked out anew by the caller,
 * from raw readings: it does not follow from the heat above another base.
 *
 * @param best the model at the likeliest base; null where the base cannot be told
 * @param limits of the base at 95 %, °C; an end is infinite where it lies outside the range
 * @param reason why it cannot be told; null where it can
 */
public record BaseTemperature(@Nullable ThermalTime best, Limits limits, @Nullable String reason) {
  /** Half the 95 % quantile of χ² with one degree of freedom. */
  private static final double DROP = 1.920729410347062;

  private static final double STEP_C = 1;
  private static final Limits ANY = new Limits(Double.NEGATIVE_INFINITY, Double.POSITIVE_INFINITY);

  /**
   * Over a range of bases.
   *
   * @param heatAbove for a base in °C, the counts of all sowings by heat above it
   * @param fromC the lowest base to think of, °C
   * @param toC the highest, °C, at least 1 °C above it
   */
  public static BaseTemperature of(
      DoubleFunction<List<ThermalTime.HeatInterval>> heatAbove,
      double fromC,
      double toC,
      boolean withFinalFraction) {
    Search search = new Search(heatAbove, withFinalFraction);
    int steps = (int) Math.max(1, Math.round((toC - fromC) / STEP_C));
    double step = (toC - fromC) / steps;
    int best = 0;
    double[] heights = new double[steps + 1];
    for (int i = 0; i <= steps; i++) {
      heights[i] = search.height(fromC + i * step);
      best = heights[i] > heights[best] ? i : best;
    }
    if (heights[best] == Double.NEGATIVE_INFINITY) {
      return new BaseTemperature(
          null, ANY, "these counts do not tell how heat is needed, at any base in the range");
    }
    double low = fromC + Math.max(0, best - 1) * step;
    double high = fromC + Math.min(steps, best + 1) * step;
    double at = search.highest(low, high);
    double top = Math.max(search.height(at), heights[best]);
    at = search.height(at) < heights[best] ? fromC + best * step : at;
    Limits limits =
        new Limits(
            search.end(at, fromC, step, steps, top - DROP, -1),
            search.end(at, fromC, step, steps, top - DROP, 1));
    boolean atAnEnd = at - fromC < 1e-3 * step || toC - at < 1e-3 * step;
    boolean open = Double.isInfinite(limits.low()) && Double.isInfinite(limits.high());
    if (atAnEnd || open) {
      return new BaseTemperature(
          null,
          limits,
          open
              ? "the base temperature cannot be told from these data: every base in the range fits"
                  + " them; it takes sowings at different temperatures"
              : "the likelihood is highest at the end of the range of bases: it cannot be told from"
                  + " these data");
    }
    return new BaseTemperature(search.fit(at).orElse(null), limits, null);
  }

  /**
   * The same where heat is not known exactly. What makes it uncertain, such as a sensor that is off
   * or a way to fill gaps, pushes all checks of a sowing the same way; so the least and the most
   * heat are each fitted throughout, and the interval holds the intervals of all three.
   *
   * @param least counts by the least heat that it can have been, for a base in °C
   * @param likely counts by the likeliest heat
   * @param most counts by the most heat that it can have been
   */
  public static BaseTemperature ofUncertain(
      DoubleFunction<List<ThermalTime.HeatInterval>> least,
      DoubleFunction<List<ThermalTime.HeatInterval>> likely,
      DoubleFunction<List<ThermalTime.HeatInterval>> most,
      double fromC,
      double toC,
      boolean withFinalFraction) {
    BaseTemperature middle = of(likely, fromC, toC, withFinalFraction);
    Limits low = of(least, fromC, toC, withFinalFraction).limits();
    Limits high = of(most, fromC, toC, withFinalFraction).limits();
    return new BaseTemperature(
        middle.best(),
        new Limits(
            Math.min(middle.limits().low(), Math.min(low.low(), high.low())),
            Math.max(middle.limits().high(), Math.max(low.high(), high.high()))),
        middle.reason());
  }

  /** Which of two models of the same counts is the better. */
  public enum Verdict {
    HEAT,
    CLOCK,
    CANNOT_BE_TOLD
  }

  /**
   * Heat against plain time by AIC, over the same counts of sowings that had different heat. A
   * difference of less than 2 tells nothing (Burnham and Anderson, Model Selection and Multimodel
   * Inference, 2002, section 2.6).
   */
  public static Verdict compare(double aicOfHeat, double aicOfClock) {
    double gain = aicOfClock - aicOfHeat;
    return gain >= 2 ? Verdict.HEAT : gain <= -2 ? Verdict.CLOCK : Verdict.CANNOT_BE_TOLD;
  }

  public boolean identified() {
    return best != null;
  }

  private record Search(
      DoubleFunction<List<ThermalTime.HeatInterval>> heatAbove, boolean withFinalFraction) {
    Optional<ThermalTime> fit(double baseC) {
      return ThermalTime.at(baseC, heatAbove.apply(baseC), withFinalFraction);
    }

    double height(double baseC) {
      return fit(baseC).map(ThermalTime::logLikelihood).orElse(Double.NEGATIVE_INFINITY);
    }

    double highest(double lowC, double highC) {
      return new BrentOptimizer(1e-8, 1e-4)
          .optimize(
              new MaxEval(200),
              GoalType.MAXIMIZE,
              new SearchInterval(lowC, highC),
              new UnivariateObjectiveFunction(base -> Math.max(-1e300, height(base))))
          .getPoint();
    }

    /** Where the likelihood falls below a height; infinite where it does not within the range. */
    double end(double at, double fromC, double step, int steps, double height, int direction) {
      double inside = at;
      double outside = at;
      double last = direction < 0 ? fromC : fromC + steps * step;
      do {
        inside = outside;
        outside = direction < 0 ? Math.max(last, outside - step) : Math.min(last, outside + step);
        if (height(outside) < height) {
          while (Math.abs(outside - inside) > 1e-3) {
            double middle = (inside + outside) / 2;
            if (height(middle) < height) {
              outside = middle;
            } else {
              inside = middle;
            }
          }
          return (inside + outside) / 2;
        }
      } while (outside != last);
      return direction * Double.POSITIVE_INFINITY;
    }
  }
}
