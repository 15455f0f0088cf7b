package tepidarium.reading;

import java.time.Duration;

/**
 * Time-weighted statistics of a quantity: mean, standard deviation and extremes of the straight
 * lines between readings. They do not depend on the reporting interval. Gaps are excluded. The
 * statistics of adjoining spans can be merged.
 *
 * <p>Mean: ∫ v dt / ∫ dt. Standard deviation: √(∫ (v − mean)² dt / ∫ dt). On a line from a to b of
 * length L, the mean is (a + b) / 2, and ∫ (v − mean)² dt is L (b − a)² / 12. Parts are joined as
 * in Chan, Golub and LeVeque, The American Statistician 37 (1983) 242-247, which keeps the digits
 * of a small spread about a large mean.
 *
 * @param coveredMs time on straight lines, ms
 * @param mean in the unit of the quantity; NaN where nothing is covered
 * @param squares ∫ (v − mean)² dt, unit²·ms; NaN where it is not known
 * @param min lowest value on the lines; positive infinity where nothing is covered
 * @param max highest value on the lines; negative infinity where nothing is covered
 */
public record TimeWeighted(long coveredMs, double mean, double squares, double min, double max) {
  public static final TimeWeighted NONE =
      new TimeWeighted(0, Double.NaN, 0, Double.POSITIVE_INFINITY, Double.NEGATIVE_INFINITY);

  /** Over a span, which is cut off where the samples are further apart than the longest gap. */
  public static TimeWeighted of(Samples samples, Span span, Duration maxGap) {
    Adder adder = new Adder();
    samples.walk(span, maxGap.toMillis(), adder);
    return adder.sum();
  }

  /** Merges the statistics of an adjoining span. */
  public TimeWeighted plus(TimeWeighted other) {
    if (coveredMs == 0 || other.coveredMs == 0) {
      return coveredMs == 0 ? other : this;
    }
    long covered = coveredMs + other.coveredMs;
    double step = other.mean - mean;
    double share = (double) other.coveredMs / covered;
    return new TimeWeighted(
        covered,
        mean + step * share,
        squares + other.squares + step * step * coveredMs * share,
        Math.min(min, other.min),
        Math.max(max, other.max));
  }

  /** Over time, in the unit of the quantity; NaN where nothing is covered or it is not known. */
  public double standardDeviation() {
    return Math.sqrt(squares / coveredMs);
  }

  private static final class Adder implements SegmentVisitor {
    private long coveredMs;
    private double mean;
    private double squares;
    private double min = Double.POSITIVE_INFINITY;
    private double max = Double.NEGATIVE_INFINITY;

    @Override
    public void line(long startMs, double start, long endMs, double end) {
      long length = endMs - startMs;
      double step = (start + end) / 2 - mean;
      double share = (double) length / (coveredMs + length);
      squares += length * (end - start) * (end - start) / 12 + step * step * coveredMs * share;
      mean += step * share;
      coveredMs += length;
      min = Math.min(min, Math.min(start, end));
      max = Math.max(max, Math.max(start, end));
    }

    @Override
    public void gap(long startMs, long endMs) {
      // Nothing is known of it.
    }

    TimeWeighted sum() {
      return coveredMs == 0 ? NONE : new TimeWeighted(coveredMs, mean, squares, min, max);
    }
  }
}
