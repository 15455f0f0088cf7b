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

  /** The merged rows of one bucket. A gap longer than {@code maxGapMs} ends a bucket early. */
  private record Bucket(long index, Summary readings, TimeWeighted timeWeighted) {
    Bucket plus(Summary more, TimeWeighted next) {
      return new Bucket(index, readings.plus(more), timeWeighted.plus(next));
    }

    Downsampled.Point point() {
      long at = (readings.firstMs() + readings.lastMs()) / 2;
      return Downsampled.point(at, readings.min(), readings.max(), readings.mean(), timeWeighted);
    }
  }

  static List<Downsampled.Point> of(
      List<RollupRow> rows, Quantity quantity, Span span, int points, long maxGapMs) {
    List<Downsampled.Point> result = new ArrayList<>();
    double bucketMs = Math.max(1, (double) span.length().toMillis() / points);
    Bucket current = null;
    for (RollupRow row : rows) {
      Summary next = row.summary(quantity);
      if (next == null) {
        continue;
      }
      long index = (long) ((row.fromMs() - span.fromMs()) / bucketMs);
      boolean gap = current != null && next.firstMs() - current.readings().lastMs() > maxGapMs;
      if (current != null && !gap && index == current.index()) {
        current = current.plus(next, row.timeWeighted(quantity));
        continue;
      }
      if (current != null) {
        result.add(current.point());
      }
      if (current != null && gap) {
        long middle = (current.readings().lastMs() + next.firstMs()) / 2;
        result.add(new Downsampled.Point(middle, false, 0, 0, 0));
      }
      current = new Bucket(index, next, row.timeWeighted(quantity));
    }
    if (current != null) {
      result.add(current.point());
    }
    return result;
  }
}
