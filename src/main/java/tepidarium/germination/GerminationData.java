package tepidarium.germination;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.TreeSet;
import java.util.function.ToDoubleFunction;
import org.jspecify.annotations.Nullable;
import tepidarium.stats.Censored;

/**
 * What the checks of a sowing tell of when its seeds germinated, in days since it. Counts add up to
 * the number sown.
 */
public record GerminationData(int sown, List<Row> rows) {
  private static final double SECOND_DAYS = 1 / 86_400.0;

  /** What became of the seeds of a row. */
  public enum Fate {
    GERMINATED,
    /** Discarded ungerminated: nothing is known after they were last seen sound. */
    CULLED,
    /** Not germinated yet when last seen. */
    REMAINING
  }

  /**
   * Seeds that germinated after one day and by another.
   *
   * @param from when they were last seen sound and ungerminated, days since sowing
   * @param to when they were found germinated; null where they were never seen to germinate
   */
  public record Row(double from, @Nullable Double to, int count, Fate fate, GroupId group) {}

  public GerminationData {
    rows = List.copyOf(rows);
  }

  /** How many seeds had that fate. */
  public int count(Fate fate) {
    return rows.stream().filter(row -> row.fate() == fate).mapToInt(Row::count).sum();
  }

  /**
   * Between which days the seed germinated with which half of all that were sown had: a bound by
   * the counts alone, whatever would have become of the culled ones. Null where less than half did.
   */
  public @Nullable List<Double> halfOfSownBetween() {
    int half = (sown + 1) / 2;
    Double after = nth(half, Row::from);
    Double by = nth(half, row -> row.to() == null ? Double.NaN : row.to());
    return after == null || by == null ? null : List.of(after, by);
  }

  /** The end of the germinated rows, in order, that the so manyth seed has; null for none. */
  private @Nullable Double nth(int seed, ToDoubleFunction<Row> end) {
    List<Row> found =
        rows.stream()
            .filter(row -> row.fate() == Fate.GERMINATED)
            .sorted(Comparator.comparingDouble(end))
            .toList();
    int sum = 0;
    for (Row row : found) {
      sum += row.count();
      if (sum >= seed) {
        return end.applyAsDouble(row);
      }
    }
    return null;
  }

  /** The rows as curves are fitted to them, in days. */
  public List<Censored> intervals() {
    return rows.stream().map(GerminationData::interval).toList();
  }

  /** Seeds seen sound and found germinated at one instant are given a second for it. */
  private static Censored interval(Row row) {
    Double to = row.to();
    if (to == null) {
      return new Censored(Math.max(0, row.from()), Double.POSITIVE_INFINITY, row.count());
    }
    double right = Math.max(to, SECOND_DAYS);
    return new Censored(Math.max(0, Math.min(row.from(), right - SECOND_DAYS)), right, row.count());
  }

  /**
   * The usual measures, with the checks of all groups put in one row: a seed counts at the check at
   * which it was found.
   *
   * @param checkDays of all checks, days since sowing
   */
  public GerminationMeasures measures(List<Double> checkDays) {
    TreeSet<Double> days = new TreeSet<>();
    checkDays.forEach(day -> days.add(Math.max(day, SECOND_DAYS)));
    List<Censored> found = new ArrayList<>();
    double before = 0;
    for (double day : days) {
      found.add(new Censored(before, day, foundAt(day)));
      before = day;
    }
    return new GerminationMeasures(sown, found);
  }

  private int foundAt(double day) {
    return rows.stream()
        .filter(row -> row.to() != null && Math.max(row.to(), SECOND_DAYS) == day)
        .mapToInt(Row::count)
        .sum();
  }
}
