package tepidarium.germination;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.function.ToDoubleFunction;
import org.jspecify.annotations.Nullable;
import tepidarium.stats.Censored;
import tepidarium.stats.ConfidenceInterval;
import tepidarium.stats.IntervalFit;
import tepidarium.stats.IntervalFit.Parameter;
import tepidarium.stats.NoFit;
import tepidarium.stats.Posterior;
import tepidarium.stats.TimeFamily;
import tepidarium.stats.TimeModel;

/**
 * Fits the thermal-time model to counts at one base temperature, with intervals. Errors of the
 * heat, such as a sensor offset or a gap, shift all checks in the same direction. So the model is
 * also fitted to the least and to the most possible heat. The interval of the median encloses the
 * intervals of all three fits.
 *
 * @param model null if the counts do not identify it
 * @param median 95 % profile-likelihood interval of the median heat, °C·h; an end is infinite, or
 *     0, if the counts leave it open; null without a model
 * @param finalFraction 95 % interval of the final fraction on the likely heat; null if no final
 *     fraction was fitted
 * @param reason why there is no model; null if there is one
 * @param note why the model, or a fit for an end of the interval, has no final fraction; null if it
 *     has one or if every seed germinated
 */
public record HeatFit(
    @Nullable ThermalTime model,
    @Nullable ConfidenceInterval median,
    @Nullable ConfidenceInterval finalFraction,
    @Nullable NoFit reason,
    @Nullable NoFinalFraction note) {
  /**
   * At most this many past sowings enter a prior. Older ones add computing time but little
   * information.
   */
  private static final int MAX_PAST_SOWINGS = 5;

  private static final double SAME = 1e-9;

  /** Fits the counts at one base temperature, °C. */
  static HeatFit of(double baseC, HeatCounts counts) {
    return of(baseC, counts.above(baseC));
  }

  /** Fits rows of counts by the heat above one base temperature, °C. */
  public static HeatFit of(double baseC, List<HeatCounts.Row> all) {
    List<HeatCounts.Row> rows = all.stream().filter(HeatCounts.Row::known).toList();
    if (rows.isEmpty() && !all.isEmpty()) {
      return none(NoFit.UNMEASURED);
    }
    List<Censored> likely = by(rows, SeedHeat::likely);
    if (likely == null) {
      return none(NoFit.NO_HEAT);
    }
    Chosen chosen = choose(likely);
    IntervalFit fit = chosen.fit();
    if (!fit.identified()) {
      return none(fit.reason());
    }
    if (fit.medianBeyond()) {
      return none(NoFit.BEYOND);
    }
    ConfidenceInterval median = median(chosen);
    NoFinalFraction note = chosen.note();
    if (!certain(rows)) {
      Chosen onLeast = chosen(by(rows, SeedHeat::least));
      Chosen onMost = chosen(by(rows, SeedHeat::most));
      ConfidenceInterval least = median(onLeast);
      ConfidenceInterval most = median(onMost);
      note = note == null ? boundNote(onLeast, onMost) : note;
      median =
          new ConfidenceInterval(
              Math.min(median.low(), Math.min(least.low(), most.low())),
              Math.max(median.high(), Math.max(least.high(), most.high())));
    }
    return new HeatFit(
        ThermalTime.of(baseC, fit),
        median,
        fit.model().withFinalFraction() ? fit.interval(Parameter.FINAL_FRACTION) : null,
        null,
        note);
  }

  private static HeatFit none(@Nullable NoFit reason) {
    return new HeatFit(null, null, null, reason, null);
  }

  /** The rows as censored heat sums. Null if a seed germinated without any heat. */
  static @Nullable List<Censored> by(List<HeatCounts.Row> rows, ToDoubleFunction<SeedHeat> heat) {
    return ThermalTime.rows(rows.stream().map(row -> row.by(heat)).toList()).orElse(null);
  }

  static boolean certain(List<HeatCounts.Row> rows) {
    return rows.stream().allMatch(row -> certain(row.from()) && certain(row.to()));
  }

  private static boolean certain(@Nullable SeedHeat seedHeat) {
    return seedHeat == null || seedHeat.most() - seedHeat.least() <= SAME * seedHeat.likely();
  }

  /**
   * A lognormal fit with a final fraction; without one if the fit with a final fraction is not
   * identified.
   *
   * @param note why the fit with a final fraction was rejected; null if it was not, or if its
   *     estimate is 1, because both fits are then equal
   */
  record Chosen(IntervalFit fit, @Nullable NoFinalFraction note) {}

  static Chosen choose(List<Censored> rows) {
    IntervalFit fit = IntervalFit.of(new TimeModel(TimeFamily.LOGNORMAL, true), rows);
    if (fit.identified()) {
      return new Chosen(fit, null);
    }
    IntervalFit without = IntervalFit.of(new TimeModel(TimeFamily.LOGNORMAL, false), rows);
    return new Chosen(
        without,
        fit.fractionOnBound()
            ? null
            : new NoFinalFraction(Objects.requireNonNull(fit.reason()), false));
  }

  /**
   * The prior distribution of the heat that seeds need, from the latest past sowings whose final
   * fraction is identified (at most {@value #MAX_PAST_SOWINGS}).
   *
   * @param past rows of each past sowing of the species by the heat above one base, the latest last
   * @return null if no past sowing identifies a final fraction
   */
  public static Posterior.@Nullable Prior prior(List<List<HeatCounts.Row>> past) {
    List<IntervalFit> fits = new ArrayList<>();
    for (int i = past.size() - 1; i >= 0 && fits.size() < MAX_PAST_SOWINGS; i--) {
      List<HeatCounts.Row> rows = past.get(i).stream().filter(HeatCounts.Row::known).toList();
      List<Censored> likely = by(rows, SeedHeat::likely);
      if (likely != null) {
        IntervalFit fit = IntervalFit.of(new TimeModel(TimeFamily.LOGNORMAL, true), likely);
        if (fit.identified()) {
          fits.add(fit);
        }
      }
    }
    return fits.isEmpty() ? null : Posterior.Prior.ofPast(fits);
  }

  private static @Nullable Chosen chosen(@Nullable List<Censored> rows) {
    return rows == null ? null : choose(rows);
  }

  private static @Nullable NoFinalFraction boundNote(
      @Nullable Chosen least, @Nullable Chosen most) {
    NoFinalFraction note = least == null ? null : least.note();
    note = note == null && most != null ? most.note() : note;
    return note == null ? null : new NoFinalFraction(note.because(), true);
  }

  /** The interval of the median heat, °C·h; from 0 to infinity if the fit is not identified. */
  static ConfidenceInterval median(@Nullable Chosen chosen) {
    if (chosen == null || !chosen.fit().identified()) {
      return new ConfidenceInterval(0, Double.POSITIVE_INFINITY);
    }
    IntervalFit fit = chosen.fit();
    ConfidenceInterval mu =
        chosen.note() == null ? fit.muWithAnyFraction() : fit.interval(Parameter.MU);
    return new ConfidenceInterval(Math.exp(mu.low()), Math.exp(mu.high()));
  }
}
