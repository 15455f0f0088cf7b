package tepidarium.germination;

import java.time.Duration;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.ToDoubleFunction;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import tepidarium.container.ContainerId;
import tepidarium.germination.NoForecast.Why;
import tepidarium.heat.HeatRule;
import tepidarium.reading.Span;
import tepidarium.stats.Censored;
import tepidarium.stats.Posterior;
import tepidarium.stats.TimeFamily;

/**
 * Forecasts, for each group of a sowing, when the next tenth of its remaining seeds will have
 * germinated. It assumes that the container stays as warm as it was in the last {@value #LAST_DAYS}
 * days.
 *
 * @param expected forecasts of the groups for which one is possible
 * @param missing reasons why there is no forecast for the other groups; empty if every group with
 *     remaining seeds has one
 */
public record HeatOutlook(List<Expected> expected, List<NoForecast> missing) {
  static final int LAST_DAYS = 3;

  private static final Duration DAY = Duration.ofDays(1);
  private static final double HOURS_PER_DAY = DAY.toHours();

  /** Bounds of heat that differ by less than this share of the likely heat count as equal. */
  private static final double CLOSE = 0.01;

  private static final double HARDLY_ANY_C = 0.05;

  /**
   * The forecast of one group.
   *
   * @param remaining sound, ungerminated seeds at the last check
   * @param rate rate of heating that the forecast assumes
   * @param words the forecast as a sentence for the grower
   */
  public record Expected(
      GroupId group,
      ContainerId container,
      int remaining,
      HeatForecast next,
      Rate rate,
      String words) {}

  /**
   * Heat per day above the base temperature, °C·h per day: the lowest, mean and highest of the last
   * days. The lowest and highest include the error of the sensor.
   */
  public record Rate(double low, double likely, double high) {}

  /** A fit of the counts on one estimate of the heat (likely, lower or upper), and its weight. */
  private record Weighted(double weight, Posterior fit, ToDoubleFunction<SeedHeat> heat) {}

  /**
   * Posterior distributions of the heat that the seeds of a sowing need, or the reason why there
   * are none.
   */
  public static final class Needs {
    private final List<Weighted> fits;
    private final @Nullable Why none;

    private Needs(List<Weighted> fits, @Nullable Why none) {
      this.fits = fits;
      this.none = none;
    }
  }

  public HeatOutlook {
    expected = List.copyOf(expected);
    missing = List.copyOf(missing);
  }

  /** The reasons in English; null if every group with remaining seeds has a forecast. */
  public @Nullable String none() {
    return missing.isEmpty()
        ? null
        : missing.stream().map(NoForecast::words).collect(Collectors.joining("; "));
  }

  /**
   * Fits the heat that the seeds need to the counts of one sowing.
   *
   * @param all counts by the heat above the base temperature
   * @param past prior distribution from past sowings; null if there is none
   */
  public static Needs needs(List<HeatCounts.Row> all, Posterior.@Nullable Prior past) {
    List<Weighted> fits = new ArrayList<>();
    return new Needs(fits, fit(all, past, fits));
  }

  /**
   * Makes the forecasts of a sowing.
   *
   * @param counts counts of this sowing only
   * @param baseC base temperature, °C
   * @param needs heat that its seeds need, fitted above the same base temperature
   */
  public static HeatOutlook of(
      SowingTimeline timeline, HeatCounts counts, double baseC, Needs needs, Instant now) {
    List<GroupState> waiting =
        timeline.groups().stream().filter(group -> group.ungerminated() > 0).toList();
    if (waiting.isEmpty()) {
      return new HeatOutlook(List.of(), List.of(new NoForecast(Why.NO_SEEDS, List.of())));
    }
    if (needs.none != null) {
      return new HeatOutlook(List.of(), List.of(new NoForecast(needs.none, List.of())));
    }
    List<Expected> expected = new ArrayList<>();
    Map<Why, List<String>> reasons = new LinkedHashMap<>();
    for (GroupState group : waiting) {
      Why reason = addForecast(group, counts.path(), counts.rule(baseC), needs.fits, now, expected);
      if (reason != null) {
        reasons.computeIfAbsent(reason, any -> new ArrayList<>()).add(group.id().toString());
      }
    }
    return new HeatOutlook(expected, missing(reasons, waiting.size()));
  }

  private static List<NoForecast> missing(Map<Why, List<String>> reasons, int groups) {
    List<NoForecast> missing = new ArrayList<>();
    reasons.forEach(
        (why, ids) -> missing.add(new NoForecast(why, ids.size() == groups ? List.of() : ids)));
    return missing;
  }

