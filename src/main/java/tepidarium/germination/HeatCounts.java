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
 * The counts of sowings by the heat that the seeds had received when they were last seen sound, and
 * when they were found. Made for one question: the heat above a base is worked out once.
 */
public final class HeatCounts {
  /** Where heat is known for both checks it rises by this part of the likely width at least. */
  private static final double LEAST_WIDTH = 0.01;

  private final HeatPath path;
  private final @Nullable Double ceilingC;
  private final List<Line> lines = new ArrayList<>();
  private final List<Group> groups = new ArrayList<>();
  private final Map<Double, List<Row>> known = new HashMap<>();

  /**
   * Seeds by heat.
   *
   * @param told what became of how many, in days since their sowing
   * @param days the same as curves are fitted to it
   * @param from when last seen sound and ungerminated
   * @param to when found germinated; null where they never were
   * @param ways how many different ways they came
   */
  public record Row(
      GerminationData.Row told, Censored days, SeedHeat from, @Nullable SeedHeat to, int ways) {
    /** Whether enough of the path was measured. */
    public boolean known() {
      return to == null ? from.known() : to.known();
    }

    /**
     * As models are fitted to it.
     *
     * @param heat likely, least or most. Where the least heat does not rise between two checks,
     *     because all between is a gap, it is taken to have risen a little: the seeds did
     *     germinate.
     */
    HeatInterval by(ToDoubleFunction<SeedHeat> heat) {
      double left = heat.applyAsDouble(from);
      if (to == null) {
        return new HeatInterval(left, Double.POSITIVE_INFINITY, told.count());
      }
      double width = LEAST_WIDTH * (to.likely() - from.likely());
      return new HeatInterval(left, Math.max(heat.applyAsDouble(to), left + width), told.count());
    }
  }

  private record Line(
      GerminationData.Row told,
      Censored days,
      List<SeedPath> ways,
      Instant from,
      @Nullable Instant to,
      Instant end) {}

  /** A seed group with its rows. */
  record Group(SowingTimeline timeline, GroupState state, List<GerminationData.Row> rows) {
    /** When it was last looked at, or its seeds were last seen. */
    Instant lastLooked() {
      double last = 0;
      for (GerminationData.Row row : rows) {
        Double to = row.to();
        last = Math.max(last, to == null ? row.from() : to);
      }
      return instant(timeline, last);
    }

    /** Whether its seeds are those that were sown in it, no fewer and no more. */
    boolean whole() {
      int seeds = rows.stream().mapToInt(GerminationData.Row::count).sum();
      return timeline.sowing().parts().stream()
          .anyMatch(part -> part.group().equals(state.id()) && part.seeds() == seeds);
    }
  }

  /**
   * Of some sowings.
   *
   * @param ceilingC the ceiling temperature, °C; null for none
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
      List<SeedPath> ways = ways(timeline, row, to == null ? from : to);
      Instant end = ends.getOrDefault(row.group(), from);
      lines.add(new Line(row, interval, ways, from, to, end));
    }
  }

  private static Instant instant(SowingTimeline timeline, double days) {
    return timeline.sownAt().plusMillis(Math.round(days * Freshness.MS_PER_DAY));
  }

  private static GroupState state(SowingTimeline timeline, GroupId id) {
    GroupState state = timeline.group(id);
    if (state == null) {
      throw new IllegalStateException("a row of a group that is not there: " + id);
    }
    return state;
  }

  /** The group's ways as they were at an instant, or when it was begun later. */
  private static List<SeedPath> ways(SowingTimeline timeline, GerminationData.Row row, Instant at) {
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

  /** The counts by the heat above a base in °C, which lies below the ceiling. */
  public List<Row> above(double baseC) {
    return known.computeIfAbsent(baseC, this::workOut);
  }

  private List<Row> workOut(double baseC) {
    HeatRule rule = rule(baseC);
    List<Row> rows = new ArrayList<>(lines.size());
    for (Line line : lines) {
      Instant to = line.to();
      rows.add(
          new Row(
              line.told(),
              line.days(),
              path.seedHeat(line.ways(), line.from(), line.end(), rule),
              to == null ? null : path.seedHeat(line.ways(), to, line.end(), rule),
              line.ways().size()));
    }
    return List.copyOf(rows);
  }

  HeatRule rule(double baseC) {
    return new HeatRule(baseC, ceilingC);
  }

  /**
   * On the likely heat, as a curve is drawn through them; none at all where some seed germinated
   * without any heat.
   */
  public List<Censored> likely(double baseC) {
    return ThermalTime.rows(intervals(baseC, SeedHeat::likely)).orElse(List.of());
  }

  /** Those whose path was measured well enough, as models are fitted to them. */
  List<HeatInterval> intervals(double baseC, ToDoubleFunction<SeedHeat> heat) {
    return above(baseC).stream().filter(Row::known).map(row -> row.by(heat)).toList();
  }

  /**
   * The lowest mean temperature that a group had until it was last looked at, or the ceiling where
   * that is lower, °C; minus infinity where none is known.
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
