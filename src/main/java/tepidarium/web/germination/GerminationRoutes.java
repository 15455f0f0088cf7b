package tepidarium.web.germination;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import tepidarium.container.Container;
import tepidarium.container.Register;
import tepidarium.germination.Act;
import tepidarium.germination.ContainerTemperatures;
import tepidarium.germination.FractionEstimate;
import tepidarium.germination.GerminationData;
import tepidarium.germination.GerminationData.Fate;
import tepidarium.germination.GerminationFits;
import tepidarium.germination.GroupCounts;
import tepidarium.germination.GroupId;
import tepidarium.germination.GroupState;
import tepidarium.germination.HeatPath;
import tepidarium.germination.SeedPath;
import tepidarium.germination.Sowing;
import tepidarium.germination.SowingFinder;
import tepidarium.germination.SowingTimeline;
import tepidarium.germination.Species;
import tepidarium.heat.HeatRule;
import tepidarium.reading.Span;
import tepidarium.rollup.ContainerHistory;
import tepidarium.rollup.LimitTime;
import tepidarium.series.StoreException;
import tepidarium.stats.Proportion;
import tepidarium.stats.Replicates;
import tepidarium.web.JsonValues;
import tepidarium.web.NotFound;
import tepidarium.web.Params;
import tepidarium.web.seeds.SeedParams;
import tepidarium.web.sums.SumsJson;

/** Routes for the germination results of a sowing, and for the path of one seed group. */
public final class GerminationRoutes {
  private static final Duration JOIN = Duration.ofMinutes(2);
  private static final double MS_PER_HOUR = 3_600_000.0;

  private final ContainerTemperatures temperatures;
  private final Clock clock;
  private final SowingFinder sowings;
  private final Register register;
  private final ContainerHistory history;
  private final GerminationFits fits = new GerminationFits();

  public GerminationRoutes(
      SowingFinder sowings,
      ContainerTemperatures temperatures,
      Register register,
      ContainerHistory history,
      Clock clock) {
    this.temperatures = temperatures;
    this.clock = clock;
    this.sowings = sowings;
    this.register = register;
    this.history = history;
  }

  record LegJson(
      String container,
      Instant from,
      Instant until,
      SeedHeatJson heat,
      double doseLuxHours,
      double hoursTooCold,
      double hoursTooDry,
      double humidityCoveredHours) {}

  record WayJson(double share, List<LegJson> legs) {}

  record CheckJson(
      UUID entry,
      String group,
      Instant at,
      double day,
      int germinated,
      int culled,
      int pottedOn,
      int ungerminatedLeft,
      int germinatedSoFar,
      double fractionSoFar,
      @Nullable SeedHeatJson heat) {}

  record PathAnswer(
      String group,
      double base,
      @Nullable Double ceiling,
      SeedHeatJson heat,
      List<WayJson> ways,
      List<CheckJson> checks) {}

  record RowJson(double from, @Nullable Double to, int count, String fate, String group) {
    static RowJson of(GerminationData.Row row) {
      return new RowJson(
          row.from(), row.to(), row.count(), JsonValues.lower(row.fate()), row.group().toString());
    }
  }

  record GerminationAnswer(
      long sowing,
      String species,
      Instant sownAt,
      int sown,
      int germinated,
      int culledUngerminated,
      int remaining,
      int notLookedAt,
      FractionEstimate fraction,
      SumsJson.@Nullable ReplicatesAnswer replicates,
      double base,
      @Nullable Double ceiling,
      List<RowJson> rows,
      List<CheckJson> checks,
      MeasuresJson measures,
      SumsJson.Germination fits,
      @Nullable ProspectJson prospect) {}

  public void add(RoutesConfig routes) {
    routes.get("/api/sowings/{sowing}/germination", this::germination);
    routes.get("/api/groups/{group}/path", this::path);
  }

  private Sowing existing(long id) {
    return NotFound.ifMissing(() -> sowings.existing(id));
  }

  private void germination(Context ctx) {
    Sowing sowing = existing(Params.id(ctx, "sowing"));
    SowingTimeline timeline = sowings.timeline(sowing);
    Species species = sowings.species(timeline);
    HeatRule rule = species.heatRule();
    GerminationData data = timeline.data();
    int germinated = data.count(Fate.GERMINATED);
    List<Double> days = timeline.checkDays();
    GerminationFits.Fits fitted = fits.of(timeline, sowings.earlier(sowing, species));
    ctx.json(
        new GerminationAnswer(
            sowing.id(),
            species.id(),
            timeline.sownAt(),
            data.sown(),
            germinated,
            data.count(Fate.CULLED),
            data.count(Fate.REMAINING),
            data.notLookedAt(),
            FractionEstimate.of(data),
            replicates(timeline),
            rule.baseC(),
            rule.ceilingC(),
            data.rows().stream().map(RowJson::of).toList(),
            checks(timeline, new HeatPath(temperatures, species.heatRule()), rule),
            MeasuresJson.of(data, days),
            SumsJson.Germination.of(data.intervals(), fitted.curves(), fitted.finalFraction()),
            ProspectJson.of(fitted.prospect(), timeline)));
  }