  /**
   * Fits the counts on the likely heat. If gaps in the readings matter, it also fits them on the
   * lower and upper bound of the heat. Adds the fits to the list; returns the reason if there is
   * none.
   */
  private static @Nullable Why fit(
      List<HeatCounts.Row> all, Posterior.@Nullable Prior past, List<Weighted> fits) {
    List<HeatCounts.Row> rows = all.stream().filter(HeatCounts.Row::known).toList();
    if (rows.isEmpty()) {
      return Why.UNMEASURED;
    }
    if (HeatFit.by(rows, SeedHeat::likely) == null) {
      return Why.NO_HEAT;
    }
    Optional<Posterior> likely = posterior(rows, SeedHeat::likely, past);
    if (likely.isEmpty()) {
      return Why.TOO_FEW;
    }
    boolean gaps = rows.stream().anyMatch(row -> gaps(row.to() == null ? row.from() : row.to()));
    fits.add(new Weighted(gaps ? 2 : 1, likely.get(), SeedHeat::likely));
    if (gaps) {
      for (ToDoubleFunction<SeedHeat> bound :
          List.<ToDoubleFunction<SeedHeat>>of(SeedHeat::lower, SeedHeat::upper)) {
        posterior(rows, bound, past).ifPresent(fit -> fits.add(new Weighted(1, fit, bound)));
      }
    }
    return null;
  }

  private static boolean gaps(SeedHeat seedHeat) {
    return seedHeat.upper() - seedHeat.lower() > CLOSE * seedHeat.likely();
  }

  private static Optional<Posterior> posterior(
      List<HeatCounts.Row> rows, ToDoubleFunction<SeedHeat> heat, Posterior.@Nullable Prior past) {
    List<Censored> by = HeatFit.by(rows, heat);
    return by == null ? Optional.empty() : Posterior.of(TimeFamily.LOGNORMAL, by, past);
  }

  private static @Nullable Why addForecast(
      GroupState group,
      HeatPath path,
      HeatRule rule,
      List<Weighted> fits,
      Instant now,
      List<Expected> expected) {
    SeedHeat heatNow = path.seedHeat(group.seedPaths(), now, now, rule);
    if (!heatNow.known()) {
      return Why.UNMEASURED;
    }
    List<SeedHeat> days = days(group.container(), path, rule, now);
    if (days.isEmpty()) {
      return Why.UNMEASURED_DAY;
    }
    Rate rate = rate(days);
    SeedHeat heatWhenSeen = path.seedHeat(group.seedPaths(), group.soundAt(), now, rule);
    List<HeatForecast.Branch> branches =
        fits.stream()
            .map(
                fit ->
                    new HeatForecast.Branch(
                        fit.weight(),
                        fit.fit(),
                        fit.heat().applyAsDouble(heatWhenSeen),
                        fit.heat().applyAsDouble(heatNow),
                        rate.low() / HOURS_PER_DAY,
                        rate.high() / HOURS_PER_DAY))
            .toList();
    int remaining = group.ungerminated();
    Optional<HeatForecast> next = HeatForecast.of(remaining, branches);
    if (next.isEmpty()) {
      return rate.likely() < HARDLY_ANY_C * HOURS_PER_DAY ? Why.HARDLY_WARMER : Why.UNLIKELY;
    }
    String words = words(next.get(), remaining);
    expected.add(new Expected(group.id(), group.container(), remaining, next.get(), rate, words));
    return null;
  }

  /**
   * The heat of each of the last days, counted back from the last whole hour. Leaves out days with
   * less than half of their time covered by readings. Empty if the latest day is left out.
   */
  private static List<SeedHeat> days(
      ContainerId container, HeatPath path, HeatRule rule, Instant now) {
    List<SeedHeat> days = new ArrayList<>();
    Instant hour = now.truncatedTo(ChronoUnit.HOURS);
    for (int back = 0; back < LAST_DAYS; back++) {
      Instant end = hour.minus(DAY.multipliedBy(back));
      SeedHeat day = path.seedHeat(container, new Span(end.minus(DAY), end), rule);
      if (day.known()) {
        days.add(day);
      } else if (back == 0) {
        return List.of();
      }
    }
    return days;
  }

  private static Rate rate(List<SeedHeat> days) {
    double least = Double.POSITIVE_INFINITY;
    double most = 0;
    double sum = 0;
    for (SeedHeat day : days) {
      // Assumes the same sensor error in the gaps of a day as in its covered part.
      double whole = HOURS_PER_DAY / day.coveredHours();
      least = Math.min(least, Math.max(0, day.likely() - whole * (day.lower() - day.least())));
      most = Math.max(most, day.likely() + whole * (day.most() - day.upper()));
      sum += day.likely();
    }
    return new Rate(least, sum / days.size(), most);
  }

  private static String words(HeatForecast next, int remaining) {
    String seeds =
        remaining == 1
            ? "the remaining seed"
            : next.seeds() + " of the " + remaining + " remaining seeds";
    if (next.hours() < 1) {
      return String.format(
          "With the heat since the last check, %s should have germinated by now.", seeds);
    }
    OptionalDouble latest = next.latestHours();
    String range =
        latest.isPresent()
            ? "between " + time(next.earliestHours()) + " and " + time(latest.getAsDouble())
            : time(next.earliestHours()) + " at the earliest, but it may never happen";
    return String.format(
        "If it stays as warm as in the last days, %s should have germinated in about %s (%s).",
        seeds, time(next.hours()), range);
  }

  private static String time(double hours) {
    double whole = hours < 48 ? Math.rint(hours) : Math.rint(hours / HOURS_PER_DAY);
    String unit = hours < 48 ? "hour" : "day";
    return String.format(Locale.ROOT, "%.0f %s%s", whole, unit, whole == 1 ? "" : "s");
  }
}
