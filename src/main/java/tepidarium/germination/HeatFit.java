package tepidarium.germination;

import java.util.ArrayList;
import java.util.List;
import java.util.function.ToDoubleFunction;
import org.jspecify.annotations.Nullable;
import tepidarium.stats.Censored;
import tepidarium.stats.ConfidenceInterval;
import tepidarium.stats.IntervalFit;
import tepidarium.stats.IntervalFit.Parameter;
import tepidarium.stats.Posterior;
import tepidarium.stats.TimeFamily;
import tepidarium.stats.TimeModel;

/**
 * The thermal-time model of some counts at one base, with how well they tell its numbers. What
 * makes heat uncertain, such as a sensor that is off or a gap, pushes all checks the same way; so
 * the least and the most heat are each fitted throughout, and the interval of the median holds the
 * intervals of all three.
 *
 * @param model null where the counts do not tell it
 * @param median limits of the median heat at 95 % by the profile likelihood, °C·h; an end is
 *     infinite, or 0, where the counts leave it open; null without a model
 * @param finalFraction limits of the final fraction on the likely heat; null where that is not
 *     fitted
 * @param reason why there is no model; null where there is
 * @param note why the model, or one for an end of the interval, has no final fraction, where that
 *     is not because the counts show none; null else
 */
public record HeatFit(
    @Nullable ThermalTime model,
    @Nullable ConfidenceInterval median,
    @Nullable ConfidenceInterval finalFraction,
    @Nullable String reason,
    @Nullable String note) {
  static final String NO_HEAT_WORDS =
      "some seeds germinated while no heat above the base temperature is known of: the base is too"
          + " high for them, or the readings do not tell how warm they were";

  static final String UNMEASURED_WORDS =
      "less than half of the time that the seeds were kept is covered by readings";

  private static final String BEYOND_WORDS =
      "half would germinate only with more than twice the heat with which any seed was looked at:"
          + " so far beyond what was seen these counts tell nothing";

  /** Older ones add little but time. */
  private static final int MOST_PAST = 5;

  private static final double SAME = 1e-9;

  /** Of counts at a base, °C. */
  static HeatFit of(double baseC, HeatCounts counts) {
    return of(baseC, counts.above(baseC));
  }

  /** Of counts by the heat above a base, °C. */
  public static HeatFit of(double baseC, List<HeatCounts.Row> all) {
    List<HeatCounts.Row> rows = all.stream().filter(HeatCounts.Row::known).toList();
    if (rows.isEmpty() && !all.isEmpty()) {
      return none(UNMEASURED_WORDS);
    }
    List<Censored> likely = by(rows, SeedHeat::likely);
    if (likely == null) {
      return none(NO_HEAT_WORDS);
    }
    Chosen chosen = choose(likely);
    IntervalFit fit = chosen.fit();
    if (!fit.identified()) {
      return none(fit.reason());
    }
    if (fit.medianBeyond()) {
      return none(BEYOND_WORDS);
    }
    ConfidenceInterval median = median(chosen);
    String note = chosen.note();
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

  private static HeatFit none(@Nullable String reason) {
    return new HeatFit(null, null, null, reason, null);
  }

  /** Null where some seed germinated without any heat. */
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
   * A lognormal fit with a final fraction, or the one without where that is refused.
   *
   * @param note why it was refused, unless that is its bound of 1, on which both say the same; null
   *     else
   */
  record Chosen(IntervalFit fit, @Nullable String note) {}

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
            : "every seed is taken to germinate in the end, because the fit with a final fraction"
                + " is refused: "
                + fit.reason());
  }

  /**
   * What past sowings say of the heat that seeds need, from the latest few whose final fraction can
   * be told.
   *
   * @param past by the heat above one base, sowings of the species, the latest last
   * @return null where none says anything
   */
  public static Posterior.@Nullable Prior prior(List<List<HeatCounts.Row>> past) {
    List<IntervalFit> fits = new ArrayList<>();
    for (int i = past.size() - 1; i >= 0 && fits.size() < MOST_PAST; i--) {
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

  private static @Nullable String boundNote(@Nullable Chosen least, @Nullable Chosen most) {
    String note = least == null ? null : least.note();
    note = note == null && most != null ? most.note() : note;
    return note == null ? null : "for the ends of its interval, " + note;
  }

  /** Anything, where the heat would be such that the counts do not tell. */
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
