package tepidarium.stats;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.function.DoubleUnaryOperator;
import org.jspecify.annotations.Nullable;

/**
 * Calculates the mean of hourly or daily values with a 95 % interval that allows for
 * autocorrelation: neighbouring hours and days have similar temperatures.
 *
 * <p>The long-run variance is the mean of the squares of q averages of the record, weighted by
 * cosines of 1, 2, … q half periods over the whole record. Such slow averages are nearly
 * independent even where neighbouring days are alike, so the interval is value ± t · √(variance /
 * n), with q degrees of freedom. With q = √(1.2 · days), at least 2, simulated intervals of 4 to 28
 * days contain the true value in 93 to 97 % if the correlation decays within half a day. If weather
 * lasts for several days, they contain it less often: {@code src/docs/figures.md} says how often.
 *
 * <p>Source: Müller, Journal of Econometrics 141 (2007) 1331-1352; Lazarus, Lewis, Stock and
 * Watson, Journal of Business and Economic Statistics 36 (2018) 541-559, the equal-weighted cosine
 * estimator.
 *
 * <p>NaN marks a missing value; it keeps its place in time and is not counted.
 */
public final class AutocorrelatedMean {
  /** Fewer days than this give no interval. Common practice, no source. */
  public static final int MIN_DAYS = 4;

  private static final int MIN_COSINES = 2;
  private static final double COSINES_PER_DAY = 1.2;
  private static final double SAME = 1e-9;

  /**
   * A value with its 95 % interval.
   *
   * @param low lower end; null together with {@code high} if there are too few days
   * @param days number of whole days in the present values
   */
  public record Estimate(double value, @Nullable Double low, @Nullable Double high, int days) {
    /** Applies a function to the value and to both ends, such as a change of unit. */
    public Estimate map(DoubleUnaryOperator change) {
      return new Estimate(
          change.applyAsDouble(value),
          low == null ? null : change.applyAsDouble(low),
          high == null ? null : change.applyAsDouble(high),
          days);
    }

    /** Whether the interval excludes zero after it was widened on both sides. */
    public boolean differsFromZero(double widenBy) {
      return low != null && high != null && (low > widenBy || high < -widenBy);
    }
  }

  private AutocorrelatedMean() {}

  /**
   * The mean of a column.
   *
   * @param values at equal steps in time
   * @param rowsPerDay 24 for hours, 1 for days
   * @return null when all values are missing
   * @throws IllegalArgumentException when a day has no row
   */
  public static @Nullable Estimate of(double[] values, int rowsPerDay) {
    Found found = Found.of(values, rowsPerDay);
    return found == null ? null : found.withReach(found.error());
  }

  /**
   * The mean of shares, each 0 to 1. The mean of shares near 0 or 1 has a skewed distribution.
   * Therefore the interval is Wilson's. It uses t and the effective number of values, p (1 − p) /
   * error². The error is at least that of independent days. If all values are equal, the interval
   * is that of 0 different days in n days: up to 1 − 0.025^(1/n) of days (Clopper and Pearson,
   * Biometrika 26 (1934) 404-413).
   *
   * @param values at equal steps in time, each 0 to 1
   * @param rowsPerDay 24 for hours, 1 for days
   * @return null when all values are missing
   */
  public static @Nullable Estimate ofShares(double[] values, int rowsPerDay) {
    Found found = Found.of(values, rowsPerDay);
    if (found == null || !found.enough()) {
      return found == null ? null : found.withReach(0);
    }
    double p = found.value();
    double error = found.errorOfShares();
    if (error < SAME) {
      Estimate unseen = found.withUnseenDays();
      return unseen.map(share -> Math.max(0, Math.min(1, share)));
    }
    ConfidenceInterval limits = Proportion.wilson(p, p * (1 - p) / (error * error), found.t());
    return new Estimate(p, limits.low(), limits.high(), found.days());
  }

  /**
   * The mean of differences of two shares, each −1 to 1; as for shares, but with t and without
   * Wilson's correction.
   */
  public static @Nullable Estimate ofShareDifferences(double[] values, int rowsPerDay) {
    Found found = Found.of(values, rowsPerDay);
    if (found == null) {
      return null;
    }
    double error = found.enough() ? found.errorOfShares() : 0;
    return found.enough() && error < SAME ? found.withUnseenDays() : found.withReach(error);
  }

  /** The values of a mean, before its interval is calculated. */
  @SuppressWarnings("ArrayRecordComponent")
  private record Found(double[] values, int rowsPerDay, int present, double value) {
    static @Nullable Found of(double[] values, int rowsPerDay) {
      if (rowsPerDay < 1) {
        throw new IllegalArgumentException("a day needs at least one row, not " + rowsPerDay);
      }
      double[] present = Arrays.stream(values).filter(value -> !Double.isNaN(value)).toArray();
      return present.length == 0
          ? null
          : new Found(
              values, rowsPerDay, present.length, Arrays.stream(present).average().orElseThrow());
    }

    int days() {
      return present / rowsPerDay;
    }

    boolean enough() {
      return days() >= MIN_DAYS;
    }

    double t() {
      return Student.t95(cosines(days()));
    }

    double error() {
      return enough() ? standardError(values, rowsPerDay, cosines(days()), present) : 0;
    }

