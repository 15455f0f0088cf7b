package tepidarium.season;

import java.time.Instant;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import tepidarium.heat.BenchPlace;
import tepidarium.heat.HeatBench;
import tepidarium.heat.HeatRule;
import tepidarium.heat.LocalHours;
import tepidarium.reading.Span;

/** Compares the heat sources of a season on the heat bench. */
final class SeasonSources {
  /** At most this many heat sources are compared: those with the most containers. */
  private static final int MAX_SOURCES = 8;

  private SeasonSources() {}

  /**
   * Compares the heat sources of all containers with readings.
   *
   * @param zone time zone of the days and nights
   * @return null if there are fewer than two heat sources
   */
  static @Nullable SourceComparison compare(List<MeasuredContainer> containers, ZoneId zone) {
    List<List<MeasuredContainer>> groups = bySource(containers);
    if (groups.size() < 2) {
      return null;
    }
    List<MeasuredContainer> all = groups.stream().flatMap(List::stream).toList();
    HeatRule rule = MeasuredContainer.commonRule(all);
    LocalHours hours = LocalHours.of(around(all), zone);
    List<HeatBench.Side> sides = groups.stream().map(group -> side(group, hours, rule)).toList();
    return SourceComparison.of(rule, HeatBench.compare(hours, sides));
  }

  private static List<List<MeasuredContainer>> bySource(List<MeasuredContainer> containers) {
    Map<String, List<MeasuredContainer>> groups = new LinkedHashMap<>();
    for (MeasuredContainer container : containers) {
      String source = container.container().settings().heatSource();
      if (source != null && container.measured()) {
        groups
            .computeIfAbsent(source.toLowerCase(Locale.ROOT), key -> new ArrayList<>())
            .add(container);
      }
    }
    return groups.values().stream()
        .sorted((a, b) -> Integer.compare(b.size(), a.size()))
        .limit(MAX_SOURCES)
        .toList();
  }

  private static Span around(List<MeasuredContainer> all) {
    Instant from =
        all.stream()
            .map(container -> container.span().from())
            .min(Instant::compareTo)
            .orElseThrow();
    Instant to =
        all.stream().map(container -> container.span().to()).max(Instant::compareTo).orElseThrow();
    return new Span(from, to);
  }

  private static HeatBench.Side side(
      List<MeasuredContainer> group, LocalHours hours, HeatRule rule) {
    String name = Objects.requireNonNull(group.get(0).container().settings().heatSource());
    return new HeatBench.Side(
        name, name, true, group.stream().map(container -> place(container, hours, rule)).toList());
  }

  private static BenchPlace place(MeasuredContainer container, LocalHours hours, HeatRule rule) {
    return new BenchPlace(
        container.id(),
        container.container().name(),
        container.summary().hours().bench(hours, rule),
        List.of(),
        null);
  }
}
