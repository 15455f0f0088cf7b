package tepidarium.web.germination;

import com.github.benmanes.caffeine.cache.Cache;
import com.github.benmanes.caffeine.cache.Caffeine;
import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.time.Clock;
import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;
import tepidarium.germination.BaseByRate;
import tepidarium.germination.BaseTemperature;
import tepidarium.germination.ContainerTemperatures;
import tepidarium.germination.HeatAgainstClock;
import tepidarium.germination.HeatCounts;
import tepidarium.germination.HeatFit;
import tepidarium.germination.HeatOutlook;
import tepidarium.germination.HeatPath;
import tepidarium.germination.SeedJournal;
import tepidarium.germination.Sowing;
import tepidarium.germination.SowingFinder;
import tepidarium.germination.SowingTimeline;
import tepidarium.germination.Species;
import tepidarium.germination.Trait;
import tepidarium.heat.HeatRule;
import tepidarium.web.NotFound;
import tepidarium.web.Params;

/** Germination against heat: of a sowing, and of all sowings of a species. */
public final class HeatCourseRoutes {
  private static final int MAX_CACHED = 200;

  private final SeedJournal journal;
  private final ContainerTemperatures temperatures;
  private final Clock clock;
  private final SowingFinder sowingFinder;

  private final Cache<Counts, Told> sowings =
      Caffeine.newBuilder().executor(Runnable::run).maximumSize(MAX_CACHED).build();
  private final Cache<Pooled, ThermalTimeJson> pooled =
      Caffeine.newBuilder().executor(Runnable::run).maximumSize(MAX_CACHED).build();

  /** Counts of a sowing by the heat above a base, and of those before it. */
  private record Counts(double baseC, List<HeatCounts.Row> rows, List<List<HeatCounts.Row>> past) {}

  private record Told(HeatFit fit, HeatOutlook.Needs needs) {
    static Told of(Counts counts) {
      return new Told(
          HeatFit.of(counts.baseC(), counts.rows()),
          HeatOutlook.needs(counts.rows(), HeatFit.prior(counts.past())));
    }
  }

  /** All counts of a species by the heat above its base; those above any other follow. */
  private record Pooled(
      String species, HeatRule rule, @Nullable Double optimum, List<HeatCounts.Row> rows) {}

  public HeatCourseRoutes(
      SeedJournal journal,
      SowingFinder sowingFinder,
      ContainerTemperatures temperatures,
      Clock clock) {
    this.journal = journal;
    this.sowingFinder = sowingFinder;
    this.temperatures = temperatures;
    this.clock = clock;
  }

  public void add(RoutesConfig routes) {
    routes.get("/api/sowings/{sowing}/heat-course", this::heatCourse);
    routes.get("/api/species/{species}/thermal-time", this::thermalTime);
  }

  private Sowing existing(long id) {
    return NotFound.ifMissing(() -> sowingFinder.existing(id));
  }

  private void heatCourse(Context ctx) {
    Sowing sowing = existing(Params.id(ctx, "sowing"));
    SowingTimeline timeline = sowingFinder.timeline(sowing);
    Species species = sowingFinder.species(timeline);
    HeatRule rule = species.heatRule();
    Instant now = clock.instant();
    HeatPath path = new HeatPath(temperatures, species.heatRule());
    HeatCounts counts = new HeatCounts(List.of(timeline), path, rule.ceilingC());
    Told told =
        sowings.get(
            new Counts(rule.baseC(), counts.above(rule.baseC()), past(sowing, species, path, rule)),
            Told::of);
    HeatOutlook outlook = HeatOutlook.of(timeline, counts, rule.baseC(), told.needs(), now);
    ctx.json(HeatCourseJson.of(sowing.id(), species.id(), rule, counts, told.fit(), outlook, now));
  }

  private List<List<HeatCounts.Row>> past(
      Sowing sowing, Species species, HeatPath path, HeatRule rule) {
    return sowingFinder.earlier(sowing, species).stream()
        .map(other -> new HeatCounts(List.of(other), path, rule.ceilingC()))
        .map(counts -> counts.above(rule.baseC()))
        .toList();
  }

  private void thermalTime(Context ctx) {
    String id = ctx.pathParam("species");
    Species species = NotFound.ifMissing(() -> journal.species().existing(id));
    List<Sowing> all = sowingFinder.of(species);
    List<SowingTimeline> timelines = all.stream().map(sowingFinder::timeline).toList();
    HeatRule rule = species.heatRule();
    HeatCounts counts =
        new HeatCounts(timelines, new HeatPath(temperatures, species.heatRule()), rule.ceilingC());
    Double optimum = species.value(Trait.OPTIMUM);
    ctx.json(
        pooled.get(
            new Pooled(species.id(), rule, optimum, counts.above(rule.baseC())),
            any ->
                ThermalTimeJson.of(
                    species.id(),
                    all.stream().map(Sowing::id).toList(),
                    timelines.stream().map(SowingTimeline::data).toList(),
                    rule,
                    HeatAgainstClock.of(rule.baseC(), counts),
                    BaseTemperature.of(counts),
                    BaseByRate.of(counts, optimum))));
  }
}
