package tepidarium.stats;

import java.util.Arrays;
import java.util.SplittableRandom;
import java.util.function.ToDoubleFunction;
import org.apache.commons.statistics.distribution.TDistribution;
import org.jspecify.annotations.Nullable;

/**
 * How well a mean over successive hours or days is known, although neighbours are alike. Circular
 * block bootstrap: stretches of the record, drawn at random with its end joined to its start, are
 * put together to records of the same length, and the scatter of the wanted figure among them is
 * its standard error. The interval is value ± t · error, with one degree of freedom less than there
 * are blocks and the error enlarged by √(b / (b − 1)), since few blocks show too little scatter.
 *
 * <p>Source: Künsch, Annals of Statistics 17 (1989) 1217-1241; Politis and Romano, in LePage and
 * Billard (eds), Exploring the Limits of Bootstrap (1992) 263-270. Likeness that lasts much longer
 * than a block makes the interval too narrow.
 *
 * <p>NaN marks what is missing; it keeps its place in time, and counts for nothing. The same input
 * always gives the same answer.
 */
public final class BlockBootstrap {
  /** With fewer blocks than this nothing is said of the scatter. Common practice, no source. */
  public static final int FEWEST_BLOCKS = 4;

  private static final int RESAMPLES = 999;
  private static final long SEED = 1989;
  private static final double BOTH_TAILS_95 = 0.975;

  /**
   * A figure with its 95 % interval.
   *
   * @param low null, as {@code high} is, where there are too few blocks to tell
   * @param blocks how many whole blocks the present values fill
   */
  public record Estimate(double value, @Nullable Double low, @Nullable Double high, int blocks) {
    /** The same in another unit, or cut to what is possible. */
    public Estimate map(java.util.function.DoubleUnaryOperator change) {
      return new Estimate(
          change.applyAsDouble(value),
          low == null ? null : change.applyAsDouble(low),
          high == null ? null : change.applyAsDouble(high),
          blocks);
    }

    /** Whether the interval, made wider by so much on both sides, lies on one side of zero. */
    public boolean differsFromZero(double widenBy) {
      return low != null && high != null && (low > widenBy || high < -widenBy);
    }
  }

  private BlockBootstrap() {}

  /**
   * How many days a block should have for a record of so many: a day, and with longer records more,
   * by the cube root (Hall, Horowitz and Jing, Biometrika 82 (1995) 561-574).
   */
  public static int daysPerBlock(double days) {
    // A hair more, so that 8 days, whose root comes out as 1.9999…, have blocks of two.
    return Math.max(1, (int) (Math.cbrt(days) + 1e-9));
  }

  /** The mean of one column; null when all of it is missing. */
  public static @Nullable Estimate mean(double[] values, int blockLength) {
    return of(new double[][] {values}, blockLength, means -> means[0]);
  }

  /**
   * A figure made of the means of several columns over the rows in which none is missing.
   *
   * @param columns of equal length, row by row at equal steps in time
   * @param blockLength rows in a block, at least 1
   * @param ofMeans the figure, from the mean of each column
   * @return null when no row is complete
   * @throws IllegalArgumentException when a block has no row
   */
  public static @Nullable Estimate of(
      double[][] columns, int blockLength, ToDoubleFunction<double[]> ofMeans) {
    if (blockLength < 1) {
      throw new IllegalArgumentException("a block needs at least one row, not " + blockLength);
    }
    Rows rows = Rows.of(columns);
    if (rows.present == 0) {
      return null;
    }
    double value = ofMeans.applyAsDouble(rows.means(0, rows.length));
    int blocks = rows.present / blockLength;
    if (blocks < FEWEST_BLOCKS) {
      return new Estimate(value, null, null, blocks);
    }
    double error = standardError(rows, blockLength, ofMeans) * Math.sqrt(blocks / (blocks - 1.0));
    double reach = error * t95(blocks - 1.0);
    return new Estimate(value, value - reach, value + reach, blocks);
  }

  private static double standardError(
      Rows rows, int blockLength, ToDoubleFunction<double[]> ofMeans) {
    SplittableRandom random = new SplittableRandom(SEED);
    double[] figures = new double[RESAMPLES];
    int usable = 0;
    for (int i = 0; i < RESAMPLES; i++) {
      double[] means = rows.resampled(blockLength, random);
      double figure = ofMeans.applyAsDouble(means);
      if (Double.isFinite(figure)) {
        figures[usable++] = figure;
      }
    }
    double mean = Arrays.stream(figures, 0, usable).average().orElse(0);
    double squares = Arrays.stream(figures, 0, usable).map(f -> (f - mean) * (f - mean)).sum();
    return Math.sqrt(squares / Math.max(1, usable - 1));
  }

  /** 97.5 % point of Student's t. */
  static double t95(double degreesOfFreedom) {
    return TDistribution.of(degreesOfFreedom).inverseCumulativeProbability(BOTH_TAILS_95);
  }

  /**
   * Running sums over the record laid twice end to end, so that any block's sum is a difference.
   */
  private static final class Rows {
    private final double[][] sums;
    private final int[] counts;
    private final int length;
    private final int present;

    private Rows(double[][] sums, int[] counts, int length) {
      this.sums = sums;
      this.counts = counts;
      this.length = length;
      this.present = counts[length];
    }

    static Rows of(double[][] columns) {
      int first = 0;
      int last = columns[0].length;
      while (first < last && !complete(columns, first)) {
        first++;
      }
      while (last > first && !complete(columns, last - 1)) {
        last--;
      }
      int length = last - first;
      double[][] sums = new double[columns.length][2 * length + 1];
      int[] counts = new int[2 * length + 1];
      for (int i = 0; i < 2 * length; i++) {
        int row = first + i % length;
        boolean complete = complete(columns, row);
        counts[i + 1] = counts[i] + (complete ? 1 : 0);
        for (int c = 0; c < columns.length; c++) {
          sums[c][i + 1] = sums[c][i] + (complete ? columns[c][row] : 0);
        }
      }
      return new Rows(sums, counts, length);
    }

    private static boolean complete(double[][] columns, int row) {
      for (double[] column : columns) {
        if (Double.isNaN(column[row])) {
          return false;
        }
      }
      return true;
    }

    double[] means(int from, int to) {
      double[] means = new double[sums.length];
      for (int c = 0; c < means.length; c++) {
        means[c] = (sums[c][to] - sums[c][from]) / (counts[to] - counts[from]);
      }
      return means;
    }

    double[] resampled(int blockLength, SplittableRandom random) {
      double[] means = new double[sums.length];
      int count = 0;
      for (int drawn = 0; drawn < length; drawn += blockLength) {
        int from = random.nextInt(length);
        int to = from + Math.min(blockLength, length - drawn);
        count += counts[to] - counts[from];
        for (int c = 0; c < means.length; c++) {
          means[c] += sums[c][to] - sums[c][from];
        }
      }
      for (int c = 0; c < means.length; c++) {
        means[c] /= count;
      }
      return means;
    }
  }
}
