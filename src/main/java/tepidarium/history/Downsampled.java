package tepidarium.history;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import tepidarium.reading.Samples;
import tepidarium.reading.Span;
import tepidarium.reading.TimeWeighted;

/**
 * Downsamples a series for a chart and keeps all extremes. The span is divided into equal buckets.
 * Each bucket with samples gives one point: minimum, maximum and mean at the middle of its samples.
 * The mean is time-weighted over the straight lines between samples, so it does not depend on the
 * reporting interval. A bucket with one sample gives that sample unchanged. A bucket whose samples
 * are all separated by gaps gives the plain mean. A gap longer than {@code maxGap} gives a point
 * without values.
 */
public final class Downsampled {
  /** One chart point; {@code known} is false for a gap. */
  public record Point(long atMs, boolean known, double min, double max, double mean) {}

  private final Samples all;
  private final Samples inside;
  private final Span span;
  private final double bucketMs;
  private final Duration maxGap;

  private Downsampled(Samples all, Span span, int points, Duration maxGap) {
    this.all = all;
    this.inside = all.between(span.fromMs(), span.toMs() + 1);
    this.span = span;
    this.bucketMs = Math.max(1, (double) (span.toMs() - span.fromMs()) / points);
    this.maxGap = maxGap;
  }

  /**
   * Downsamples the samples inside the span.
   *
   * @param samples samples of the span, widened by {@code maxGap} on both sides
   * @param points number of buckets
   * @throws IllegalArgumentException when points is not positive
   */
  public static List<Point> of(Samples samples, Span span, int points, Duration maxGap) {
    if (points < 1) {
      throw new IllegalArgumentException("points must be at least 1, not " + points);
    }
    return new Downsampled(samples, span, points, maxGap).points();
  }

  private List<Point> points() {
    List<Point> result = new ArrayList<>();
    int start = 0;
    while (start < inside.size()) {
      int end = start + 1;
      while (end < inside.size() && bucket(end) == bucket(start) && !gapBefore(end)) {
        end++;
      }
      if (gapBefore(start)) {
        long middle = (inside.atMs(start - 1) + inside.atMs(start)) / 2;
        result.add(new Point(middle, false, 0, 0, 0));
      }
      result.add(point(start, end));
      start = end;
    }
    return result;
  }

  private long bucket(int index) {
    return (long) ((inside.atMs(index) - span.fromMs()) / bucketMs);
  }

  private boolean gapBefore(int index) {
    return index > 0 && !inside.joined(index, maxGap.toMillis());
  }

  private Point point(int start, int end) {
    double min = Double.POSITIVE_INFINITY;
    double max = Double.NEGATIVE_INFINITY;
    double sum = 0;
    for (int i = start; i < end; i++) {
      min = Math.min(min, inside.value(i));
      max = Math.max(max, inside.value(i));
      sum += inside.value(i);
    }
    long at = (inside.atMs(start) + inside.atMs(end - 1)) / 2;
    int count = end - start;
    TimeWeighted timeWeighted =
        count == 1 ? TimeWeighted.NONE : TimeWeighted.of(all, bucketPart(start, end), maxGap);
    return point(at, min, max, sum / count, timeWeighted);
  }

  /**
   * The time covered by the samples with indexes {@code start} (inclusive) to {@code end}
   * (exclusive), without a gap at its end.
   */
  private Span bucketPart(int start, int end) {
    long bucket = bucket(start);
    long from = span.fromMs() + (long) Math.ceil(bucket * bucketMs);
    long to = Math.min(span.toMs(), span.fromMs() + (long) Math.ceil((bucket + 1) * bucketMs));
    boolean cutBefore = start > 0 && bucket(start - 1) == bucket;
    boolean cutAfter = end < inside.size() && bucket(end) == bucket;
    return Span.ofMillis(
        cutBefore ? inside.atMs(start) : Math.min(from, to), cutAfter ? inside.atMs(end - 1) : to);
  }

  /**
   * Builds the point of one bucket.
   *
   * @param atMs midpoint between its first and last sample, so that points ascend and stay inside
   *     the series
   * @param samplesMean the mean of its samples
   * @param timeWeighted time-weighted statistics of the straight lines within the bucket; if it
   *     covers no time, {@code samplesMean} is used
   */
  public static Point point(
      long atMs, double min, double max, double samplesMean, TimeWeighted timeWeighted) {
    if (timeWeighted.coveredMs() == 0) {
      return new Point(atMs, true, min, max, samplesMean);
    }
    return new Point(
        atMs,
        true,
        Math.min(min, timeWeighted.min()),
        Math.max(max, timeWeighted.max()),
        timeWeighted.mean());
  }
}
