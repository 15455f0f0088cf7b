package tepidarium.fault;

import java.time.Duration;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import tepidarium.reading.Samples;

/** Marks the readings that meet a condition, and joins marked readings to stretches. */
final class Stretches {
  /**
   * Faulty readings at most this far apart make one stretch, also with sound readings between. 1 h;
   * common practice, no source.
   */
  static final Duration JOIN = Duration.ofHours(1);

  private Stretches() {}

  /** Whether a reading meets a condition. */
  interface Condition {
    boolean holds(int index);
  }

  static BitSet where(Samples samples, Condition condition) {
    BitSet marked = new BitSet(samples.size());
    for (int i = 0; i < samples.size(); i++) {
      marked.set(i, condition.holds(i));
    }
    return marked;
  }

  /** Keeps the marks of unbroken runs that last at least the given time. */
  static BitSet longRuns(Samples samples, BitSet marked, Duration least) {
    BitSet kept = new BitSet(samples.size());
    int start = marked.nextSetBit(0);
    while (start >= 0) {
      int end = start + 1;
      while (marked.get(end) && samples.atMs(end) - samples.atMs(end - 1) <= JOIN.toMillis()) {
        end++;
      }
      boolean isLong = samples.atMs(end - 1) - samples.atMs(start) >= least.toMillis();
      kept.set(start, end, isLong);
      start = marked.nextSetBit(end);
    }
    return kept;
  }

  /** Joins the marked readings from {@code fromMs} (inclusive) to {@code untilMs} (exclusive). */
  static List<Stretch> join(Samples samples, BitSet marked, long fromMs, long untilMs) {
    List<Stretch> joined = new ArrayList<>();
    int end = samples.indexFrom(untilMs);
    for (int i = marked.nextSetBit(samples.indexFrom(fromMs));
        i >= 0 && i < end;
        i = marked.nextSetBit(i + 1)) {
      Stretch next = Stretch.of(samples.atMs(i), samples.value(i));
      int last = joined.size() - 1;
      if (last >= 0 && next.fromMs() - joined.get(last).toMs() <= JOIN.toMillis()) {
        joined.set(last, joined.get(last).plus(next));
      } else {
        joined.add(next);
      }
    }
    return joined;
  }

  /** The samples without the marked ones. */
  static Samples without(Samples samples, BitSet marked) {
    if (marked.isEmpty()) {
      return samples;
    }
    Samples.Builder kept = new Samples.Builder(samples.size());
    for (int i = marked.nextClearBit(0); i < samples.size(); i = marked.nextClearBit(i + 1)) {
      kept.add(samples.atMs(i), samples.value(i));
    }
    return kept.build();
  }
}
