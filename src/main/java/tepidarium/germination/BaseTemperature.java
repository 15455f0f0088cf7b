package tepidarium.germination;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.NavigableMap;
import java.util.Optional;
import java.util.TreeMap;
import java.util.function.DoubleFunction;
import org.hipparchus.analysis.solvers.BrentSolver;
import org.jspecify.annotations.Nullable;
import tepidarium.stats.Censored;
import tepidarium.stats.ConfidenceInterval;
import tepidarium.stats.IntervalFit;
import tepidarium.stats.Peak;
import tepidarium.stats.TimeFamily;
import tepidarium.stats.TimeModel;

/**
 * Estimates the base temperature by maximum likelihood of the {@link ThermalTime} model, with its
 * profile-likelihood interval. The caller provides the heat above each base ({@link
 * HeatCounts#above}), because it cannot be derived from the heat above another base.
 *
 * @param best model at the most likely base; null if the base is not identified
 * @param limits 95 % interval of the base, °C; an end is infinite if it lies outside the range
 * @param reason why the base is not identified; null if it is
 * @param profile profile log-likelihood over the range of bases
 */
public record BaseTemperature(
    @Nullable ThermalTime best,
    ConfidenceInterval limits,
    @Nullable NoBase reason,
    List<Height> profile) {
  /** Half the 95 % quantile of χ² with one degree of freedom. */
  private static final double DROP = 1.920729410347062;

  private static final double STEP_C = 1;
  private static final double MIN_C = 0;
  private static final double MAX_C = 25;
  private static final double MARGIN_C = 0.5;
  private static final double CROSSING_ACCURACY_K = 1e-3;
  private static final double MAX_DROP = 10;
  private static final int MAX_EVALUATIONS = 200;
  private static final ConfidenceInterval ANY =
      new ConfidenceInterval(Double.NEGATIVE_INFINITY, Double.POSITIVE_INFINITY);

  /**
   * The maximum log-likelihood at one base.
   *
   * @param logLikelihood minus infinity if a seed germinated without any heat above this base
   */
  public record Height(double baseC, double logLikelihood) {}

  public BaseTemperature {
    profile = List.copyOf(profile);
  }

  /**
   * Searches a range of base temperatures.
   *
   * @param heatAbove counts of all sowings by the heat above a base in °C
   * @param fromC lowest base of the range, °C
   * @param toC highest base of the range, °C; at least 1 °C above the lowest
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
    List<Height> profile = new ArrayList<>();
    for (int i = 0; i <= steps; i++) {
      heights[i] = search.height(fromC + i * step);
      profile.add(new Height(fromC + i * step, heights[i]));
      best = heights[i] > heights[best] ? i : best;
    }
    if (heights[best] == Double.NEGATIVE_INFINITY) {
      return new BaseTemperature(null, ANY, NoBase.UNIDENTIFIED, profile);
    }
    double low = fromC + Math.max(0, best - 1) * step;
    double high = fromC + Math.min(steps, best + 1) * step;
    double at = search.highest(low, high);
    double top = Math.max(search.height(at), heights[best]);
    at = search.height(at) < heights[best] ? fromC + best * step : at;
    ConfidenceInterval limits =
        new ConfidenceInterval(
            search.end(at, fromC, step, steps, top - DROP, -1),
            search.end(at, fromC, step, steps, top - DROP, 1));
    boolean atAnEnd = at - fromC < 1e-3 * step || toC - at < 1e-3 * step;
    boolean open = Double.isInfinite(limits.low()) && Double.isInfinite(limits.high());
    ThermalTime model = open || atAnEnd ? null : search.fit(at).orElse(null);
    NoBase reason =
        open
            ? NoBase.EVERY_BASE
            : atAnEnd ? NoBase.RANGE_END : model == null ? NoBase.UNIDENTIFIED : null;
    return new BaseTemperature(model, limits, reason, profile);
  }

  /**
   * Searches a range of base temperatures when heat is uncertain. Errors of the heat, such as a
   * sensor offset or the filling of gaps, shift all checks of a sowing in the same direction. So
   * the least and the most possible heat are fitted as well. The interval encloses the intervals of
   * all three.
   *
   * @param least counts by the least possible heat above a base in °C
   * @param likely counts by the likely heat
   * @param most counts by the most possible heat
   */
  public static BaseTemperature ofUncertain(
      DoubleFunction<List<ThermalTime.HeatInterval>> least,
      DoubleFunction<List<ThermalTime.HeatInterval>> likely,
      DoubleFunction<List<ThermalTime.HeatInterval>> most,
      double fromC,
      double toC,
      boolean withFinalFraction) {
    BaseTemperature middle = of(likely, fromC, toC, withFinalFraction);
    ConfidenceInterval low = of(least, fromC, toC, withFinalFraction).limits();
    ConfidenceInterval high = of(most, fromC, toC, withFinalFraction).limits();
    return new BaseTemperature(
        middle.best(),
        new ConfidenceInterval(
            Math.min(middle.limits().low(), Math.min(low.low(), high.low())),
            Math.max(middle.limits().high(), Math.max(low.high(), high.high()))),
        middle.reason(),
        middle.profile());
  }

  /**
   * Searches from 0 °C to 0.5 °C below the lowest mean temperature of any group, rounded down to
   * whole degrees; at most to 25 °C.
   */
  public static BaseTemperature of(HeatCounts counts) {
    double toC = Math.min(MAX_C, Math.floor(counts.coldestC() - MARGIN_C));
    if (!(toC >= MIN_C + STEP_C)) {
      return new BaseTemperature(null, ANY, NoBase.TOO_COLD, List.of());
    }
    DoubleFunction<List<ThermalTime.HeatInterval>> likely =
        base -> counts.intervals(base, SeedHeat::likely);
    return HeatFit.certain(counts.above(MIN_C))
        ? of(likely, MIN_C, toC, true)
        : ofUncertain(
            base -> counts.intervals(base, SeedHeat::least),
            likely,
            base -> counts.intervals(base, SeedHeat::most),
            MIN_C,
            toC,
            true);
  }

  /** The result of comparing two models of the same counts. */
  public enum Verdict {
    HEAT,
    CLOCK,
    CANNOT_BE_TOLD
  }

  /**
   * Compares the model on heat with the model on time by AIC, over the same counts. The sowings
   * must differ in heat. A difference below 2 decides nothing (Burnham and Anderson, Model
   * Selection and Multimodel Inference, 2002, section 2.6).
   */
  public static Verdict compare(double aicOfHeat, double aicOfClock) {
    double gain = aicOfClock - aicOfHeat;
    return gain >= 2 ? Verdict.HEAT : gain <= -2 ? Verdict.CLOCK : Verdict.CANNOT_BE_TOLD;
  }

  public boolean identified() {
    return best != null;
  }

  /**
   * Caches the maximum at each base. A new search starts from the maximum at the nearest known
   * base, because estimates change little between neighbouring bases.
   */
  private static final class Search {
    private final DoubleFunction<List<ThermalTime.HeatInterval>> heatAbove;
    private final boolean withFinalFraction;
    private final TimeModel model;
    private final NavigableMap<Double, Found> foundByBase = new TreeMap<>();

    /**
     * The maximum-likelihood estimate at a base, null if there is none, and the mean logarithm of
     * the heat of the closed rows.
     */
    private record Found(IntervalFit.@Nullable Estimate estimate, double centre) {
      double height() {
        return estimate == null ? Double.NEGATIVE_INFINITY : estimate.logLikelihood();
      }
    }

    Search(DoubleFunction<List<ThermalTime.HeatInterval>> heatAbove, boolean withFinalFraction) {
      this.heatAbove = heatAbove;
      this.withFinalFraction = withFinalFraction;
      this.model = new TimeModel(TimeFamily.LOGNORMAL, withFinalFraction);
    }

    Optional<ThermalTime> fit(double baseC) {
      return ThermalTime.at(baseC, heatAbove.apply(baseC), withFinalFraction);
    }

    double height(double baseC) {
      Found found = foundByBase.get(baseC);
      if (found == null) {
        found =
            ThermalTime.rows(heatAbove.apply(baseC))
                .map(rows -> find(baseC, rows))
                .orElse(new Found(null, 0));
        foundByBase.put(baseC, found);
      }
      return found.height();
    }

    private Found find(double baseC, List<Censored> rows) {
      double centre =
          rows.stream()
              .filter(row -> !row.open())
              .mapToDouble(row -> Math.log(row.right()))
              .average()
              .orElse(0);
      Found near = nearest(baseC);
      IntervalFit.Estimate estimate = near == null ? null : near.estimate();
      IntervalFit.Estimate start =
          near == null || estimate == null
              ? null
              : new IntervalFit.Estimate(
                  estimate.mu() + centre - near.centre(),
                  estimate.sigma(),
                  estimate.finalFraction(),
                  0);
      return new Found(IntervalFit.near(model, rows, start).orElse(null), centre);
    }

    private @Nullable Found nearest(double baseC) {
      Map.Entry<Double, Found> below = foundByBase.floorEntry(baseC);
      Map.Entry<Double, Found> above = foundByBase.ceilingEntry(baseC);
      if (below == null || above == null) {
        return below != null ? below.getValue() : above == null ? null : above.getValue();
      }
      boolean up = above.getKey() - baseC < baseC - below.getKey();
      Found first = up ? above.getValue() : below.getValue();
      return first.estimate() != null ? first : up ? below.getValue() : above.getValue();
    }

    double highest(double lowC, double highC) {
      return Peak.of(this::height, lowC, highC, 1e-4);
    }

    /**
     * The base at which the log-likelihood falls below a height; infinite if it does not within the
     * range.
     */
    double end(double at, double fromC, double step, int steps, double height, int direction) {
      double place = (at - fromC) / step;
      int next = (int) (direction < 0 ? Math.ceil(place) - 1 : Math.floor(place) + 1);
      double inside = at;
      for (int i = next; i >= 0 && i <= steps; i += direction) {
        double outside = fromC + i * step;
        if (height(outside) < height) {
          return crossing(inside, outside, height);
        }
        inside = outside;
      }
      return direction * Double.POSITIVE_INFINITY;
    }

    /** Limits the drop to {@link #MAX_DROP} because the height may be minus infinity. */
    private double crossing(double a, double b, double height) {
      return new BrentSolver(CROSSING_ACCURACY_K)
          .solve(
              MAX_EVALUATIONS,
              base -> Math.max(-MAX_DROP, height(base) - height),
              Math.min(a, b),
              Math.max(a, b));
    }
  }
}
