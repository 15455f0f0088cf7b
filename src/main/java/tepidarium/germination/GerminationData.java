package tepidarium.germination;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.TreeSet;
import java.util.function.ToDoubleFunction;
import org.jspecify.annotations.Nullable;
import tepidarium.stats.Censored;

/**
 * The germination times of a sowing as interval-censored rows, in days since sowing. The counts of
 * the rows add up to the number of seeds sown.
 */
public record GerminationData(int sown, List<Row> rows) {
  private static final double SECOND_DAYS = 1 / 86_400.0;

  /** The state of the seeds of a row after the last check. */
  public enum Fate {
    GERMINATED,
    /** Discarded ungerminated; censored when last seen sound. */
    CULLED,
    /** Not germinated when last seen. */
    REMAINING
  }

  /**
   * Seeds of a group with the same state that were last seen ungerminated at the same time.
   *
   * @param from time at which they were last seen sound and ungerminated, days since sowing
   * @param to time at which they were found germinated, days since sowing; null if they were not
   */
  public record Row(double from, @Nullable Double to, int count, Fate fate, GroupId group) {}

  public GerminationData {
    rows = List.copyOf(rows);
  }

  /** The number of seeds with a fate. */
  public int count(Fate fate) {
    return rows.stream().filter(row -> row.fate() == fate).mapToInt(Row::count).sum();
  }

  /**
   * The number of remaining seeds that nobody has checked since sowing. They count neither as
   * germinated nor as failed.
   */
  public int notLookedAt() {
    return rows.stream()
        .filter(row -> row.fate() == Fate.REMAINING && row.from() <= 0)
        .mapToInt(Row::count)
        .sum();
  }

  /** The number of seeds sown that were checked at least once. */
  public int lookedAt() {
    return sown - notLookedAt();
  }

  /**
   * The mean time for which the remaining seeds were watched, days since sowing. Only seeds that
   * were checked are included; null if there are none.
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
   * Bounds of the time by which half of all sown seeds had germinated, days since sowing, without a
   * model. The lower bound assumes that each seed germinated just after it was last seen
   * ungerminated, including culled and remaining seeds. The upper bound assumes that each seed
   * germinated just before it was found and that no other seed ever germinates. Null if less than
   * half was found germinated.
   */
  public @Nullable List<Double> halfOfSownBetween() {
    int halfRank = (sown + 1) / 2;
    double after = timeOfRank(halfRank, Row::from);
    double by = timeOfRank(halfRank, row -> row.to() == null ? Double.POSITIVE_INFINITY : row.to());
    return Double.isFinite(by) ? List.of(after, by) : null;
  }

  /** The time of the seed with a given rank when all seeds are sorted by a time. */
  private double timeOfRank(int seed, ToDoubleFunction<Row> time) {
    int sum = 0;
    for (Row row : rows.stream().sorted(Comparator.comparingDouble(time)).toList()) {
      sum += row.count();
      if (sum >= seed) {
        return time.applyAsDouble(row);
      }
    }
    return Double.POSITIVE_INFINITY;
  }

  /** The rows as censored intervals for curve fits, in days. */
  public List<Censored> intervals() {
    return rows.stream().map(GerminationData::interval).toList();
  }

  /** An interval of length 0 is widened to 1 s. */
  private static Censored interval(Row row) {
    Double to = row.to();
    if (to == null) {
      return new Censored(Math.max(0, row.from()), Double.POSITIVE_INFINITY, row.count());
    }
    double right = Math.max(to, SECOND_DAYS);
    return new Censored(Math.max(0, Math.min(row.from(), right - SECOND_DAYS)), right, row.count());
  }

  /**
   * Calculates the usual measures for the checked seeds. The checks of all groups are merged into
   * one sequence. Each seed counts at the check at which it was found germinated.
   *
   * @param checkDays times of all checks, days since sowing
   */
  public GerminationMeasures measures(List<Double> checkDays) {
    TreeSet<Double> days = new TreeSet<>();
    checkDays.forEach(day -> days.add(Math.max(day, SECOND_DAYS)));
    List<Censored> found = new ArrayList<>();
    double previousDay = 0;
    for (double day : days) {
      found.add(new Censored(previousDay, day, foundAt(day)));
      previousDay = day;
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
