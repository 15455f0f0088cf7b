package tepidarium.germination;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.OptionalDouble;
import org.jspecify.annotations.Nullable;
import tepidarium.reading.Reason;
import tepidarium.stats.Censored;
import tepidarium.stats.IntervalFit;

/**
 * Estimates the base temperature by {@link RateRegression} over seed groups kept at different
 * temperatures. A group is used if its own counts identify its median, if it was checked until its
 * median, if its seeds were neither split nor joined, and if its temperature was below the optimum.
 *
 * @param points points of the groups that are used
 * @param line null if the base is not identified
 * @param reason why it is not; null if it is
 * @param because the same as a code with figures; null if it is
 */
public record BaseByRate(
    List<GroupPoint> points,
    @Nullable RateRegression line,
    @Nullable String reason,
    @Nullable Reason because) {
  /** Temperatures closer than 1 °C count as one; common practice, no source. */
  private static final double APART_C = 1;

  /**
   * The point of one group.
   *
   * @param point mean temperature until the median of its germinating seeds, and this median in
   *     days
   */
  public record GroupPoint(GroupId group, RateRegression.Point point) {}

  public BaseByRate {
    points = List.copyOf(points);
  }

  /**
   * Estimates the base temperature from the groups of all sowings of a species.
   *
   * @param optimumC optimum temperature, °C; groups at or above it are not used; null if not known
   */
  public static BaseByRate of(HeatCounts counts, @Nullable Double optimumC) {
    List<GroupPoint> points = new ArrayList<>();
    for (HeatCounts.Group group : counts.groups()) {
      RateRegression.Point point = group.whole() ? point(group, counts.path()) : null;
      if (point != null && (optimumC == null || point.temperatureC() < optimumC)) {
        points.add(new GroupPoint(group.state().id(), point));
      }
    }
    List<RateRegression.Point> ratePoints = points.stream().map(GroupPoint::point).toList();
    int temperatures = temperatures(ratePoints);
    if (temperatures < RateRegression.MIN_TEMPERATURES) {
      return new BaseByRate(
          points,
          null,
          String.format(
              Locale.ROOT,
              "seed groups at %d or more temperatures are needed, at least %.0f °C (%.1f "
                  + "°F) apart, whose counts identify the time to half germination; there %s %d",
              RateRegression.MIN_TEMPERATURES,
              APART_C,
              APART_C * 1.8,
              temperatures == 1 ? "is" : "are",
              temperatures),
          new Reason(
              "few-temperatures",
              Map.of(
                  "needed",
                  RateRegression.MIN_TEMPERATURES,
                  "apart",
                  APART_C,
                  "found",
                  temperatures)));
    }
    return RateRegression.of(ratePoints)
        .map(line -> new BaseByRate(points, line, null, null))
        .orElse(
            new BaseByRate(
                points,
                null,
                "the germination rate does not rise with temperature",
                Reason.of("no-rise")));
  }

  private static int temperatures(List<RateRegression.Point> points) {
    double last = Double.NEGATIVE_INFINITY;
    int found = 0;
    for (double t :
        points.stream().mapToDouble(RateRegression.Point::temperatureC).sorted().toArray()) {
      if (t - last >= APART_C) {
        found++;
        last = t;
      }
    }
    return found;
  }

  private static RateRegression.@Nullable Point point(HeatCounts.Group group, HeatPath path) {
    GerminationData data = new GerminationData(1, group.rows());
    List<Censored> days = data.intervals();
    HeatFit.Chosen chosen = HeatFit.choose(days);
    IntervalFit fit = chosen.fit();
    if (!fit.identified() || chosen.note() != null) {
      return null;
    }
    double median = fit.median();
    Instant medianAt = group.timeline().sownAt().plus(Freshness.days(median));
    if (medianAt.isAfter(group.lastLooked())) {
      return null;
    }
    OptionalDouble temperature = path.meanTemperatureC(group.state().seedPaths(), medianAt);
    return temperature.isEmpty()
        ? null
        : new RateRegression.Point(temperature.getAsDouble(), median);
  }
}
