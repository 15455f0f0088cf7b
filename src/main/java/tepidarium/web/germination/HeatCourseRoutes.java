package tepidarium.web.germination;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.time.Clock;
import java.time.Instant;
import java.util.List;
import tepidarium.germination.ContainerTemperatures;
import tepidarium.germination.HeatCounts;
import tepidarium.germination.HeatFits;
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

/**
 * Routes for germination as a function of heat, for one sowing and for all sowings of a species.
 */
public final class HeatCourseRoutes {
  private final SeedJournal journal;
  private final ContainerTemperatures temperatures;
  private final Clock clock;
  private final SowingFinder sowingFinder;

  private final HeatFits fits = new HeatFits();

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
    HeatFits.SowingFit fit =
        fits.sowing(rule.baseC(), counts, earlier(sowing, species, path, rule));
    HeatOutlook outlook = HeatOutlook.of(timeline, counts, rule.baseC(), fit.needs(), now);
    ctx.json(HeatCourseJson.of(sowing.id(), species.id(), rule, counts, fit.fit(), outlook, now));
  }

  private List<HeatCounts> earlier(Sowing sowing, Species species, HeatPath path, HeatRule rule) {
    return sowingFinder.earlier(sowing, species).stream()
        .map(other -> new HeatCounts(List.of(other), path, rule.ceilingC()))
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
    ctx.json(
        ThermalTimeJson.of(
            species.id(),
            all.stream().map(Sowing::id).toList(),
            timelines.stream().map(SowingTimeline::data).toList(),
            rule,
            fits.species(rule, counts, species.value(Trait.OPTIMUM))));
  }
}
