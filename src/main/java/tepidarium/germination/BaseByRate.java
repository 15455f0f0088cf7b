package tepidarium.germination;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;
import org.jspecify.annotations.Nullable;
import tepidarium.stats.Censored;
import tepidarium.stats.IntervalFit;

/**
 * The base temperature by the {@link RateRegression} of seed groups that were kept at different
 * temperatures. A group counts where its own counts tell its median, it was looked at until then,
 * its seeds were neither parted nor joined before, and it lay below the optimum.
 *
 * @param points of the groups that count
 * @param line null where the base cannot be told
 * @param reason why not; null where it can
 */
public record BaseByRate(
    List<GroupPoint> points, @Nullable RateRegression line, @Nullable String reason) {
  /** Closer than this, °C, two temperatures are one; common practice, no source. */
  private static final double APART_C = 1;

  /**
   * A group's point.
   *
   * @param point its mean temperature until half of those that germinate had, and that time in days
   */
  public record GroupPoint(GroupId group, RateRegression.Point point) {}

  public BaseByRate {
    points = List.copyOf(points);
  }

  /**
   * Over the groups of all sowings of a species.
   *
   * @param optimumC at and above which a rate says nothing of the base, °C; null where not known
   */
  public static BaseByRate of(HeatCounts counts, @Nullable Double optimumC) {
    List<GroupPoint> points = new ArrayList<>();
    for (HeatCounts.Group group : counts.groups()) {
      RateRegression.Point point = group.whole() ? point(group, counts.path()) : null;
      if (point != null && (optimumC == null || point.temperatureC() < optimumC)) {
        points.add(new GroupPoint(group.state().id(), point));
      }
    }
    List<RateRegression.Point> told = points.stream().map(GroupPoint::point).toList();
    int temperatures = temperatures(told);
    if (temperatures < RateRegression.FEWEST_TEMPERATURES) {
      return new BaseByRate(
          points,
          null,
          String.format(
              Locale.ROOT,
              "it takes seed groups at %d temperatures or more, %.0f °C (%.1f °F) or more apart,"
                  + " whose counts tell when half had germinated; there %s %d",
              RateRegression.FEWEST_TEMPERATURES,
              APART_C,
              APART_C * 1.8,
              temperatures == 1 ? "is" : "are",
              temperatures));
    }
    return RateRegression.of(told)
        .map(line -> new BaseByRate(points, line, null))
        .orElse(new BaseByRate(points, null, "the rate does not rise with the temperature"));
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
    Instant half = group.timeline().sownAt().plus(Freshness.days(median));
    if (half.isAfter(group.lastLooked())) {
      return null;
    }
    OptionalDouble temperature = path.meanTemperatureC(group.state().seedPaths(), half);
    return temperature.isEmpty()
        ? null
        : new RateRegression.Point(temperature.getAsDouble(), median);
  }
}
