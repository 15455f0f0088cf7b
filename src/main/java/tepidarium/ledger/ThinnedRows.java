package tepidarium.ledger;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import tepidarium.history.Thinned;
import tepidarium.reading.Quantity;
import tepidarium.reading.Span;

/** Thins ledger rows to points, by the same rule as {@link Thinned} thins readings. */
final class ThinnedRows {
  private ThinnedRows() {}

  static List<Thinned.Point> of(
      List<LedgerRow> rows, Quantity quantity, Span span, int points, long maxGapMs) {
    List<Thinned.Point> result = new ArrayList<>();
    double stretch = Math.max(1, (double) span.length().toMillis() / points);
    Summary open = null;
    long openBucket = -1;
    for (LedgerRow row : rows) {
      Summary next = row.summary(quantity);
      if (next == null) {
        continue;
      }
      long bucket = (long) ((row.fromMs() - span.fromMs()) / stretch);
      boolean gap = open != null && next.firstMs() - open.lastMs() > maxGapMs;
      if (open != null && (gap || bucket != openBucket)) {
        result.add(point(open));
        if (gap) {
          long middle = (open.lastMs() + next.firstMs()) / 2;
          result.add(new Thinned.Point(middle, false, 0, 0, 0));
        }
        open = null;
      }
      openBucket = open == null ? bucket : openBucket;
      open = joined(open, next);
    }
    if (open != null) {
      result.add(point(open));
    }
    return result;
  }

  private static Summary joined(@Nullable Summary open, Summary next) {
    return open == null ? next : open.plus(next);
  }

  private static Thinned.Point point(Summary summary) {
    long at = (summary.firstMs() + summary.lastMs()) / 2;
    return new Thinned.Point(at, true, summary.min(), summary.max(), summary.mean());
  }
}
