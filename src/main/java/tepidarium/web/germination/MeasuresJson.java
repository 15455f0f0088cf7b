package tepidarium.web.germination;

import java.util.List;
import java.util.OptionalDouble;
import org.jspecify.annotations.Nullable;
import tepidarium.germination.GerminationData;
import tepidarium.germination.GerminationData.Fate;
import tepidarium.germination.GerminationMeasures;
import tepidarium.stats.Censored;
import tepidarium.stats.Turnbull;
import tepidarium.web.JsonValues;

/**
 * Germination measures of one sowing; times in days. Most measures use the time of the check as the
 * time of germination, so they are late. {@code meanBetween}, {@code halfOfSownBetween} and the
 * curve do not assume this.
 */
record MeasuresJson(
    int checks,
    @Nullable Double firstTime,
    @Nullable Double lastTime,
    @Nullable Double meanTime,
    @Nullable List<Double> meanBetween,
    @Nullable Double meanRate,
    @Nullable Double variance,
    @Nullable Double variationPercent,
    @Nullable Double uniformity,
    @Nullable Double halfTimeCoolbear,
    @Nullable Double halfTimeFarooq,
    @Nullable Double halfTimeOfSown,
    @Nullable List<Double> halfOfSownBetween,
    @Nullable Double uncertaintyBits,
    @Nullable Double synchrony,
    double speed,
    double rateIndexPercent,
    double peakValue,
    double meanDailyPercent,
    double germinationValue,
    double timsonPercent,
    List<StepJson> curve) {

  /**
   * The fraction of seeds that germinated between two days; null if germination was not observed.
   */
  record StepJson(double from, @Nullable Double to, double fraction) {}

  static MeasuresJson of(GerminationData data, List<Double> checkDays) {
    GerminationMeasures of = data.measures(checkDays);
    @Nullable Turnbull curve = curve(data.intervals());
    return new MeasuresJson(
        checkDays.size(),
        value(of.firstTime()),
        value(of.lastTime()),
        value(of.meanTime()),
        meanBetween(data),
        value(of.meanRate()),
        value(of.variance()),
        value(of.variationPercent()),
        value(of.uniformity()),
        value(of.halfTimeCoolbear()),
        value(of.halfTimeFarooq()),
        value(of.halfTimeOfSown()),
        data.halfOfSownBetween(),
        value(of.uncertaintyBits()),
        value(of.synchrony()),
        of.speed(),
        of.rateIndexPercent(),
        of.peakValue(),
        of.meanDailyPercent(),
        of.germinationValue(),
        of.timsonPercent(),
        curve == null ? List.of() : steps(curve));
  }

  /** The Turnbull curve of rows in any unit; empty if the rows contain no information. */
  static List<StepJson> steps(List<Censored> rows) {
    Turnbull curve = curve(rows);
    return curve == null ? List.of() : steps(curve);
  }

  private static @Nullable Turnbull curve(List<Censored> rows) {
    boolean informative =
        rows.stream().anyMatch(row -> row.count() > 0 && !(row.left() == 0 && row.open()));
    return informative ? Turnbull.of(rows) : null;
  }

  private static List<StepJson> steps(Turnbull curve) {
    return curve.steps().stream()
        .map(step -> new StepJson(step.left(), JsonValues.finite(step.right()), step.mass()))
        .toList();
  }

  /**
   * Bounds of the mean time: each seed germinates just after its last check, or just before it was
   * found.
   */
  private static @Nullable List<Double> meanBetween(GerminationData data) {
    double early = 0;
    double late = 0;
    for (GerminationData.Row row : data.rows()) {
      Double to = row.to();
      if (to != null) {
        early += row.count() * row.from();
        late += row.count() * to;
      }
    }
    int germinated = data.count(Fate.GERMINATED);
    return germinated == 0 ? null : List.of(early / germinated, late / germinated);
  }

  private static @Nullable Double value(OptionalDouble measure) {
    return measure.isPresent() ? measure.getAsDouble() : null;
  }
}
