package tepidarium.web.seeds;

import java.util.List;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import tepidarium.germination.Viability;
import tepidarium.reading.Reason;
import tepidarium.stats.LogisticLine;
import tepidarium.web.JsonValues;

/** The JSON form of viability: the fraction of seeds that germinate, by days since gathering. */
record ViabilityJson(
    String species,
    boolean identified,
    @Nullable String reason,
    @Nullable Reason because,
    List<Viability.Group> groups,
    int notFinal,
    @Nullable Double slope,
    @Nullable List<Double> slopeInterval,
    @Nullable Double dispersion,
    @Nullable Double halfDays,
    @Nullable List<Double> halfDaysInterval,
    List<PointJson> curve) {
  private static final int POINTS = 20;

  /** The fraction that still germinates after a number of days, with its 95 % interval. */
  record PointJson(double days, double fraction, List<Double> interval) {
    static PointJson of(Viability.Estimate estimate) {
      return new PointJson(
          estimate.days(), estimate.fraction(), JsonValues.pair(estimate.limits()));
    }
  }

  static ViabilityJson of(String species, Viability found) {
    LogisticLine line = found.curve();
    if (line == null) {
      return new ViabilityJson(
          species,
          false,
          found.reason(),
          found.because(),
          found.groups(),
          found.notFinal(),
          null,
          null,
          null,
          null,
          null,
          List.of());
    }
    boolean half = line.half() >= found.shortestDays() && line.half() <= found.longestDays();
    return new ViabilityJson(
        species,
        true,
        null,
        null,
        found.groups(),
        found.notFinal(),
        line.slope(),
        JsonValues.pair(line.slopeLimits()),
        line.dispersion(),
        half ? line.half() : null,
        half ? JsonValues.pair(line.halfLimits()) : null,
        curve(found));
  }

  private static List<PointJson> curve(Viability found) {
    return IntStream.rangeClosed(0, POINTS)
        .mapToObj(i -> found.after(day(found, i)))
        .flatMap(Stream::ofNullable)
        .map(PointJson::of)
        .toList();
  }

  /** The day of a point; the last point is exactly the longest time, without rounding. */
  private static double day(Viability found, int point) {
    double range = found.longestDays() - found.shortestDays();
    return point == POINTS ? found.longestDays() : found.shortestDays() + point * range / POINTS;
  }
}
