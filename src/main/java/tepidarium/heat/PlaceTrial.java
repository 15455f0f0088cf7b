package tepidarium.heat;

import java.time.Duration;
import java.util.Arrays;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import tepidarium.heat.ThermalFit.Range;
import tepidarium.reading.Samples;
import tepidarium.reading.Span;

/**
 * Evaluates a trial of a place with a jar of water, made before seeds are at risk: how well the
 * place stays warm, from the temperatures inside and of the room, by a first-order thermal model
 * (see {@link ThermalFit}).
 *
 * @param coveredHours time measured both inside and in the room, h
 * @param insideMeanC mean temperature inside, °C
 * @param insideMinC lowest temperature inside, °C
 * @param insideMaxC highest temperature inside, °C
 * @param roomMinC lowest room temperature, °C
 * @param roomMaxC highest room temperature, °C
 * @param outcome whether the figures are determined
 * @param tauHours time constant, h; null if not determined
 * @param riseC rise above the room temperature with the heater as it was or, if its cycles are
 *     detected, with the heater on all the time, °C; null if not determined
 * @param cycles cycles of a switched heater; null if none are detected
 * @param low low limit of the band and when the place falls below it; null if not determined
 * @param energy null if the power of the heater is not known
 * @param sensorErrorC possible error of the rise due to the two sensors, ±°C
 */
