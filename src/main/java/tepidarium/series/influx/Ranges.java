package tepidarium.series.influx;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.SortedSet;

/** The stretches of time to ask for, so that instants far apart do not mean reading all between. */
final class Ranges {
  private static final long FAR_MS = Duration.ofDays(1).toMillis();

  /** From one instant to another, both included. */
  record Range(long fromMs, long toMs) {}

  private Ranges() {}

  static List<Range> over(SortedSet<Long> instantsMs) {
    List<Range> ranges = new ArrayList<>();
    long from = instantsMs.first();
    long to = from;
    for (long at : instantsMs) {
      if (at - to > FAR_MS) {
        ranges.add(new Range(from, to));
        from = at;
      }
      to = at;
    }
    ranges.add(new Range(from, to));
    return ranges;
  }
}
