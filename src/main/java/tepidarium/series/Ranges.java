package tepidarium.series;

import java.util.ArrayList;
import java.util.List;
import java.util.SortedSet;

/**
 * Splits instants into query ranges at long steps, so that a query does not read everything between
 * distant instants.
 */
public final class Ranges {
  /** A time range, both ends included, epoch milliseconds. */
  public record Range(long fromMs, long toMs) {}

  private Ranges() {}

  /**
   * Returns the ranges over instants.
   *
   * @param maxStepMs longest step inside a range, milliseconds
   */
  public static List<Range> over(SortedSet<Long> instantsMs, long maxStepMs) {
    List<Range> ranges = new ArrayList<>();
    long from = instantsMs.first();
    long to = from;
    for (long at : instantsMs) {
      if (at - to > maxStepMs) {
        ranges.add(new Range(from, to));
        from = at;
      }
      to = at;
    }
    ranges.add(new Range(from, to));
    return ranges;
  }
}
