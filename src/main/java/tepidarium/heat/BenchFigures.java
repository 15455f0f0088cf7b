package tepidarium.heat;

import java.util.Arrays;
import java.util.List;
import java.util.function.DoubleBinaryOperator;
import org.jspecify.annotations.Nullable;
import tepidarium.stats.AutocorrelatedMean;
import tepidarium.stats.AutocorrelatedMean.Estimate;

/**
 * The measures of a container or side, or the differences between two sides, each with its
 * interval; null if there are no data.
 *
 * @param degreeHoursPerDay mean heat per day, °C·h per day
 * @param fractionInside share of covered time within the temperature band, 0 to 1
 * @param meanC mean temperature, °C
 * @param nightFloorC mean of the lowest temperature of each night, °C
 * @param dailySwingC mean of the temperature range of each day, °C
 */
public record BenchFigures(
    @Nullable Estimate degreeHoursPerDay,
    @Nullable Estimate fractionInside,
    @Nullable Estimate meanC,
    @Nullable Estimate nightFloorC,
    @Nullable Estimate dailySwingC) {
  static final int HOURS_PER_DAY = 24;

  /** The columns of values per hour (gain, inside, mean) and per day (floors, swings). */
  @SuppressWarnings("ArrayRecordComponent")
  record Columns(double[] gain, double[] inside, double[] mean, double[] floors, double[] swings) {
    static Columns of(HeatHours hours, boolean[] use) {
      return new Columns(
          hours.gain(use),
          hours.inside(use),
          hours.mean(use),
          hours.nightFloors(use),
          hours.swings(use));
    }

    /** The mean over several containers for each hour and day. */
    static Columns averaged(List<HeatHours> places, boolean[] use) {
      Columns sum =
          places.stream()
              .map(hours -> of(hours, use))
              .reduce((a, b) -> a.with(b, (x, y) -> x + y))
              .orElseThrow();
      double share = 1.0 / places.size();
      return sum.with(sum, (x, same) -> x * share);
    }

    Columns minus(Columns other) {
      return with(other, (a, b) -> a - b);
    }

    private Columns with(Columns other, DoubleBinaryOperator join) {
      return new Columns(
          joined(gain, other.gain, join),
          joined(inside, other.inside, join),
          joined(mean, other.mean, join),
          joined(floors, other.floors, join),
          joined(swings, other.swings, join));
    }

    private static double[] joined(double[] a, double[] b, DoubleBinaryOperator join) {
      double[] joined = new double[a.length];
      Arrays.setAll(joined, i -> join.applyAsDouble(a[i], b[i]));
      return joined;
    }
  }

  /** Calculates the measures of a container or side. */
  static BenchFigures of(Columns columns) {
    return of(columns, AutocorrelatedMean.ofShares(columns.inside(), HOURS_PER_DAY));
  }

  /** Calculates the differences between two sides. */
  static BenchFigures ofDifferences(Columns columns) {
    return of(columns, AutocorrelatedMean.ofShareDifferences(columns.inside(), HOURS_PER_DAY));
  }

  private static BenchFigures of(Columns columns, @Nullable Estimate inside) {
    Estimate gain = AutocorrelatedMean.of(columns.gain(), HOURS_PER_DAY);
    return new BenchFigures(
        gain == null ? null : gain.map(perHour -> perHour * HOURS_PER_DAY),
        inside,
        AutocorrelatedMean.of(columns.mean(), HOURS_PER_DAY),
        AutocorrelatedMean.of(columns.floors(), 1),
        AutocorrelatedMean.of(columns.swings(), 1));
  }
}
