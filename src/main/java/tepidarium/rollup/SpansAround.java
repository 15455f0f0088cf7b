package tepidarium.rollup;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Predicate;
import tepidarium.reading.Span;

/** Finds the spans around rollup rows that match a condition. Their raw readings are needed. */
final class SpansAround {
  private SpansAround() {}

  /**
   * The spans of the matching rows, widened on both sides to include the start and end of an event,
   * and merged where they touch.
   *
   * @param widenMs widening on each side, ms
   */
  static List<Span> of(
      List<RollupRow> rows, Predicate<RollupRow> matters, Span whole, long widenMs) {
    List<Span> spans = new ArrayList<>();
    for (int i = 0; i < rows.size(); i++) {
      if (matters.test(rows.get(i))) {
        long end = i + 1 < rows.size() ? rows.get(i + 1).fromMs() : whole.toMs();
        add(spans, Span.ofMillis(rows.get(i).fromMs() - widenMs, end + widenMs).within(whole));
      }
    }
    return spans;
  }

  private static void add(List<Span> spans, Span next) {
    if (!spans.isEmpty()) {
      Span last = spans.get(spans.size() - 1);
      if (!next.from().isAfter(last.to())) {
        spans.set(spans.size() - 1, new Span(last.from(), next.to()));
        return;
      }
    }
    spans.add(next);
  }
}
