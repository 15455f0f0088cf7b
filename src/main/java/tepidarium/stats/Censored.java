package tepidarium.stats;

import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/**
 * A row of interval-censored data: {@code count} individuals had their event after {@code left} and
 * by {@code right}. The unit is any that starts at 0, such as hours, days or degree-hours.
 *
 * @param left last time at which the event had not happened, at least 0 and finite
 * @param right first time at which it had happened, above {@code left}; infinite if it was never
 *     seen
 * @param count number of individuals, at least 0
 */
public record Censored(double left, double right, int count) {
  public Censored {
    if (!(left >= 0 && left < Double.POSITIVE_INFINITY)) {
      throw new IllegalArgumentException("an interval must start at 0 or later, not at " + left);
    }
    if (!(right > left)) {
      throw new IllegalArgumentException(
          "an interval must end after its start at " + left + ", not at " + right);
    }
    if (count < 0) {
      throw new IllegalArgumentException("a count must be 0 or more, not " + count);
    }
  }

  /** Whether the row is right-censored: the event was never seen. */
  public boolean open() {
    return right == Double.POSITIVE_INFINITY;
  }

  /** Whether the row has no information: it is empty, or right-censored at 0. */
  boolean silent() {
    return count == 0 || (left == 0 && open());
  }

  /** The rows with information, sorted; equal rows are merged. */
  static List<Censored> compact(List<Censored> rows) {
    Map<Double, Map<Double, Integer>> sums = new TreeMap<>();
    for (Censored row : rows) {
      if (!row.silent()) {
        sums.computeIfAbsent(row.left(), left -> new TreeMap<>())
            .merge(row.right(), row.count(), Math::addExact);
      }
    }
    return sums.entrySet().stream()
        .flatMap(
            from ->
                from.getValue().entrySet().stream()
                    .map(to -> new Censored(from.getKey(), to.getKey(), to.getValue())))
        .toList();
  }

  static int count(List<Censored> rows) {
    return rows.stream().mapToInt(Censored::count).sum();
  }

  /** The number of observed events. */
  static int met(List<Censored> rows) {
    return rows.stream().filter(row -> !row.open()).mapToInt(Censored::count).sum();
  }
}
