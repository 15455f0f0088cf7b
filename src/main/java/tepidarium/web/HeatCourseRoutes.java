package tepidarium.web;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import tepidarium.container.Register;
import tepidarium.germination.BaseByRate;
import tepidarium.germination.BaseTemperature;
import tepidarium.germination.Course;
import tepidarium.germination.HeatAgainstClock;
import tepidarium.germination.HeatCounts;
import tepidarium.germination.HeatFit;
import tepidarium.germination.HeatOutlook;
import tepidarium.germination.HeatPath;
import tepidarium.germination.SeedJournal;
import tepidarium.germination.Sowing;
import tepidarium.germination.Species;
import tepidarium.germination.Trait;
import tepidarium.heat.HeatRule;
import tepidarium.history.History;
import tepidarium.ledger.Chronicle;
import tepidarium.stats.Posterior;

/** Germination against heat: of a sowing, and of all sowings of a species. */
final class HeatCourseRoutes {
  private final SeedJournal journal;
  private final SeedViews seeds;
  private final Register register;
  private final History history;
  private final Chronicle chronicle;

  HeatCourseRoutes(
      SeedJournal journal,
      SeedViews seeds,
      Register register,
      History history,
      Chronicle chronicle) {
    this.journal = journal;
    this.seeds = seeds;
    this.register = register;
    this.history = history;
    this.chronicle = chronicle;
  }

  void add(RoutesConfig routes) {
    routes.get("/api/sowings/{sowing}/heat-course", this::heatCourse);
    routes.get("/api/species/{species}/thermal-time", this::thermalTime);
  }

  private HeatPath path() {
    return new HeatPath(new MeasuredWarmth(register, history, chronicle));
  }

  private void heatCourse(Context ctx) {
    Sowing sowing = seeds.existing(SeedParams.number(ctx, "sowing"));
    Course course = seeds.course(sowing);
    Species species = seeds.species(course);
    HeatRule rule = PathHeat.rule(species);
    Instant now = seeds.now();
    HeatPath path = path();
    HeatCounts counts = new HeatCounts(List.of(course), path, rule.ceilingC());
    HeatFit fit = HeatFit.of(rule.baseC(), counts);
    HeatOutlook outlook =
        HeatOutlook.of(course, counts, rule.baseC(), past(sowing, course, species, path), now);
    ctx.json(HeatCourseJson.of(sowing.id(), species.id(), rule, counts, fit, outlook, now));
  }

  private Posterior.@Nullable Prior past(
      Sowing sowing, Course course, Species species, HeatPath path) {
    HeatRule rule = PathHeat.rule(species);
    List<HeatCounts> past = new ArrayList<>();
    for (Course other : seeds.pastCourses(sowing, course, species)) {
      past.add(new HeatCounts(List.of(other), path, rule.ceilingC()));
    }
    return HeatFit.prior(rule.baseC(), past);
  }

  private void thermalTime(Context ctx) {
    String id = ctx.pathParam("species");
    Species species = SeedViews.found(() -> journal.species().existing(id));
    List<Sowing> sowings =
        journal.sowings().stream()
            .filter(sowing -> seeds.species(seeds.course(sowing)).id().equals(species.id()))
            .toList();
    List<Course> courses = sowings.stream().map(seeds::course).toList();
    HeatRule rule = PathHeat.rule(species);
    HeatCounts counts = new HeatCounts(courses, path(), rule.ceilingC());
    ctx.json(
        ThermalTimeJson.of(
            species.id(),
            sowings.stream().map(Sowing::id).toList(),
            courses.stream().map(Course::data).toList(),
            rule,
            HeatAgainstClock.of(rule.baseC(), counts),
            BaseTemperature.of(counts),
            BaseByRate.of(counts, species.value(Trait.OPTIMUM))));
  }
}
