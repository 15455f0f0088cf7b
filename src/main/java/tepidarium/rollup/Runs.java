package tepidarium.rollup;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Predicate;
import tepidarium.reading.Span;

/** Where in a long span it is worth looking at the readings themselves. */
final class Runs {
  private Runs() {}

  /**
   * The stretches around the rows that matter, widened on both sides so that what begins or ends in
   * them is seen whole, and joined where they then meet.
   *
   * @param widenMs by how much to widen, ms
   */
  static List<Span> of(
      List<RollupRow> rows, Predicate<RollupRow> matters, Span whole, long widenMs) {
    List<Span> runs = new ArrayList<>();
    for (int i = 0; i < rows.size(); i++) {
      if (matters.test(rows.get(i))) {
        long end = i + 1 < rows.size() ? rows.get(i + 1).fromMs() : whole.toMs();
        add(runs, Span.ofMillis(rows.get(i).fromMs() - widenMs, end + widenMs).within(whole));
      }
    }
    return runs;
  }

  private static void add(List<Span> runs, Span next) {
    if (!runs.isEmpty()) {
      Span last = runs.get(runs.size() - 1);
      if (!next.from().isAfter(last.to())) {
        runs.set(runs.size() - 1, new Span(last.from(), next.to()));
        return;
      }
    }
    runs.add(next);
  }
}
