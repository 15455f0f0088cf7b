package tepidarium.stats;

import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/**
 * So many that met their event after {@code left} and by {@code right}; in any unit that starts at
 * 0, such as hours, days or degree-hours.
 *
 * @param left at least 0 and finite; the last time at which it was seen not to have happened
 * @param right above {@code left}; infinite where it was never seen to happen
 * @param count at least 0
 */
public record Censored(double left, double right, int count) {
  public Censored {
    if (!(left >= 0 && left < Double.POSITIVE_INFINITY)) {
      throw new IllegalArgumentException("an interval must start at 0 or later, not at " + left);
    }
    if (!(right > left)) {
      throw new IllegalArgumentException(
          "an interval must end after it starts, not at " + right + " after " + left);
    }
    if (count < 0) {
      throw new IllegalArgumentException("a count must not be negative, as " + count + " is");
    }
  }

  /** Whether the event was never seen to happen. */
  public boolean open() {
    return right == Double.POSITIVE_INFINITY;
  }

  /** Whether the row says nothing: nobody in it, or nobody ever looked at. */
  boolean silent() {
    return count == 0 || (left == 0 && open());
  }

  /** Rows that say something, equal ones put together, in order. */
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

  /** How many were seen to meet their event. */
  static int met(List<Censored> rows) {
    return rows.stream().filter(row -> !row.open()).mapToInt(Censored::count).sum();
  }
}
