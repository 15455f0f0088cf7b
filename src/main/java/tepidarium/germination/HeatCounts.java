package tepidarium.germination;

import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.TreeMap;
import java.util.function.ToDoubleFunction;
import org.jspecify.annotations.Nullable;
import tepidarium.germination.GerminationData.Fate;
import tepidarium.germination.ThermalTime.HeatInterval;
import tepidarium.heat.HeatRule;
import tepidarium.stats.Censored;

/**
 * Converts the germination counts of sowings from time to heat: the heat that seeds had received
 * when they were last seen sound, and when they were found germinated. Used for one request; caches
 * the rows for each base temperature.
 */
public final class HeatCounts {
  /** Least width of a heat interval between two checks, as a share of its likely width. */
  private static final double MIN_WIDTH = 0.01;

  private final HeatPath path;
  private final @Nullable Double ceilingC;
  private final List<TimedRow> timedRows = new ArrayList<>();
  private final List<Group> groups = new ArrayList<>();
  private final Map<Double, List<Row>> rowsByBase = new HashMap<>();

  /**
   * A row of counts with its heat.
   *
   * @param data row with its times, days since sowing
   * @param days the same row as a censored interval in days
   * @param from heat when the seeds were last seen sound and ungerminated
   * @param to heat when they were found germinated; null if they were not
   * @param paths number of different paths of the seeds
   */
  public record Row(
      GerminationData.Row data, Censored days, SeedHeat from, @Nullable SeedHeat to, int paths) {
    /** Whether readings cover at least half of the path. */
    public boolean known() {
      return to == null ? from.known() : to.known();
    }

    /**
     * The row as a heat interval for a model.
     *
     * @param heat likely, least or most heat. In a gap that lasts from one check to the next, the
     *     least heat does not rise. The interval then gets a small width, because its seeds did
     *     germinate.
     */
    HeatInterval by(ToDoubleFunction<SeedHeat> heat) {
      double left = heat.applyAsDouble(from);
      if (to == null) {
        return new HeatInterval(left, Double.POSITIVE_INFINITY, data.count());
      }
      double width = MIN_WIDTH * (to.likely() - from.likely());
      return new HeatInterval(left, Math.max(heat.applyAsDouble(to), left + width), data.count());
    }
  }

  private record TimedRow(
      GerminationData.Row data,
      Censored days,
      List<SeedPath> paths,
      Instant from,
      @Nullable Instant to,
      Instant end) {}

  /** A seed group with its rows. */
  record Group(SowingTimeline timeline, GroupState state, List<GerminationData.Row> rows) {
    /** The time of its last check, or of the sowing if there was none. */
    Instant lastLooked() {
      double last = 0;
      for (GerminationData.Row row : rows) {
        Double to = row.to();
        last = Math.max(last, to == null ? row.from() : to);
      }
      return instant(timeline, last);
    }

    /** Whether the group still has exactly the seeds that were sown in it. */
    boolean whole() {
      int seeds = rows.stream().mapToInt(GerminationData.Row::count).sum();
      return timeline.sowing().parts().stream()
          .anyMatch(part -> part.group().equals(state.id()) && part.seeds() == seeds);
    }
  }

  /**
   * Collects the counts of sowings.
   *
   * @param ceilingC ceiling temperature, °C; null if none
   */
  public HeatCounts(List<SowingTimeline> timelines, HeatPath path, @Nullable Double ceilingC) {
    this.path = path;
    this.ceilingC = ceilingC;
    timelines.forEach(this::add);
  }

