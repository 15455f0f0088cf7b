package tepidarium.web.germination;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.util.Collections;
import java.util.List;
import org.jspecify.annotations.Nullable;
import tepidarium.container.ContainerId;
import tepidarium.container.Register;
import tepidarium.germination.FractionEstimate;
import tepidarium.germination.GerminationData;
import tepidarium.germination.GerminationData.Fate;
import tepidarium.germination.SeedJournal;
import tepidarium.germination.SourceTrial;
import tepidarium.germination.SowingFinder;
import tepidarium.germination.SowingTimeline;
import tepidarium.germination.Species;
import tepidarium.reading.InputRule;
import tepidarium.reading.InvalidInput;
import tepidarium.stats.IntervalLogRank;
import tepidarium.stats.Proportion;
import tepidarium.stats.ProportionDifference;
import tepidarium.web.NotFound;
import tepidarium.web.sums.SumsJson;

/** Routes for comparing two sowings, or the heat sources of one species. */
public final class CompareRoutes {
  private final SeedJournal journal;
  private final SowingFinder sowings;
  private final Register register;

  public CompareRoutes(SeedJournal journal, SowingFinder sowings, Register register) {
    this.journal = journal;
    this.sowings = sowings;
    this.register = register;
  }

  record SideJson(
      long sowing,
      FractionEstimate fraction,
      int remaining,
      int notLookedAt,
      @Nullable Double lastCheckDay,
      @Nullable Double remainingWatchedDays) {}

  record LogRankJson(double chiSquare, double p) {}

  /** A comparison; the difference is null if the seeds of one side were never checked. */
  record ComparisonAnswer(
      SideJson a,
      SideJson b,
      SumsJson.@Nullable Difference difference,
      @Nullable LogRankJson logRank) {}

  record SourceSideJson(int germinated, int sown, int containers) {
    static SourceSideJson of(SourceTrial.Side side) {
      return new SourceSideJson(side.seeds().hits(), side.seeds().trials(), side.containers());
    }
  }

  record LotOnBothJson(
      long lot, @Nullable String name, SourceSideJson first, SourceSideJson second) {}

  record SourcePairJson(
      String first, String second, List<LotOnBothJson> lots, SumsJson.StratifiedAnswer together) {}

  record SourcesAnswer(String species, List<SourcePairJson> pairs) {}

  public void add(RoutesConfig routes) {
    routes.get("/api/compare/germination", this::germination);
    routes.get("/api/compare/heat-sources", this::heatSources);
  }

  private void germination(Context ctx) {
    List<Long> requested = requested(ctx.queryParam("sowings"));
    long a = requested.get(0);
    long b = requested.get(1);
    SowingTimeline first = sowings.timeline(NotFound.ifMissing(() -> sowings.existing(a)));
    SowingTimeline second = sowings.timeline(NotFound.ifMissing(() -> sowings.existing(b)));
    ctx.json(
        new ComparisonAnswer(
            side(a, first),
            side(b, second),
            difference(first.data(), second.data()),
            logRank(first.data(), second.data())));
  }

  private void heatSources(Context ctx) {
    String id = ctx.queryParam("species");
    if (id == null) {
      throw new InvalidInput("species", "is missing: name one, like species=pawpaw");
    }
    Species species = NotFound.ifMissing(() -> journal.species().existing(id));
    List<SowingTimeline> timelines = sowings.of(species).stream().map(sowings::timeline).toList();
    List<SourcePairJson> pairs =
        SourceTrial.all(timelines, this::heatSource).stream().map(this::pair).toList();
    ctx.json(new SourcesAnswer(species.id(), pairs));
  }

  /** The heat source of a container; null if it has none. */
  private @Nullable String heatSource(ContainerId container) {
    return register.container(container).map(found -> found.settings().heatSource()).orElse(null);
  }

  private SourcePairJson pair(SourceTrial trial) {
    List<LotOnBothJson> lots =
        trial.strata().stream()
            .map(
                stratum ->
                    new LotOnBothJson(
                        stratum.lot(),
                        sowings.lotName(stratum.lot()),
                        SourceSideJson.of(stratum.first()),
                        SourceSideJson.of(stratum.second())))
            .toList();
    return new SourcePairJson(
        trial.first(), trial.second(), lots, SumsJson.StratifiedAnswer.of(trial.together()));
  }

  private static List<Long> requested(@Nullable String text) {
    String[] numbers = text == null ? new String[0] : text.split(",", -1);
    if (numbers.length == 2) {
      try {
        List<Long> requested =
            List.of(Long.parseLong(numbers[0].strip()), Long.parseLong(numbers[1].strip()));
        if (!requested.get(0).equals(requested.get(1))) {
          return requested;
        }
      } catch (NumberFormatException e) {
        // Refused below, together with a wrong number of ids.
      }
    }
    throw new InvalidInput(
        "sowings", "must name two different sowings, like sowings=1,2", InputRule.SAME.with());
  }

  private static SumsJson.@Nullable Difference difference(
      GerminationData first, GerminationData second) {
    return first.lookedAt() == 0 || second.lookedAt() == 0
        ? null
        : SumsJson.Difference.of(new ProportionDifference(of(first), of(second)));
  }

  private static Proportion of(GerminationData data) {
    return new Proportion(data.count(Fate.GERMINATED), data.lookedAt());
  }

  private static SideJson side(long sowing, SowingTimeline timeline) {
    GerminationData data = timeline.data();
    List<Double> days = timeline.checkDays();
    return new SideJson(
        sowing,
        FractionEstimate.of(data),
        data.count(Fate.REMAINING),
        data.notLookedAt(),
        days.isEmpty() ? null : Collections.max(days),
        data.remainingWatchedDays());
  }

  /** The log-rank test; null if no seed germinated on either side. */
  private static @Nullable LogRankJson logRank(GerminationData first, GerminationData second) {
    if (first.count(Fate.GERMINATED) + second.count(Fate.GERMINATED) == 0) {
      return null;
    }
    IntervalLogRank test = IntervalLogRank.of(first.intervals(), second.intervals());
    return test.variance() > 0 ? new LogRankJson(test.chiSquare(), test.p()) : null;
  }
}
