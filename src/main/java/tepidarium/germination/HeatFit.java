package tepidarium.germination;

import java.util.ArrayList;
import java.util.List;
import java.util.function.ToDoubleFunction;
import org.jspecify.annotations.Nullable;
import tepidarium.stats.Censored;
import tepidarium.stats.IntervalFit;
import tepidarium.stats.IntervalFit.Parameter;
import tepidarium.stats.Limits;
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
 */
public record HeatFit(
    @Nullable ThermalTime model,
    @Nullable Limits median,
    @Nullable Limits finalFraction,
    @Nullable String reason) {
  static final String NO_HEAT_WORDS =
      "some seeds germinated while no heat above the base temperature is known of: the base is too"
          + " high for them, or the readings do not tell how warm they were";

  static final String UNMEASURED_WORDS =
      "less than half of the time that the seeds were kept is covered by readings";

  private static final String BEYOND_WORDS =
      "half would germinate only with more than twice the heat with which any seed was looked at:"
          + " so far beyond what was seen these counts tell nothing";

  /** A median further beyond the last look than by this is not told; common practice, no source. */
  private static final double MOST_BEYOND = 2;

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
    List<Censored> likely = by(rows, Dose::likely);
    if (likely == null) {
      return none(NO_HEAT_WORDS);
    }
    IntervalFit fit = fit(likely);
    if (!fit.identified()) {
      return none(fit.reason());
    }
    if (fit.median() > MOST_BEYOND * lastLook(likely)) {
      return none(BEYOND_WORDS);
    }
    Limits median = median(fit);
    if (!certain(rows)) {
      Limits least = median(by(rows, Dose::lower));
      Limits most = median(by(rows, Dose::upper));
      median =
          new Limits(
              Math.min(median.low(), Math.min(least.low(), most.low())),
              Math.max(median.high(), Math.max(least.high(), most.high())));
    }
    return new HeatFit(
        ThermalTime.of(baseC, fit),
        median,
        fit.model().withFinalFraction() ? fit.interval(Parameter.FINAL_FRACTION) : null,
        null);
  }

  /** The most heat with which any seed was looked at. */
  private static double lastLook(List<Censored> rows) {
    return rows.stream().mapToDouble(r -> r.open() ? r.left() : r.right()).max().orElse(0);
  }

  private static HeatFit none(@Nullable String reason) {
    return new HeatFit(null, null, null, reason);
  }

  /** Null where some seed germinated without any heat. */
  static @Nullable List<Censored> by(List<HeatCounts.Row> rows, ToDoubleFunction<Dose> heat) {
    return ThermalTime.rows(rows.stream().map(row -> row.by(heat)).toList()).orElse(null);
  }

  static boolean certain(List<HeatCounts.Row> rows) {
    return rows.stream().allMatch(row -> certain(row.from()) && certain(row.to()));
  }

  private static boolean certain(@Nullable Dose dose) {
    return dose == null || dose.upper() - dose.lower() <= SAME * dose.likely();
  }

  /** With a final fraction, or without where that is not told, as on its bound of 1. */
  static IntervalFit fit(List<Censored> rows) {
    IntervalFit fit = IntervalFit.of(new TimeModel(TimeFamily.LOGNORMAL, true), rows);
    return fit.identified()
        ? fit
        : IntervalFit.of(new TimeModel(TimeFamily.LOGNORMAL, false), rows);
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
      List<Censored> likely = by(rows, Dose::likely);
      if (likely != null) {
        IntervalFit fit = IntervalFit.of(new TimeModel(TimeFamily.LOGNORMAL, true), likely);
        if (fit.identified()) {
          fits.add(fit);
        }
      }
    }
    return fits.isEmpty() ? null : Posterior.Prior.ofPast(fits);
  }

  /** Anything, where the heat would be such that the counts do not tell. */
  private static Limits median(@Nullable List<Censored> rows) {
    IntervalFit fit = rows == null ? null : fit(rows);
    return fit == null || !fit.identified() ? new Limits(0, Double.POSITIVE_INFINITY) : median(fit);
  }

  private static Limits median(IntervalFit fit) {
    Limits mu = fit.interval(Parameter.MU);
    return new Limits(Math.exp(mu.low()), Math.exp(mu.high()));
  }
}
