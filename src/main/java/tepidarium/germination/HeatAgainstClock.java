package tepidarium.germination;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.function.ToDoubleFunction;
import org.jspecify.annotations.Nullable;
import tepidarium.germination.BaseTemperature.Verdict;
import tepidarium.stats.Censored;
import tepidarium.stats.IntervalFit;
import tepidarium.stats.NoFit;

/**
 * Compares two models of the counts of a species by AIC: lognormal on degree-hours, and lognormal
 * on days. The comparison needs groups with different heat per day. If all had nearly the same,
 * both models are equal.
 *
 * @param heat model on heat
 * @param clock model on days; null if the counts do not identify it
 * @param clockNote like {@link HeatFit#note}, for the model on days
 * @param words verdict as a sentence for the grower
 * @param code why it cannot be told: {@code one-group}, {@code same-heat}, {@code uncertain-heat},
 *     {@code equal-fits} or a {@link NoFit#key}; null if it can
 */
public record HeatAgainstClock(
    HeatFit heat,
    @Nullable IntervalFit clock,
    @Nullable NoFinalFraction clockNote,
    Verdict verdict,
    String words,
    @Nullable String code) {
  /** Least relative difference of heat per day between groups; common practice, no source. */
  private static final double MIN_DIFFERENCE = 0.1;

  private static final String CANNOT =
      "These data do not show whether the counts follow the heat or the days: ";

  private static final List<ToDoubleFunction<SeedHeat>> HEATS =
      List.of(SeedHeat::likely, SeedHeat::least, SeedHeat::most);

  /**
   * Compares the models over all sowings of a species, at a base in °C that was not fitted to them.
   */
  public static HeatAgainstClock of(double baseC, HeatCounts counts) {
    HeatFit heat = HeatFit.of(baseC, counts);
    List<HeatCounts.Row> rows = counts.above(baseC).stream().filter(HeatCounts.Row::known).toList();
    List<Censored> days = rows.stream().map(HeatCounts.Row::days).toList();
    HeatFit.Chosen chosen = HeatFit.choose(days);
    IntervalFit fit = chosen.fit();
    IntervalFit clock = fit.identified() ? fit : null;
    NoFinalFraction note = clock == null ? null : chosen.note();
    NoFit reason = heat.reason() == null ? fit.reason() : heat.reason();
    if (reason != null || clock == null) {
      NoFit why = Objects.requireNonNull(reason);
      String words = CANNOT + why.words() + ".";
      return new HeatAgainstClock(heat, clock, note, Verdict.CANNOT_BE_TOLD, words, why.key());
    }
    List<Double> perDay = perDay(baseC, counts);
    double lowest = perDay.stream().mapToDouble(d -> d).min().orElse(0);
    double highest = perDay.stream().mapToDouble(d -> d).max().orElse(0);
    if (highest - lowest < MIN_DIFFERENCE * highest) {
      return perDay.size() < 2
          ? cannotBeTold(heat, clock, note, "one-group", "there is only one seed group.")
          : cannotBeTold(
              heat,
              clock,
              note,
              "same-heat",
              "the seed groups received nearly the same heat per day.");
    }
    return verdict(baseC, heat, clock, note, rows);
  }

  private static HeatAgainstClock verdict(
      double baseC,
      HeatFit heat,
      IntervalFit clock,
      @Nullable NoFinalFraction note,
      List<HeatCounts.Row> rows) {
    List<Verdict> verdicts = new ArrayList<>();
    for (ToDoubleFunction<SeedHeat> heatOf : HEATS) {
      List<Censored> by = HeatFit.by(rows, heatOf);
      IntervalFit fit = by == null ? null : HeatFit.choose(by).fit();
      verdicts.add(
          fit == null || !fit.identified()
              ? Verdict.CANNOT_BE_TOLD
              : BaseTemperature.compare(fit.aic(), clock.aic()));
    }
    Verdict likely = verdicts.get(0);
    if (verdicts.stream().distinct().count() > 1) {
      return cannotBeTold(heat, clock, note, "uncertain-heat", "the heat is too uncertain.");
    }
    if (likely == Verdict.CANNOT_BE_TOLD) {
      return cannotBeTold(heat, clock, note, "equal-fits", "both models fit about equally well.");
    }
    String words =
        likely == Verdict.HEAT
            ? "The counts follow the heat better than the days."
            : String.format(
                Locale.ROOT,
                "The counts follow the days better than the heat above %.4g °C.",
                baseC);
    return new HeatAgainstClock(heat, clock, note, likely, words, null);
  }

  private static HeatAgainstClock cannotBeTold(
      HeatFit heat, IntervalFit clock, @Nullable NoFinalFraction note, String code, String why) {
    return new HeatAgainstClock(heat, clock, note, Verdict.CANNOT_BE_TOLD, CANNOT + why, code);
  }

  /** The mean heat per day of each group until its last check, °C·h per day. */
  private static List<Double> perDay(double baseC, HeatCounts counts) {
    List<Double> perDay = new ArrayList<>();
    for (HeatCounts.Group group : counts.groups()) {
      SeedHeat seedHeat =
          counts
              .path()
              .seedHeat(
                  group.state().seedPaths(),
                  group.lastLooked(),
                  group.lastLooked(),
                  counts.rule(baseC));
      if (seedHeat.known() && seedHeat.hours() > 0) {
        perDay.add(seedHeat.likely() / seedHeat.hours() * Duration.ofDays(1).toHours());
      }
    }
    return perDay;
  }
}
