package tepidarium.rollup;

import java.util.ArrayList;
import java.util.List;
import tepidarium.history.Downsampled;
import tepidarium.reading.Quantity;
import tepidarium.reading.Span;
import tepidarium.reading.TimeWeighted;

/** Downsamples rollup rows to chart points by the rule of {@link Downsampled}. */
final class DownsampledRollups {
  private DownsampledRollups() {}

  /** The rows of one bucket, with readings and without a long gap between rows. */
  private record Open(long bucket, Summary readings, TimeWeighted course) {
    Open plus(Summary more, TimeWeighted next) {
      return new Open(bucket, readings.plus(more), course.plus(next));
    }

    Downsampled.Point point() {
      long at = (readings.firstMs() + readings.lastMs()) / 2;
      return Downsampled.point(at, readings.min(), readings.max(), readings.mean(), course);
    }
  }

  static List<Downsampled.Point> of(
      List<RollupRow> rows, Quantity quantity, Span span, int points, long maxGapMs) {
    List<Downsampled.Point> result = new ArrayList<>();
    double stretch = Math.max(1, (double) span.length().toMillis() / points);
    Open open = null;
    for (RollupRow row : rows) {
      Summary next = row.summary(quantity);
      if (next == null) {
        continue;
      }
      long bucket = (long) ((row.fromMs() - span.fromMs()) / stretch);
      boolean gap = open != null && next.firstMs() - open.readings().lastMs() > maxGapMs;
      if (open != null && !gap && bucket == open.bucket()) {
        open = open.plus(next, row.course(quantity));
        continue;
      }
      if (open != null) {
        result.add(open.point());
      }
      if (open != null && gap) {
        long middle = (open.readings().lastMs() + next.firstMs()) / 2;
        result.add(new Downsampled.Point(middle, false, 0, 0, 0));
      }
      open = new Open(bucket, next, row.course(quantity));
    }
    if (open != null) {
      result.add(open.point());
    }
    return result;
  }
}