  private void add(SowingTimeline timeline) {
    GerminationData data = timeline.data();
    List<Censored> days = data.intervals();
    Map<GroupId, List<GerminationData.Row>> byGroup = new TreeMap<>();
    data.rows()
        .forEach(row -> byGroup.computeIfAbsent(row.group(), any -> new ArrayList<>()).add(row));
    Map<GroupId, Instant> ends = new HashMap<>();
    byGroup.forEach(
        (id, rows) -> {
          Group group = new Group(timeline, state(timeline, id), rows);
          groups.add(group);
          ends.put(id, group.lastLooked());
        });
    for (int i = 0; i < days.size(); i++) {
      GerminationData.Row row = data.rows().get(i);
      Censored interval = days.get(i);
      Instant from = instant(timeline, interval.left());
      Instant to = interval.open() ? null : instant(timeline, interval.right());
      List<SeedPath> paths = pathsAt(timeline, row, to == null ? from : to);
      Instant end = ends.getOrDefault(row.group(), from);
      timedRows.add(new TimedRow(row, interval, paths, from, to, end));
    }
  }

  private static Instant instant(SowingTimeline timeline, double days) {
    return timeline.sownAt().plusMillis(Math.round(days * Freshness.MS_PER_DAY));
  }

  private static GroupState state(SowingTimeline timeline, GroupId id) {
    GroupState state = timeline.group(id);
    if (state == null) {
      throw new IllegalStateException("a row belongs to an unknown group: " + id);
    }
    return state;
  }

  /** The paths of a group at an instant; if it began later, at its beginning. */
  private static List<SeedPath> pathsAt(
      SowingTimeline timeline, GerminationData.Row row, Instant at) {
    GroupState last = state(timeline, row.group());
    if (row.fate() == Fate.REMAINING) {
      return last.seedPaths();
    }
    GroupState found = null;
    for (SowingTimeline.Step step : timeline.steps()) {
      if (found != null && step.entry().at().isAfter(at)) {
        break;
      }
      GroupState then = step.after().get(row.group());
      found = then == null ? found : then;
    }
    return (found == null ? last : found).seedPaths();
  }

  /** The counts by the heat above a base temperature in °C, which must be below the ceiling. */
  public List<Row> above(double baseC) {
    return rowsByBase.computeIfAbsent(baseC, this::calculate);
  }

  private List<Row> calculate(double baseC) {
    HeatRule rule = rule(baseC);
    List<Row> rows = new ArrayList<>(timedRows.size());
    for (TimedRow timedRow : timedRows) {
      Instant to = timedRow.to();
      rows.add(
          new Row(
              timedRow.data(),
              timedRow.days(),
              path.seedHeat(timedRow.paths(), timedRow.from(), timedRow.end(), rule),
              to == null ? null : path.seedHeat(timedRow.paths(), to, timedRow.end(), rule),
              timedRow.paths().size()));
    }
    return List.copyOf(rows);
  }

  HeatRule rule(double baseC) {
    return new HeatRule(baseC, ceilingC);
  }

  /**
   * The rows on the likely heat, for drawing a curve; empty if a seed germinated without any heat.
   */
  public List<Censored> likely(double baseC) {
    return ThermalTime.rows(intervals(baseC, SeedHeat::likely)).orElse(List.of());
  }

  /** The heat intervals of the rows whose path is covered well enough. */
  List<HeatInterval> intervals(double baseC, ToDoubleFunction<SeedHeat> heat) {
    return above(baseC).stream().filter(Row::known).map(row -> row.by(heat)).toList();
  }

  /**
   * The lowest mean temperature of any group until its last check, °C; at most the ceiling. Minus
   * infinity if no mean is known.
   */
  double coldestC() {
    OptionalDouble coldest =
        groups.stream()
            .map(group -> path.meanTemperatureC(group.state().seedPaths(), group.lastLooked()))
            .flatMapToDouble(OptionalDouble::stream)
            .min();
    double ceiling = ceilingC == null ? Double.POSITIVE_INFINITY : ceilingC;
    return Math.min(ceiling, coldest.orElse(Double.NEGATIVE_INFINITY));
  }

  HeatPath path() {
    return path;
  }

  List<Group> groups() {
    return List.copyOf(groups);
  }
}
