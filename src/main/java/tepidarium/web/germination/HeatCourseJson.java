package tepidarium.web.germination;

import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import tepidarium.germination.HeatCounts;
import tepidarium.germination.HeatFit;
import tepidarium.germination.HeatForecast;
import tepidarium.germination.HeatOutlook;
import tepidarium.germination.NoFinalFraction;
import tepidarium.germination.NoForecast;
import tepidarium.germination.SeedHeat;
import tepidarium.germination.ThermalTime;
import tepidarium.heat.HeatRule;
import tepidarium.stats.ConfidenceInterval;
import tepidarium.stats.NoFit;
import tepidarium.web.JsonValues;

/** The germination of a sowing as a function of heat; heat in °C·h. */
record HeatCourseJson(
    long sowing,
    String species,
    double base,
    @Nullable Double ceiling,
    List<RowJson> rows,
    List<MeasuresJson.StepJson> curve,
    FitJson fit,
    List<ForecastJson> forecasts,
    @Nullable String noForecast,
    List<NoForecastJson> noForecastFor) {

  /**
   * Seeds that germinated between two amounts of heat.
   *
   * @param measured whether readings cover at least half of the time
   */
  record RowJson(
      String group,
      String fate,
      int count,
      SeedHeatJson from,
      @Nullable SeedHeatJson to,
      double fromDay,
      @Nullable Double toDay,
      boolean measured) {
    static RowJson of(HeatCounts.Row row) {
      SeedHeat to = row.to();
      return new RowJson(
          row.data().group().toString(),
          JsonValues.lower(row.data().fate()),
          row.data().count(),
          SeedHeatJson.of(row.from(), row.paths()),
          to == null ? null : SeedHeatJson.of(to, row.paths()),
          row.data().from(),
          row.data().to(),
          row.known());
    }
  }

  record FitJson(
      boolean identified,
      @Nullable String reason,
      @Nullable String reasonCode,
      @Nullable String note,
      @Nullable String noteCode,
      boolean noteEndsOnly,
      @Nullable Double medianHeat,
      @Nullable List<@Nullable Double> medianInterval,
      @Nullable Double heatForTenth,
      @Nullable Double sigma,
      @Nullable Double finalFraction,
      @Nullable List<@Nullable Double> finalFractionInterval) {
    static FitJson of(HeatFit fit) {
      ThermalTime model = fit.model();
      if (model == null) {
        NoFit reason = Objects.requireNonNull(fit.reason());
        return new FitJson(
            false,
            reason.words(),
            reason.key(),
            null,
            null,
            false,
            null,
            null,
            null,
            null,
            null,
            null);
      }
      NoFinalFraction note = fit.note();
      return new FitJson(
          true,
          null,
          null,
          note == null ? null : note.words(),
          note == null ? null : note.because().key(),
          note != null && note.endsOnly(),
          model.medianHeat(),
          ends(fit.median()),
          model.heatFor(0.1),
          model.sigma(),
          model.finalFraction(),
          ends(fit.finalFraction()));
    }
  }

  /**
   * Why groups have no forecast.
   *
   * @param groups empty if the reason holds for all of the sowing
   */
  record NoForecastJson(String code, List<String> groups) {
    static NoForecastJson of(NoForecast missing) {
      return new NoForecastJson(missing.why().key(), missing.groups());
    }
  }

  record RateJson(double low, double likely, double high) {}

  record ForecastJson(
      String group,
      String container,
      int seeds,
      int remaining,
      Instant at,
      Instant earliest,
      @Nullable Instant latest,
      RateJson heatPerDay,
      String words) {
    static ForecastJson of(HeatOutlook.Expected expected, Instant now) {
      HeatForecast next = expected.next();
      HeatOutlook.Rate rate = expected.rate();
      return new ForecastJson(
          expected.group().toString(),
          expected.container().value(),
          next.seeds(),
          expected.remaining(),
          after(now, next.hours()),
          after(now, next.earliestHours()),
          next.latestHours().isPresent() ? after(now, next.latestHours().getAsDouble()) : null,
          new RateJson(rate.low(), rate.likely(), rate.high()),
          expected.words());
    }

    private static Instant after(Instant now, double hours) {
      return now.plus(Duration.ofMinutes(Math.round(hours * 60)));
    }
  }

  static HeatCourseJson of(
      long sowing,
      String species,
      HeatRule rule,
      HeatCounts counts,
      HeatFit fit,
      HeatOutlook outlook,
      Instant now) {
    return new HeatCourseJson(
        sowing,
        species,
        rule.baseC(),
        rule.ceilingC(),
        counts.above(rule.baseC()).stream().map(RowJson::of).toList(),
        MeasuresJson.steps(counts.likely(rule.baseC())),
        FitJson.of(fit),
        outlook.expected().stream().map(one -> ForecastJson.of(one, now)).toList(),
        outlook.none(),
        outlook.missing().stream().map(NoForecastJson::of).toList());
  }

  /** Both ends of an interval; null if there is no interval. */
  static @Nullable List<@Nullable Double> ends(@Nullable ConfidenceInterval limits) {
    return limits == null ? null : JsonValues.ends(limits);
  }
}
