package tepidarium.series.influx;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.SortedSet;

/**
 * Splits instants into query ranges at steps longer than one day, so that a query does not read all
 * points between distant instants.
 */
final class Ranges {
  private static final long MAX_STEP_MS = Duration.ofDays(1).toMillis();

  /** A time range, both ends included, epoch milliseconds. */
  record Range(long fromMs, long toMs) {}

  private Ranges() {}

  static List<Range> over(SortedSet<Long> instantsMs) {
    List<Range> ranges = new ArrayList<>();
    long from = instantsMs.first();
    long to = from;
    for (long at : instantsMs) {
      if (at - to > MAX_STEP_MS) {
        ranges.add(new Range(from, to));
        from = at;
      }
      to = at;
    }
    ranges.add(new Range(from, to));
    return ranges;
  }
}