    double errorOfShares() {
      return Math.max(error(), errorOfDays(values, rowsPerDay));
    }

    Estimate withReach(double error) {
      if (!enough()) {
        return new Estimate(value, null, null, days());
      }
      double reach = error * t();
      return new Estimate(value, value - reach, value + reach, days());
    }

    Estimate withUnseenDays() {
      double unseen = 1 - Math.pow(0.025, 1.0 / days());
      return new Estimate(value, value - unseen, value + unseen, days());
    }
  }

  /**
   * The range of the means of several columns: the maximum less the minimum, over the complete
   * rows. The values themselves decide which two columns are compared. If the true means are nearly
   * equal, the range is therefore too large. To allow for this, the lower end is corrected for all
   * pairs (Bonferroni). It is at least 0.
   *
   * @return null for fewer than two columns or no complete row
   */
  public static @Nullable Estimate range(double[][] columns, int rowsPerDay) {
    Estimate widest = null;
    for (int i = 0; i < columns.length; i++) {
      for (int j = 0; j < columns.length; j++) {
        // A row is missing in all pairs once it is missing in one column.
        Estimate pair = i == j ? null : of(difference(columns, i, j), rowsPerDay);
        if (pair != null && (widest == null || pair.value() > widest.value())) {
          widest = pair;
        }
      }
    }
    if (widest == null || widest.high() == null) {
      return widest;
    }
    int pairs = columns.length * (columns.length - 1) / 2;
    double freedom = cosines(widest.days());
    double reach = widest.high() - widest.value();
    double wider = reach / Student.t95(freedom) * Student.t95(freedom, pairs);
    return new Estimate(
        widest.value(), Math.max(0, widest.value() - wider), widest.high(), widest.days());
  }

  private static double[] difference(double[][] columns, int a, int b) {
    double[] difference = new double[columns[a].length];
    for (int row = 0; row < difference.length; row++) {
      difference[row] = columns[a][row] - columns[b][row];
      for (double[] column : columns) {
        difference[row] = Double.isNaN(column[row]) ? Double.NaN : difference[row];
      }
    }
    return difference;
  }

  private static int cosines(int days) {
    return Math.max(MIN_COSINES, (int) Math.sqrt(COSINES_PER_DAY * days));
  }

  /** The standard error of the mean of {@code present} values. */
  private static double standardError(double[] values, int rowsPerDay, int cosines, int present) {
    double[] sums = new double[(values.length + rowsPerDay - 1) / rowsPerDay];
    int[] counts = new int[sums.length];
    double[] profile = profile(values, rowsPerDay);
    int first = sums.length;
    int last = 0;
    for (int row = 0; row < values.length; row++) {
      if (!Double.isNaN(values[row])) {
        int day = row / rowsPerDay;
        sums[day] += values[row] - profile[row % rowsPerDay];
        counts[day]++;
        first = Math.min(first, day);
        last = day;
      }
    }
    double variance = 0;
    for (int j = 1; j <= cosines; j++) {
      variance += slowVariance(sums, counts, j, first, last) / cosines;
    }
    return Math.sqrt(variance / present);
  }

  /** The standard error of the mean of daily means if days are independent. */
  private static double errorOfDays(double[] values, int rowsPerDay) {
    List<Double> means = new ArrayList<>();
    for (int from = 0; from < values.length; from += rowsPerDay) {
      int to = Math.min(values.length, from + rowsPerDay);
      Arrays.stream(values, from, to)
          .filter(value -> !Double.isNaN(value))
          .average()
          .ifPresent(means::add);
    }
    double mean = means.stream().mapToDouble(m -> m).average().orElse(0);
    double squares = means.stream().mapToDouble(m -> (m - mean) * (m - mean)).sum();
    return Math.sqrt(squares / (means.size() - 1.0) / means.size());
  }

  /**
   * The square of one weighted sum, divided by its variance for independent values of variance 1.
   */
  private static double slowVariance(double[] sums, int[] counts, int half, int first, int last) {
    double[] weights = new double[sums.length];
    double mean = 0;
    double all = 0;
    for (int day = first; day <= last; day++) {
      weights[day] = Math.cos(Math.PI * half * (day - first + 0.5) / (last - first + 1));
      mean += counts[day] * weights[day];
      all += counts[day];
    }
    mean /= all;
    double sum = 0;
    double squares = 0;
    for (int day = first; day <= last; day++) {
      double weight = weights[day] - mean;
      sum += weight * sums[day];
      squares += weight * weight * counts[day];
    }
    return squares > 0 ? sum * sum / squares : 0;
  }

  /**
   * The mean at each hour of the day. Subtracting it keeps missing nights from raising a day's
   * mean.
   */
  private static double[] profile(double[] values, int rowsPerDay) {
    double[] sums = new double[rowsPerDay];
    int[] counts = new int[rowsPerDay];
    for (int row = 0; row < values.length; row++) {
      if (!Double.isNaN(values[row])) {
        sums[row % rowsPerDay] += values[row];
        counts[row % rowsPerDay]++;
      }
    }
    Arrays.setAll(sums, i -> counts[i] == 0 ? 0 : sums[i] / counts[i]);
    return sums;
  }
}
