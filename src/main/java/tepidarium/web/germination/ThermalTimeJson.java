package tepidarium.web.germination;

import java.util.List;
import org.jspecify.annotations.Nullable;
import tepidarium.germination.BaseByRate;
import tepidarium.germination.BaseTemperature;
import tepidarium.germination.GerminationData;
import tepidarium.germination.HeatAgainstClock;
import tepidarium.germination.HeatFit;
import tepidarium.germination.HeatFits;
import tepidarium.germination.NoBase;
import tepidarium.germination.NoFinalFraction;
import tepidarium.germination.RateRegression;
import tepidarium.germination.ThermalTime;
import tepidarium.heat.HeatRule;
import tepidarium.reading.Reason;
import tepidarium.stats.IntervalFit;
import tepidarium.web.JsonValues;

/** The estimated heat requirement of a species from all its sowings; heat in °C·h. */
record ThermalTimeJson(
    String species,
    List<Long> sowings,
    int seeds,
    int germinated,
    double base,
    @Nullable Double ceiling,
    @Nullable HeatModelJson heatModel,
    @Nullable ClockModelJson clockModel,
    String verdict,
    String verdictWords,
    @Nullable String verdictCode,
    ByLikelihoodJson baseByLikelihood,
    ByRegressionJson baseByRegression) {

  record HeatModelJson(
      double medianHeat,
      @Nullable List<@Nullable Double> medianInterval,
      double sigma,
      double finalFraction,
      @Nullable String note,
      @Nullable String noteCode,
      boolean noteEndsOnly,
      double logLikelihood,
      double aic) {
    static @Nullable HeatModelJson of(HeatFit fit) {
      ThermalTime model = fit.model();
      NoFinalFraction note = fit.note();
      return model == null
          ? null
          : new HeatModelJson(
              model.medianHeat(),
              HeatCourseJson.ends(fit.median()),
              model.sigma(),
              model.finalFraction(),
              words(note),
              code(note),
              note != null && note.endsOnly(),
              model.logLikelihood(),
              model.aic(false));
    }
  }

  /** The clock model; the median is null if it is too far beyond the observed days. */
  record ClockModelJson(
      @Nullable Double medianDays,
      double sigma,
      double finalFraction,
      @Nullable String note,
      @Nullable String noteCode,
      boolean noteEndsOnly,
      double logLikelihood,
      double aic) {
    static @Nullable ClockModelJson of(@Nullable IntervalFit fit, @Nullable NoFinalFraction note) {
      if (fit == null) {
        return null;
      }
      IntervalFit.Estimate e = fit.estimate();
      return new ClockModelJson(
          fit.medianBeyond() ? null : fit.median(),
          e.sigma(),
          e.finalFraction(),
          words(note),
          code(note),
          note != null && note.endsOnly(),
          e.logLikelihood(),
          fit.aic());
    }
  }

  private static @Nullable String words(@Nullable NoFinalFraction note) {
    return note == null ? null : note.words();
  }

  private static @Nullable String code(@Nullable NoFinalFraction note) {
    return note == null ? null : note.because().key();
  }

  record HeightJson(double base, @Nullable Double logLikelihood) {}

  record ByLikelihoodJson(
      boolean identified,
      @Nullable Double base,
      @Nullable List<@Nullable Double> interval,
      @Nullable String reason,
      @Nullable String reasonCode,
      @Nullable Double medianHeat,
      List<HeightJson> profile) {
    static ByLikelihoodJson of(BaseTemperature found) {
      ThermalTime best = found.best();
      NoBase reason = found.reason();
      return new ByLikelihoodJson(
          found.identified(),
          best == null ? null : best.baseC(),
          HeatCourseJson.ends(found.limits()),
          reason == null ? null : reason.words(),
          reason == null ? null : reason.key(),
          best == null || best.medianBeyond() ? null : best.medianHeat(),
          found.profile().stream()
              .map(h -> new HeightJson(h.baseC(), JsonValues.finite(h.logLikelihood())))
              .toList());
    }
  }

  record PointJson(long sowing, String group, double temperature, double days) {
    static PointJson of(BaseByRate.GroupPoint point) {
      return new PointJson(
          point.group().sowing(),
          point.group().toString(),
          point.point().temperatureC(),
          point.point().time());
    }
  }

  record ByRegressionJson(
      boolean identified,
      @Nullable Double base,
      @Nullable List<@Nullable Double> interval,
      @Nullable String reason,
      @Nullable Reason because,
      List<PointJson> points) {
    static ByRegressionJson of(BaseByRate found) {
      RateRegression line = found.line();
      return new ByRegressionJson(
          line != null,
          line == null ? null : line.baseC(),
          line == null ? null : HeatCourseJson.ends(line.baseLimits()),
          found.reason(),
          found.because(),
          found.points().stream().map(PointJson::of).toList());
    }
  }

  static ThermalTimeJson of(
      String species,
      List<Long> sowings,
      List<GerminationData> data,
      HeatRule rule,
      HeatFits.SpeciesFit fit) {
    HeatAgainstClock compared = fit.comparison();
    return new ThermalTimeJson(
        species,
        sowings,
        data.stream().mapToInt(GerminationData::sown).sum(),
        data.stream().mapToInt(d -> d.count(GerminationData.Fate.GERMINATED)).sum(),
        rule.baseC(),
        rule.ceilingC(),
        HeatModelJson.of(compared.heat()),
        ClockModelJson.of(compared.clock(), compared.clockNote()),
        word(compared.verdict()),
        compared.words(),
        compared.code(),
        ByLikelihoodJson.of(fit.byLikelihood()),
        ByRegressionJson.of(fit.byRate()));
  }

  private static String word(BaseTemperature.Verdict verdict) {
    return switch (verdict) {
      case HEAT -> "heat";
      case CLOCK -> "clock";
      case CANNOT_BE_TOLD -> "cannotBeTold";
    };
  }
}
