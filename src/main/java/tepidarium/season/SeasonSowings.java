package tepidarium.season;

import java.time.Instant;
import java.util.Collections;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import tepidarium.container.Container;
import tepidarium.container.ContainerId;
import tepidarium.container.Register;
import tepidarium.germination.Act;
import tepidarium.germination.ContainerTemperatures;
import tepidarium.germination.CullReason;
import tepidarium.germination.Culled;
import tepidarium.germination.GerminationData;
import tepidarium.germination.GerminationData.Fate;
import tepidarium.germination.GroupState;
import tepidarium.germination.HeatPath;
import tepidarium.germination.SeedHeat;
import tepidarium.germination.SeedPath;
import tepidarium.germination.Sowing;
import tepidarium.germination.SowingFinder;
import tepidarium.germination.SowingTimeline;
import tepidarium.germination.Species;
import tepidarium.heat.HeatRule;
import tepidarium.reading.Span;
import tepidarium.stats.Proportion;

/** Calculates the results of the sowings of a season at its end. Used for one report. */
final class SeasonSowings {
  private final SowingFinder sowings;
  private final Register register;
  private final Span season;
  private final Map<String, HeatPath> paths = new HashMap<>();

  SeasonSowings(SowingFinder sowings, Register register, Span season) {
    this.sowings = sowings;
    this.register = register;
    this.season = season;
  }

  /** The results of the sowings made in the season. */
  List<SowingResult> results(ContainerTemperatures temperatures) {
    return sowings.all().stream()
        .filter(sowing -> season.contains(sowings.timeline(sowing).sownAt()))
        .sorted(Comparator.comparing(sowing -> sowings.timeline(sowing).sownAt()))
        .map(sowing -> result(sowing, temperatures))
        .toList();
  }

  /** The number of earlier sowings that still had seeds in a container when the season began. */
  int earlier() {
    return (int)
        sowings.all().stream()
            .map(sowings::timeline)
            .filter(timeline -> timeline.sownAt().isBefore(season.from()))
            .filter(
                timeline ->
                    timeline.at(season.from()).values().stream().anyMatch(g -> g.living() > 0))
            .count();
  }

  /** The containers that held seeds at some time in the season. */
  Set<ContainerId> containers() {
    Set<ContainerId> found = new HashSet<>();
    for (Sowing sowing : sowings.all()) {
      for (GroupState group : sowings.timeline(sowing).groups()) {
        group.seedPaths().forEach(seedPath -> addLegs(found, seedPath, group.endedAt()));
      }
    }
    return found;
  }

  private void addLegs(Set<ContainerId> found, SeedPath seedPath, @Nullable Instant endedAt) {
    Instant last = endedAt == null ? season.to() : endedAt;
    for (SeedPath.Leg leg : seedPath.legs()) {
      Instant until = leg.until() == null ? last : leg.until();
      if (leg.from().isBefore(season.to()) && until.isAfter(season.from())) {
        found.add(leg.container());
      }
    }
  }

  private SowingResult result(Sowing sowing, ContainerTemperatures temperatures) {
    SowingTimeline timeline = sowings.timeline(sowing).until(season.to());
    Species species = sowings.species(timeline);
    HeatRule rule = species.heatRule();
    GerminationData data = timeline.data();
    int germinated = data.count(Fate.GERMINATED);
    Proportion fraction = data.lookedAt() == 0 ? null : new Proportion(germinated, data.lookedAt());
    Double watched = data.remainingWatchedDays();
    List<Double> checks = timeline.checkDays();
    Double lastCheck = checks.isEmpty() ? null : Collections.max(checks);
    String name = timeline.name();
    return new SowingResult(
        sowing.id(),
        name == null ? species.name() + ", sowing " + sowing.id() : name,
        species.id(),
        species.name(),
        timeline.sowing().lot(),
        timeline.sownAt(),
        data.sown(),
        data.notLookedAt(),
        germinated,
        fraction == null
            ? null
            : new EstimateWithLimits(
                fraction.fraction(), fraction.wilson().low(), fraction.wilson().high()),
        data.count(Fate.CULLED),
        culledFor(timeline),
        timeline.sum(GroupState::potted),
        timeline.sum(GroupState::alive),
        data.count(Fate.REMAINING),
        firstFound(data),
        lastCheck,
        watched == null ? lastCheck : watched,
        data.halfOfSownBetween(),
        heat(
            timeline,
            paths.computeIfAbsent(species.id(), id -> new HeatPath(temperatures, rule)),
            rule),
        containerNames(timeline));
  }

  private static List<SowingResult.CulledFor> culledFor(SowingTimeline timeline) {
    Map<CullReason, Integer> counts = new EnumMap<>(CullReason.class);
    for (SowingTimeline.Step step : timeline.steps()) {
      if (step.entry().act() instanceof Act.Checked check) {
        for (Culled culled : check.culled()) {
          counts.merge(culled.reason(), culled.count(), Integer::sum);
        }
      }
    }
    return counts.entrySet().stream()
        .sorted(Map.Entry.<CullReason, Integer>comparingByValue().reversed())
        .map(
            e ->
                new SowingResult.CulledFor(
                    e.getKey().name().toLowerCase(Locale.ROOT), e.getValue()))
        .toList();
  }

  private static @Nullable Double firstFound(GerminationData data) {
    Double first = null;
    for (GerminationData.Row row : data.rows()) {
      Double found = row.to();
      if (found != null && (first == null || found < first)) {
        first = found;
      }
    }
    return first;
  }

  /**
   * The heat of a sowing: the mean over its groups, each until its last check, weighted by seeds.
   */
  static SowingResult.@Nullable Heat heat(SowingTimeline timeline, HeatPath path, HeatRule rule) {
    double seeds = 0;
    double[] sums = new double[5];
    for (GroupState group : timeline.groups()) {
      Instant checked = group.checkedAt();
      if (checked != null && group.seeds() > 0) {
        SeedHeat seedHeat = path.seedHeat(group.seedPaths(), checked, checked, rule);
        double[] parts = {
          seedHeat.degreeHours(),
          seedHeat.lower(),
          seedHeat.upper(),
          seedHeat.coveredHours(),
          seedHeat.gapHours()
        };
        for (int i = 0; i < sums.length; i++) {
          sums[i] += group.seeds() * parts[i];
        }
        seeds += group.seeds();
      }
    }
    return seeds == 0
        ? null
        : new SowingResult.Heat(
            rule.baseC(),
            rule.ceilingC(),
            sums[0] / seeds,
            sums[1] / seeds,
            sums[2] / seeds,
            sums[3] / seeds,
            sums[4] / seeds);
  }

  private List<String> containerNames(SowingTimeline timeline) {
    Set<ContainerId> found = new LinkedHashSet<>();
    timeline.groups().stream()
        .flatMap(group -> group.seedPaths().stream())
        .flatMap(seedPath -> seedPath.legs().stream())
        .sorted(Comparator.comparing(SeedPath.Leg::from))
        .forEach(leg -> found.add(leg.container()));
    return found.stream()
        .map(id -> register.container(id).map(Container::name).orElse(id.value()))
        .toList();
  }
}
