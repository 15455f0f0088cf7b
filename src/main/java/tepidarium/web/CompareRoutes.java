package tepidarium.web;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.util.Collections;
import java.util.List;
import org.jspecify.annotations.Nullable;
import tepidarium.germination.Course;
import tepidarium.germination.FractionEstimate;
import tepidarium.germination.GerminationData;
import tepidarium.germination.GerminationData.Fate;
import tepidarium.stats.IntervalLogRank;
import tepidarium.stats.Proportion;
import tepidarium.stats.ProportionDifference;

/** Two sowings against each other. */
final class CompareRoutes {
  private final SeedViews seeds;

  CompareRoutes(SeedViews seeds) {
    this.seeds = seeds;
  }

  record SideJson(
      long sowing,
      FractionEstimate fraction,
      int remaining,
      int notLookedAt,
      @Nullable Double lastCheckDay,
      @Nullable Double remainingWatchedDays) {}

  record LogRankJson(double chiSquare, double p) {}

  /** Without a difference where nobody looked at the seeds of one side. */
  record ComparisonAnswer(
      SideJson a,
      SideJson b,
      SumsJson.@Nullable Difference difference,
      @Nullable LogRankJson logRank) {}

  void add(RoutesConfig routes) {
    routes.get("/api/compare/germination", this::germination);
  }

  private void germination(Context ctx) {
    List<Long> asked = asked(ctx.queryParam("sowings"));
    long a = asked.get(0);
    long b = asked.get(1);
    Course first = seeds.course(seeds.existing(a));
    Course second = seeds.course(seeds.existing(b));
    ctx.json(
        new ComparisonAnswer(
            side(a, first),
            side(b, second),
            difference(first.data(), second.data()),
            logRank(first.data(), second.data())));
  }

  private static List<Long> asked(@Nullable String text) {
    String[] numbers = text == null ? new String[0] : text.split(",", -1);
    if (numbers.length == 2) {
      try {
        List<Long> asked =
            List.of(Long.parseLong(numbers[0].strip()), Long.parseLong(numbers[1].strip()));
        if (!asked.get(0).equals(asked.get(1))) {
          return asked;
        }
      } catch (NumberFormatException e) {
        // Refused below, together with one number or three.
      }
    }
    throw new BadRequest("sowings must name two different sowings, like sowings=1,2");
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

  private static SideJson side(long sowing, Course course) {
    GerminationData data = course.data();
    List<Double> days = GerminationRoutes.checkDays(course);
    return new SideJson(
        sowing,
        FractionEstimate.of(data),
        data.count(Fate.REMAINING),
        data.notLookedAt(),
        days.isEmpty() ? null : Collections.max(days),
        data.remainingWatchedDays());
  }

  /** None where nothing germinated in either: there is no pace then. */
  private static @Nullable LogRankJson logRank(GerminationData first, GerminationData second) {
    if (first.count(Fate.GERMINATED) + second.count(Fate.GERMINATED) == 0) {
      return null;
    }
    IntervalLogRank test = IntervalLogRank.of(first.intervals(), second.intervals());
    return test.variance() > 0 ? new LogRankJson(test.chiSquare(), test.p()) : null;
  }
}
