package tepidarium.germination;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.function.ToDoubleFunction;
import org.jspecify.annotations.Nullable;
import tepidarium.germination.BaseTemperature.Verdict;
import tepidarium.stats.Censored;
import tepidarium.stats.IntervalFit;

/**
 * Whether the counts of a species follow the heat or the days: the lognormal model on degree-hours
 * against the same model on days, both of the same counts, by AIC. Only groups that had different
 * heat in a day can tell; where all had nearly the same, both axes say the same.
 *
 * @param heat the model on heat
 * @param clock the model on days; null where the counts do not tell it
 * @param clockNote as {@link HeatFit#note}, of the model on days
 * @param words the verdict in a sentence
 */
public record HeatAgainstClock(
    HeatFit heat,
    @Nullable IntervalFit clock,
    @Nullable String clockNote,
    Verdict verdict,
    String words) {
  /** Groups whose heat in a day differs by less tell nothing; common practice, no source. */
  private static final double LEAST_DIFFERENCE = 0.1;

  private static final String CANNOT =
      "It cannot be told from these data whether the counts follow" + " the heat or the days: ";

  private static final List<ToDoubleFunction<SeedHeat>> HEATS =
      List.of(SeedHeat::likely, SeedHeat::least, SeedHeat::most);

  /** Over the counts of all sowings of a species, at a base in °C that was not fitted to them. */
  public static HeatAgainstClock of(double baseC, HeatCounts counts) {
    HeatFit heat = HeatFit.of(baseC, counts);
    List<HeatCounts.Row> rows = counts.above(baseC).stream().filter(HeatCounts.Row::known).toList();
    List<Censored> days = rows.stream().map(HeatCounts.Row::days).toList();
    HeatFit.Chosen chosen = HeatFit.choose(days);
    IntervalFit fit = chosen.fit();
    IntervalFit clock = fit.identified() ? fit : null;
    String note = clock == null ? null : chosen.note();
    String reason = heat.reason() == null ? fit.reason() : heat.reason();
    if (reason != null || clock == null) {
      return new HeatAgainstClock(heat, clock, note, Verdict.CANNOT_BE_TOLD, CANNOT + reason + ".");
    }
    List<Double> perDay = perDay(baseC, counts);
    double least = perDay.stream().mapToDouble(d -> d).min().orElse(0);
    double most = perDay.stream().mapToDouble(d -> d).max().orElse(0);
    if (most - least < LEAST_DIFFERENCE * most) {
      String words =
          perDay.size() < 2
              ? "there is only one seed group."
              : "the seed groups had nearly the same warmth.";
      return new HeatAgainstClock(heat, clock, note, Verdict.CANNOT_BE_TOLD, CANNOT + words);
    }
    return verdict(baseC, heat, clock, note, rows);
  }

  private static HeatAgainstClock verdict(
      double baseC,
      HeatFit heat,
      IntervalFit clock,
      @Nullable String note,
      List<HeatCounts.Row> rows) {
    List<Verdict> verdicts = new ArrayList<>();
    for (ToDoubleFunction<SeedHeat> which : HEATS) {
      List<Censored> by = HeatFit.by(rows, which);
      IntervalFit fit = by == null ? null : HeatFit.choose(by).fit();
      verdicts.add(
          fit == null || !fit.identified()
              ? Verdict.CANNOT_BE_TOLD
              : BaseTemperature.compare(fit.aic(), clock.aic()));
    }
    Verdict likely = verdicts.get(0);
    if (verdicts.stream().distinct().count() > 1) {
      return new HeatAgainstClock(
          heat, clock, note, Verdict.CANNOT_BE_TOLD, CANNOT + "the heat is not known well enough.");
    }
    String words =
        switch (likely) {
          case HEAT -> "The counts follow the heat better than the days.";
          case CLOCK ->
              String.format(
                  Locale.ROOT,
                  "The counts follow the days better than the heat above %.4g °C.",
                  baseC);
          case CANNOT_BE_TOLD -> CANNOT + "both explain them about equally well.";
        };
    return new HeatAgainstClock(heat, clock, note, likely, words);
  }

  /** The heat in a day that each group had until it was last looked at, °C·h. */
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