public record PlaceTrial(
    double coveredHours,
    double insideMeanC,
    double insideMinC,
    double insideMaxC,
    double roomMinC,
    double roomMaxC,
    FitStatus outcome,
    @Nullable TrialEstimate tauHours,
    @Nullable TrialEstimate riseC,
    @Nullable HeaterCycles cycles,
    @Nullable Low low,
    @Nullable Energy energy,
    double sensorErrorC) {

  /** Whether the model could be fitted, or why not. */
  public enum FitStatus {
    /** The model fits and its figures are determined. */
    DETERMINED("told"),
    /** Inside and room were measured together for too few hours. */
    TOO_SHORT("too-short"),
    /** The room changed too little to see how the place follows it. */
    ROOM_TOO_STEADY("room-too-steady"),
    /**
     * The room changed, but the place hardly did. It is regulated or slow; the trial cannot show
     * which.
     */
    HARDLY_FOLLOWS("hardly-follows"),
    /**
     * The place changed for other reasons than the room, by too much to see how it follows the
     * room.
     */
    UNCLEAR("unclear"),
    /** The place follows the room less than with an unregulated heater: something regulates it. */
    REGULATED("regulated"),
    /** The place does not behave like a first-order body in this room. */
    NO_FIT("no-fit");

    private final String key;

    FitStatus(String key) {
      this.key = key;
    }

    /** Its value in the API. */
    public String key() {
      return key;
    }
  }

  /** A figure with its 95 % interval. */
  public record TrialEstimate(double value, double low, double high) {
    static TrialEstimate of(Range range) {
      return new TrialEstimate(range.value(), range.low(), range.high());
    }
  }

  /**
   * The band's low limit.
   *
   * @param limitC the limit, °C
   * @param roomC room temperature below which the place settles below the limit, °C
   * @param hoursToFall time to fall from the mean of the trial to the limit, in a room {@link
   *     #COLDER_C} colder than {@code roomC}; null if the mean is already below the limit
   * @param hoursWithoutHeat time to fall from the mean of the trial to the limit without heat, at
   *     the mean room temperature of the trial; null if the mean is already below the limit, or if
   *     the mean room temperature is not
   */
  public record Low(
      double limitC,
      TrialEstimate roomC,
      @Nullable TrialEstimate hoursToFall,
      @Nullable TrialEstimate hoursWithoutHeat) {}

  /**
   * Energy for a day.
   *
   * @param watts the heater's power as given, W
   * @param kilowattHoursPerDay the energy. If no cycles of the heater are detected, it is that of a
   *     heater that is on all day, with an interval from 0
   * @param atMost whether no cycles are detected, so the energy is an upper bound
   */
  public record Energy(double watts, TrialEstimate kilowattHoursPerDay, boolean atMost) {}

  /** {@code hoursToFall} assumes a room this much colder than the limiting temperature, °C. */
  public static final double COLDER_C = 2;

  private static final double MIN_HOURS = 12;
  private static final int MIN_SAMPLES = 48;
  private static final double WIDEST_RISE_C = 6;
  private static final double WIDEST_TAU_RATIO = 20;
  private static final double HOURS_PER_DAY = 24;

  /**
   * A room that changed by less than this, from its lowest to its highest temperature, is too
   * steady for a statement about regulation, °C. Common practice, no source.
   */
  private static final double STEADY_C = 3;

  /**
   * A place hardly follows its room if it changed by less than this share of the room's change. A
   * plain place with a time constant of a day follows a daily change by a sixth: 1 / √(1 + (2π)²).
   */
  private static final double FOLLOWS = 1 / 4.0;

  /** Tolerance of the room gain around 1. Common practice, no source. */
  private static final double NEAR_ENOUGH = 0.1;

  private static final double SAMPLES_TO_FIT_CYCLES = 8;

  /**
   * The parameters of a trial.
   *
   * @param lowC low limit of the band, °C
   * @param watts power of the heater while on, W; null if not known
   * @param sensorErrorC possible error of both sensors together, ±°C
   */
  public record Question(double lowC, @Nullable Double watts, double sensorErrorC) {}

  /** Evaluates a trial. */
  public static PlaceTrial of(
      Samples inside, Samples room, Span span, Duration maxGap, Question question) {
    TrialRecord record = TrialRecord.of(inside, room, span, maxGap);
    if (record.size() < MIN_SAMPLES || record.coveredHours() < MIN_HOURS) {
      return new MeasuredTrial(record, question, null).without(FitStatus.TOO_SHORT);
    }
    HeaterCycles cycles = HeaterCycles.in(record).orElse(null);
    MeasuredTrial measured = new MeasuredTrial(record, question, cycles);
    boolean fitCycles = cycles != null && cycles.samplesPerCycle() >= SAMPLES_TO_FIT_CYCLES;
    double[] on = fitCycles ? HeaterCycles.on(record) : always(record.size());
    if (!fitCycles) {
      Optional<FitStatus> doubt = doubt(measured, ThermalFit.of(record, on, true));
      if (doubt.isPresent()) {
        return measured.without(doubt.get());
      }
    }
    ThermalFit fit = ThermalFit.of(record, on, false);
    Range tau = fit.tau();
    Range rise = fit.rise();
    if (!tau.isBounded()
        || tau.high() > WIDEST_TAU_RATIO * tau.low()
        || rise.high() - rise.low() > WIDEST_RISE_C) {
      return measured.without(measured.whyUndetermined());
    }
    return measured.with(TrialEstimate.of(tau), TrialEstimate.of(rise));
  }

  private static double[] always(int size) {
    double[] on = new double[size];
    Arrays.fill(on, 1);
    return on;
  }

  /**
   * Checks the gain of the room, which is 1 with an unregulated heater. Empty if it is compatible
   * with 1.
   */
  private static Optional<FitStatus> doubt(MeasuredTrial measured, ThermalFit free) {
    Range gain = free.gain(ThermalFit.DROP_99);
    boolean below = gain.high() < 1 - NEAR_ENOUGH;
    boolean above = gain.low() > 1 + NEAR_ENOUGH;
    if ((gain.low() <= 0 && gain.high() >= 1)
        || ((below || above) && measured.roomChangeC() < STEADY_C)) {
      return Optional.of(measured.whyUndetermined());
    }
    if (below) {
      return Optional.of(FitStatus.REGULATED);
    }
    return above ? Optional.of(FitStatus.NO_FIT) : Optional.empty();
  }

  /** The measurements of a trial, before the fit. */
  private record MeasuredTrial(
      TrialRecord record, Question question, @Nullable HeaterCycles cycles) {
    double roomChangeC() {
      return change(record.roomC);
    }

    /**
     * The likely reason why the figures are not determined, from how much room and place changed.
     */
    FitStatus whyUndetermined() {
      if (roomChangeC() < STEADY_C) {
        return FitStatus.ROOM_TOO_STEADY;
      }
      return change(record.insideC) < FOLLOWS * roomChangeC()
          ? FitStatus.HARDLY_FOLLOWS
          : FitStatus.UNCLEAR;
    }

    private static double change(double[] values) {
      return max(values) - min(values);
    }

    private static double min(double[] values) {
      return Arrays.stream(values).min().orElse(Double.NaN);
    }

    private static double max(double[] values) {
      return Arrays.stream(values).max().orElse(Double.NaN);
    }

    PlaceTrial without(FitStatus outcome) {
      return trial(outcome, null, null, null);
    }

    PlaceTrial with(TrialEstimate tau, TrialEstimate rise) {
      double limit = question.lowC();
      double mean = record.meanOverTime(record.insideC);
      double room = record.meanOverTime(record.roomC);
      TrialEstimate roomC =
          new TrialEstimate(limit - rise.value(), limit - rise.high(), limit - rise.low());
      TrialEstimate fall =
          mean > limit ? times(tau, Math.log((mean - limit + COLDER_C) / COLDER_C)) : null;
      TrialEstimate without =
          mean > limit && room < limit
              ? times(tau, Math.log((mean - room) / (limit - room)))
              : null;
      return trial(FitStatus.DETERMINED, tau, rise, new Low(limit, roomC, fall, without));
    }

    private PlaceTrial trial(
        FitStatus outcome,
        @Nullable TrialEstimate tau,
        @Nullable TrialEstimate rise,
        @Nullable Low low) {
      return new PlaceTrial(
          record.coveredHours(),
          record.meanOverTime(record.insideC),
          min(record.insideC),
          max(record.insideC),
          min(record.roomC),
          max(record.roomC),
          outcome,
          tau,
          rise,
          cycles,
          low,
          energy(),
          question.sensorErrorC());
    }

    private static TrialEstimate times(TrialEstimate figure, double factor) {
      return new TrialEstimate(
          figure.value() * factor, figure.low() * factor, figure.high() * factor);
    }

    private @Nullable Energy energy() {
      Double watts = question.watts();
      if (watts == null) {
        return null;
      }
      double most = watts * HOURS_PER_DAY / 1000;
      if (cycles == null) {
        return new Energy(watts, new TrialEstimate(most, 0, most), true);
      }
      var duty = cycles.duty();
      TrialEstimate share = new TrialEstimate(duty.value(), duty.low(), duty.high());
      return new Energy(watts, times(share, most), false);
    }
  }
}
