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
import org.jspecify.annotations.Nullable;
import tepidarium.container.ContainerId;
import tepidarium.heat.HeatRule;
import tepidarium.reading.Span;
import tepidarium.stats.Censored;
import tepidarium.stats.Posterior;
import tepidarium.stats.TimeFamily;

/**
 * When the next tenth of the seeds that remain in each group of a sowing will have germinated, if
 * its container stays as warm as it was in the last days.
 *
 * @param expected of each group for which it can be told
 * @param none why it cannot be for others; null where it can for every group with seeds left
 */
public record HeatOutlook(List<Expected> expected, @Nullable String none) {
  static final int LAST_DAYS = 3;

  private static final Duration DAY = Duration.ofDays(1);
  private static final double HOURS_PER_DAY = DAY.toHours();

  /** Bounds of heat closer together than this part of it are taken for one. */
  private static final double CLOSE = 0.01;

  private static final double HARDLY_ANY_C = 0.05;

  /**
   * A group's forecast.
   *
   * @param remaining sound and ungerminated at the last check
   * @param rate that was reckoned with
   * @param words in one sentence
   */
  public record Expected(
      GroupId group,
      ContainerId container,
      int remaining,
      HeatForecast next,
      Rate rate,
      String words) {}

  /**
   * Heat that comes in, °C·h in a day: the mean of the last days, the least and the greatest of
   * them, with the error of the sensor on these.
   */
  public record Rate(double low, double likely, double high) {}

  private record Weighted(double weight, Posterior fit, ToDoubleFunction<SeedHeat> heat) {}

  /** How much heat the seeds of some counts need, or why that cannot be told. */
  public static final class Needs {
    private final List<Weighted> fits;
    private final @Nullable String none;

    private Needs(List<Weighted> fits, @Nullable String none) {
      this.fits = fits;
      this.none = none;
    }
  }

  public HeatOutlook {
    expected = List.copyOf(expected);
  }

  /**
   * How much heat the seeds need, from counts by the heat above a base.
   *
   * @param all of one sowing
   * @param past what past sowings say of the heat needed; null where they say nothing
   */
  public static Needs needs(List<HeatCounts.Row> all, Posterior.@Nullable Prior past) {
    List<Weighted> fits = new ArrayList<>();
    return new Needs(fits, fit(all, past, fits));
  }

  /**
   * Of a sowing.
   *
   * @param counts of this sowing only
   * @param needs of its seeds, above the same base
   */
  public static HeatOutlook of(
      SowingTimeline timeline, HeatCounts counts, double baseC, Needs needs, Instant now) {
    List<GroupState> waiting =
        timeline.groups().stream().filter(group -> group.ungerminated() > 0).toList();
    if (waiting.isEmpty()) {
      return new HeatOutlook(List.of(), "no sound seeds are left to wait for");
    }
    if (needs.none != null) {
      return new HeatOutlook(List.of(), needs.none);
    }
    List<Expected> expected = new ArrayList<>();
    Map<String, List<String>> reasons = new LinkedHashMap<>();
    for (GroupState group : waiting) {
      String why = expect(group, counts.path(), counts.rule(baseC), needs.fits, now, expected);
      if (why != null) {
        reasons.computeIfAbsent(why, any -> new ArrayList<>()).add(group.id().toString());
      }
    }
    return new HeatOutlook(expected, words(reasons, waiting.size()));
  }

  private static @Nullable String words(Map<String, List<String>> reasons, int groups) {
    if (reasons.isEmpty()) {
      return null;
    }
    List<String> words = new ArrayList<>();
    reasons.forEach(
        (why, which) ->
            words.add(which.size() == groups ? why : String.join(", ", which) + ": " + why));
    return String.join("; ", words);
  }

  /** The counts on the likely heat, and where gaps matter on the least and the most too. */
  private static @Nullable String fit(
      List<HeatCounts.Row> all, Posterior.@Nullable Prior past, List<Weighted> fits) {
    List<HeatCounts.Row> rows = all.stream().filter(HeatCounts.Row::known).toList();
    if (rows.isEmpty()) {
      return HeatFit.UNMEASURED_WORDS;
    }
    if (HeatFit.by(rows, SeedHeat::likely) == null) {
      return HeatFit.NO_HEAT_WORDS;
    }
    Optional<Posterior> likely = posterior(rows, SeedHeat::likely, past);
    if (likely.isEmpty()) {
      return "too few have germinated yet, or at too few checks, to tell how much heat the others need";
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

  private static @Nullable String expect(
      GroupState group,
      HeatPath path,
      HeatRule rule,
      List<Weighted> fits,
      Instant now,
      List<Expected> expected) {
    SeedHeat sofar = path.seedHeat(group.seedPaths(), now, now, rule);
    if (!sofar.known()) {
      return HeatFit.UNMEASURED_WORDS;
    }
    List<SeedHeat> days = days(group.container(), path, rule, now);
    if (days.isEmpty()) {
      return "the readings in the container of these seeds do not cover the last day";
    }
    Rate rate = rate(days);
    SeedHeat seen = path.seedHeat(group.seedPaths(), group.soundAt(), now, rule);
    List<HeatForecast.Branch> branches =
        fits.stream()
            .map(
                fit ->
                    new HeatForecast.Branch(
                        fit.weight(),
                        fit.fit(),
                        fit.heat().applyAsDouble(seen),
                        fit.heat().applyAsDouble(sofar),
                        rate.low() / HOURS_PER_DAY,
                        rate.high() / HOURS_PER_DAY))
            .toList();
    int remaining = group.ungerminated();
    Optional<HeatForecast> next = HeatForecast.of(remaining, branches);
    if (next.isEmpty()) {
      return rate.likely() < HARDLY_ANY_C * HOURS_PER_DAY
          ? "hardly any heat above the base temperature comes in"
          : "of the seeds that remain, most likely less than a tenth will germinate";
    }
    String words = words(next.get(), remaining);
    expected.add(new Expected(group.id(), group.container(), remaining, next.get(), rate, words));
    return null;
  }

  /**
   * The last days, up to the last whole hour, that are covered by half or more; none where the very
   * last is not.
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
      // The sensor is off in the gaps of a day as it is in the covered part.
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
            ? "the seed that is left"
            : next.seeds() + " of the " + remaining + " seeds that are left";
    if (next.hours() < 1) {
      return String.format(
          "After the heat since the last check, %s should have germinated by now.", seeds);
    }
    OptionalDouble latest = next.latestHours();
    String range =
        latest.isPresent()
            ? "between " + time(next.earliestHours()) + " and " + time(latest.getAsDouble())
            : time(next.earliestHours()) + " at the earliest, but it may never come to that";
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
