package tepidarium.history;

import java.util.ArrayList;
import java.util.List;
import tepidarium.reading.Samples;
import tepidarium.reading.Span;

/**
 * A record thinned to what a screen can show, with no extreme lost: the span is cut into equal
 * stretches, and each that holds samples gives its least, greatest and mean value at its middle (a
 * stretch with one sample gives it as it is). A gap longer than the longest one is a point without
 * values between its neighbours.
 */
public final class Thinned {
  /** One point; {@code known} is false for a gap. */
  public record Point(long atMs, boolean known, double min, double max, double mean) {}

  private Thinned() {}

  /**
   * Thins the samples that lie in the span.
   *
   * @param points into how many stretches to cut it
   * @throws IllegalArgumentException when points is not positive
   */
  public static List<Point> of(Samples samples, Span span, int points, long maxGapMs) {
    if (points < 1) {
      throw new IllegalArgumentException("points must be at least 1, not " + points);
    }
    List<Point> result = new ArrayList<>();
    Samples inside = samples.between(span.fromMs(), span.toMs() + 1);
    double stretch = Math.max(1, (double) (span.toMs() - span.fromMs()) / points);
    int start = 0;
    while (start < inside.size()) {
      long bucket = bucket(inside, start, span, stretch);
      int end = start + 1;
      while (end < inside.size()
          && bucket(inside, end, span, stretch) == bucket
          && inside.atMs(end) - inside.atMs(end - 1) <= maxGapMs) {
        end++;
      }
      if (start > 0 && inside.atMs(start) - inside.atMs(start - 1) > maxGapMs) {
        long middle = (inside.atMs(start - 1) + inside.atMs(start)) / 2;
        result.add(new Point(middle, false, 0, 0, 0));
      }
      result.add(point(inside, start, end));
      start = end;
    }
    return result;
  }

  private static long bucket(Samples samples, int index, Span span, double stretch) {
    return (long) ((samples.atMs(index) - span.fromMs()) / stretch);
  }

  /** The middle of the first and last sample keeps the points ascending and inside the record. */
  private static Point point(Samples samples, int start, int end) {
    double min = Double.POSITIVE_INFINITY;
    double max = Double.NEGATIVE_INFINITY;
    double sum = 0;
    for (int i = start; i < end; i++) {
      min = Math.min(min, samples.value(i));
      max = Math.max(max, samples.value(i));
      sum += samples.value(i);
    }
    long at = (samples.atMs(start) + samples.atMs(end - 1)) / 2;
    return new Point(at, true, min, max, sum / (end - start));
  }
}
