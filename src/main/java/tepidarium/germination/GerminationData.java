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

  /** Sound seeds that nobody has looked at since the sowing: neither failures nor successes. */
  public int notLookedAt() {
    return rows.stream()
        .filter(row -> row.fate() == Fate.REMAINING && row.from() <= 0)
        .mapToInt(Row::count)
        .sum();
  }

  /** Seeds sown that somebody looked at since. */
  public int lookedAt() {
    return sown - notLookedAt();
  }

  /**
   * For how long the seeds that did not germinate were watched, in days since the sowing: the mean
   * over the remaining seeds that were looked at; null where there are none.
   */
  public @Nullable Double remainingWatchedDays() {
    double days = 0;
    int seeds = 0;
    for (Row row : rows) {
      if (row.fate() == Fate.REMAINING && row.from() > 0) {
        days += row.count() * row.from();
        seeds += row.count();
      }
    }
    return seeds == 0 ? null : days / seeds;
  }

  /**
   * Bounds, in days, of the time by which half of all sown seeds had germinated, by the counts
   * alone. At the earliest each seed germinated just after it was last seen ungerminated, culled
   * and remaining ones included. At the latest each was found at once and no other seed ever
   * germinates. Null where less than half was found germinated.
   */
  public @Nullable List<Double> halfOfSownBetween() {
    int half = (sown + 1) / 2;
    double after = nth(half, Row::from);
    double by = nth(half, row -> row.to() == null ? Double.POSITIVE_INFINITY : row.to());
    return Double.isFinite(by) ? List.of(after, by) : null;
  }

  /** The time of the seed with that number when all are sorted by a time. */
  private double nth(int seed, ToDoubleFunction<Row> time) {
    int sum = 0;
    for (Row row : rows.stream().sorted(Comparator.comparingDouble(time)).toList()) {
      sum += row.count();
      if (sum >= seed) {
        return time.applyAsDouble(row);
      }
    }
    return Double.POSITIVE_INFINITY;
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
   * The usual measures of the seeds that were looked at, with the checks of all groups put in one
   * row: a seed counts at the check at which it was found.
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
    return new GerminationMeasures(lookedAt() > 0 ? lookedAt() : sown, found);
  }

  private int foundAt(double day) {
    return rows.stream()
        .filter(row -> row.to() != null && Math.max(row.to(), SECOND_DAYS) == day)
        .mapToInt(Row::count)
        .sum();
  }
}
