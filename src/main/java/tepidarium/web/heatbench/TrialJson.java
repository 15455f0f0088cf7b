package tepidarium.web.heatbench;

import java.time.Instant;
import org.jspecify.annotations.Nullable;
import tepidarium.container.ContainerId;
import tepidarium.heat.HeaterCycles;
import tepidarium.heat.PlaceTrial;
import tepidarium.heat.TrialWords;
import tepidarium.reading.Span;
import tepidarium.stats.GroupMeans.Difference;
import tepidarium.web.heatbench.HeatBenchJson.Interval;

/** The JSON form of the trial of a place. */
record TrialJson(
    String container,
    Instant from,
    Instant to,
    double coveredHours,
    @Nullable Double meanTemperature,
    @Nullable Double insideMin,
    @Nullable Double insideMax,
    @Nullable Double roomMin,
    @Nullable Double roomMax,
    String outcome,
    @Nullable Interval timeConstantHours,
    @Nullable Interval rise,
    double sensorError,
    @Nullable Cycles cycles,
    @Nullable Low low,
    @Nullable Energy energy,
    String verdict) {

  record Cycles(int count, double onBelow, double offAbove, double periodHours, Interval duty) {
    static @Nullable Cycles of(@Nullable HeaterCycles cycles) {
      if (cycles == null) {
        return null;
      }
      Difference duty = cycles.duty();
      return new Cycles(
          cycles.count(),
          cycles.onBelowC(),
          cycles.offAboveC(),
          cycles.periodHours(),
          new Interval(duty.value(), duty.low(), duty.high()));
    }
  }

  record Low(
      double limit,
      @Nullable Interval roomBelow,
      double colderBy,
      @Nullable Interval hoursToFall,
      @Nullable Interval hoursWithoutHeat) {
    static @Nullable Low of(PlaceTrial.@Nullable Low low) {
      return low == null
          ? null
          : new Low(
              low.limitC(),
              interval(low.roomC()),
              PlaceTrial.COLDER_C,
              interval(low.hoursToFall()),
              interval(low.hoursWithoutHeat()));
    }
  }

  record Energy(double watts, double kilowattHoursPerDay, double low, double high, boolean atMost) {
    static @Nullable Energy of(PlaceTrial.@Nullable Energy energy) {
      if (energy == null) {
        return null;
      }
      PlaceTrial.TrialEstimate figure = energy.kilowattHoursPerDay();
      return new Energy(
          energy.watts(), figure.value(), figure.low(), figure.high(), energy.atMost());
    }
  }

  private static @Nullable Interval interval(PlaceTrial.@Nullable TrialEstimate figure) {
    return figure == null ? null : new Interval(figure.value(), figure.low(), figure.high());
  }

  private static @Nullable Double known(double value) {
    return Double.isFinite(value) ? value : null;
  }

  static TrialJson of(ContainerId id, Span span, PlaceTrial trial) {
    return new TrialJson(
        id.value(),
        span.from(),
        span.to(),
        trial.coveredHours(),
        known(trial.insideMeanC()),
        known(trial.insideMinC()),
        known(trial.insideMaxC()),
        known(trial.roomMinC()),
        known(trial.roomMaxC()),
        trial.outcome().key(),
        interval(trial.tauHours()),
        interval(trial.riseC()),
        trial.sensorErrorC(),
        Cycles.of(trial.cycles()),
        Low.of(trial.low()),
        Energy.of(trial.energy()),
        TrialWords.of(trial));
  }
}