  /** Compares the groups that were not split or joined; null if there are fewer than two. */
  private static SumsJson.@Nullable ReplicatesAnswer replicates(SowingTimeline timeline) {
    List<Proportion> groups = List.copyOf(GroupCounts.of(timeline).values());
    return groups.size() < 2 ? null : SumsJson.ReplicatesAnswer.of(new Replicates(groups));
  }

  private static List<CheckJson> checks(SowingTimeline timeline, HeatPath path, HeatRule rule) {
    List<CheckJson> checks = new ArrayList<>();
    int soFar = 0;
    int sown = timeline.sowing().seeds();
    for (SowingTimeline.Step step : timeline.steps()) {
      if (step.entry().act() instanceof Act.Checked check) {
        soFar += check.germinated();
        GroupState group = step.after().get(check.group());
        Instant at = step.entry().at();
        checks.add(
            new CheckJson(
                step.entry().id(),
                check.group().toString(),
                at,
                timeline.day(at),
                check.germinated(),
                check.culled().stream().mapToInt(line -> line.count()).sum(),
                check.pottedOn(),
                step.after().values().stream().mapToInt(GroupState::ungerminated).sum(),
                soFar,
                (double) soFar / sown,
                group == null ? null : known(timeline, group, at, path, rule)));
      }
    }
    return checks;
  }

  /** Heat up to a check; null while the readings store is unavailable. */
  private static @Nullable SeedHeatJson known(
      SowingTimeline timeline, GroupState state, Instant at, HeatPath path, HeatRule rule) {
    GroupState last = timeline.group(state.id());
    Instant end = last == null || last.checkedAt() == null ? at : last.checkedAt();
    try {
      return SeedHeatJson.of(
          path.seedHeat(state.seedPaths(), at, end, rule), state.seedPaths().size());
    } catch (StoreException e) {
      return null;
    }
  }

  private void path(Context ctx) {
    GroupId id = SeedParams.group(ctx);
    SowingTimeline timeline = sowings.timeline(existing(id.sowing()));
    GroupState group = timeline.group(id);
    if (group == null) {
      throw new NotFound("there is no seed group " + id);
    }
    Species species = sowings.species(timeline);
    HeatRule rule = species.heatRule();
    HeatPath path = new HeatPath(temperatures, species.heatRule());
    Instant now = clock.instant();
    Instant end = group.endedAt() == null || group.endedAt().isAfter(now) ? now : group.endedAt();
    List<CheckJson> checks =
        checks(timeline, path, rule).stream().filter(c -> c.group().equals(id.toString())).toList();
    ctx.json(
        new PathAnswer(
            id.toString(),
            rule.baseC(),
            rule.ceilingC(),
            SeedHeatJson.of(
                path.seedHeat(group.seedPaths(), end, end, rule), group.seedPaths().size()),
            group.seedPaths().stream().map(seedPath -> way(seedPath, end, path, rule)).toList(),
            checks));
  }

  private WayJson way(SeedPath seedPath, Instant end, HeatPath path, HeatRule rule) {
    List<LegJson> legs =
        seedPath.legs().stream()
            .filter(leg -> leg.from().isBefore(end))
            .map(leg -> leg(leg, end, path, rule))
            .toList();
    return new WayJson(seedPath.share(), legs);
  }

  private LegJson leg(SeedPath.Leg leg, Instant end, HeatPath path, HeatRule rule) {
    Instant until = leg.end(end);
    SeedHeatJson heat = SeedHeatJson.of(path.seedHeat(leg, end, end, rule), 1);
    Container container = register.container(leg.container()).orElse(null);
    if (container == null) {
      return new LegJson(leg.container().value(), leg.from(), until, heat, 0, 0, 0, 0);
    }
    Span span = new Span(leg.from(), until);
    double limit = container.band().lightHighLux();
    LimitTime dry = history.band().dry(container, span).time();
    LimitTime cold = history.band().cold(container, span).time();
    return new LegJson(
        leg.container().value(),
        leg.from(),
        until,
        heat,
        history.light(container, span, limit, JOIN).luxHours(),
        cold.outsideMs() / MS_PER_HOUR,
        dry.outsideMs() / MS_PER_HOUR,
        dry.coveredMs() / MS_PER_HOUR);
  }
}
