package tepidarium.web;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import tepidarium.container.Container;
import tepidarium.container.ContainerId;
import tepidarium.container.Opening;
import tepidarium.container.Register;
import tepidarium.germination.ContainerWarmth;
import tepidarium.heat.BenchPlace;
import tepidarium.heat.HeatBench;
import tepidarium.heat.HeatRule;
import tepidarium.heat.HeatSum;
import tepidarium.heat.LocalHours;
import tepidarium.heat.Warmth;
import tepidarium.history.CalibratedReadings;
import tepidarium.light.LightCause;
import tepidarium.light.LightEvent;
import tepidarium.light.LightKind;
import tepidarium.light.Site;
import tepidarium.reading.Span;
import tepidarium.rollup.ContainerHistory;
import tepidarium.season.ContainerResult;
import tepidarium.season.SeasonHeat;
import tepidarium.season.SourceComparison;

/** What the containers did in a season. Made for one report: each container is read once. */
final class SeasonContainers implements ContainerWarmth {
  private static final double MS_PER_HOUR = 3_600_000.0;
  private static final double HOURS_PER_DAY = 24;
  private static final int MOST_SOURCES = 8;

  private final Register register;
  private final CalibratedReadings calibrated;
  private final ContainerWarmth measured;
  private final Span season;
  private final ZoneId zone;
  private final @Nullable Site site;
  private final Map<ContainerId, Read> read = new LinkedHashMap<>();

  /** A container and all that was read of it in its part of the season. */
  private record Read(Container container, Span span, ContainerHistory.SpanSummary whole) {
    boolean measured() {
      return whole.heat().coveredMs() > 0;
    }

    HeatRule rule() {
      return HeatRule.of(container.settings());
    }
  }

  /**
   * Reads all containers.
   *
   * @param now until when there can be readings
   * @param site null where it is not known
   */
  SeasonContainers(
      Register register,
      CalibratedReadings calibrated,
      ContainerHistory history,
      Span season,
      Instant now,
      ZoneId zone,
      @Nullable Site site) {
    this.register = register;
    this.calibrated = calibrated;
    this.measured = new MeasuredWarmth(register, calibrated, history);
    this.season = season;
    this.zone = zone;
    this.site = site;
    // Most of a report is reading hours, which containers can do side by side.
    register.containers().parallelStream()
        .map(container -> read(container, history, now))
        .toList()
        .forEach(one -> read.put(one.container().id(), one));
  }

  private Read read(Container container, ContainerHistory history, Instant now) {
    Span part =
        history
            .extent(container.id(), now)
            .map(season::within)
            .orElse(new Span(season.from(), season.from()));
    return new Read(container, part, history.whole(container, part));
  }

  @Override
  public Warmth warmth(ContainerId container, Span span) {
    return measured.warmth(container, span);
  }

  @Override
  public double temperatureErrorC(ContainerId container, Span span) {
    return measured.temperatureErrorC(container, span);
  }

  @Override
  public double highLimitC(ContainerId container) {
    return measured.highLimitC(container);
  }

  /** The heat of a part of the season by any rule; what was not read is a gap. */
  @Override
  public HeatSum heat(ContainerId container, Span span, HeatRule rule) {
    Read one = read.get(container);
    return one == null
        ? new HeatSum(0, 0, 0, span.length().toMillis())
        : one.whole().hours().heat(span, rule);
  }

  /** Those that held seeds or were measured, oldest first. */
  List<ContainerResult> results(Set<ContainerId> withSeeds) {
    return read.values().stream()
        .filter(one -> one.measured() || withSeeds.contains(one.container().id()))
        .map(one -> result(one, withSeeds.contains(one.container().id())))
        .toList();
  }

  private ContainerResult result(Read one, boolean seeds) {
    Container container = one.container();
    ContainerHistory.SpanSummary whole = one.whole();
    HeatSum heat = whole.heat();
    List<Opening> openings = register.openings(container.id(), season);
    double outsideMs = whole.cold().time().outsideMs() + whole.hot().time().outsideMs();
    boolean measured = one.measured();
    return new ContainerResult(
        container.id().value(),
        container.name(),
        container.settings().heatSource(),
        seeds,
        container.settings().baseC(),
        container.band().temperatureLowC(),
        container.band().temperatureHighC(),
        container.band().humidityLowPercent(),
        heat.coveredHours(),
        heat.gapHours(),
        heat.degreeHours(),
        heat.upper(one.rule(), container.band().temperatureHighC()),
        measured ? HOURS_PER_DAY * heat.degreeHours() / heat.coveredHours() : null,
        measured ? 1 - Math.min(1, outsideMs / heat.coveredMs()) : null,
        whole.temperature() == null ? null : whole.temperature().min(),
        whole.temperature() == null ? null : whole.temperature().max(),
        outside(whole.cold(), openings),
        outside(whole.hot(), List.of()),
        whole.dry().time().outsideMs() / MS_PER_HOUR,
        whole.dry().time().coveredMs() / MS_PER_HOUR,
        whole.light().coveredMs() / MS_PER_HOUR,
        leaks(whole.light().events(), openings),
        openings.size());
  }

  /**
   * Excursions beyond a limit.
   *
   * @param openings that may explain them; none where opening does not bring it about
   */
  private static ContainerResult.Outside outside(
      ContainerHistory.LimitSummary told, List<Opening> openings) {
    int explained = 0;
    double longest = 0;
    double lost = 0;
    for (ContainerHistory.ExcursionDetail out : told.excursions()) {
      if (openings.stream().anyMatch(open -> HistoryRoutes.explains(open, out.excursion()))) {
        explained++;
      } else {
        longest = Math.max(longest, out.excursion().hours());
      }
      Double degreeHours = out.degreeHoursLost();
      lost += degreeHours == null ? 0 : degreeHours;
    }
    return new ContainerResult.Outside(
        told.excursions().size() - explained,
        explained,
        told.time().outsideMs() / MS_PER_HOUR,
        longest,
        lost);
  }

  private ContainerResult.Leaks leaks(
      List<ContainerHistory.LightEventDetail> lit, List<Opening> openings) {
    List<LightCause> causes = HistoryRoutes.causes(lit, event -> isOpening(event, openings), site);
    Map<LightKind, List<LightEvent>> byKind = new LinkedHashMap<>();
    for (LightKind kind : List.of(LightKind.DAYLIGHT, LightKind.LAMP, LightKind.OTHER)) {
      byKind.put(kind, new ArrayList<>());
    }
    for (int i = 0; i < causes.size(); i++) {
      List<LightEvent> events = byKind.get(causes.get(i).kind());
      if (events != null) {
        events.add(lit.get(i).event());
      }
    }
    List<ContainerResult.LeaksOfKind> kinds =
        byKind.entrySet().stream()
            .filter(entry -> !entry.getValue().isEmpty())
            .map(entry -> ofKind(entry.getKey(), entry.getValue()))
            .toList();
    return new ContainerResult.Leaks(
        kinds.stream().mapToInt(ContainerResult.LeaksOfKind::count).sum(),
        kinds.stream().mapToDouble(ContainerResult.LeaksOfKind::doseLuxHours).sum(),
        kinds);
  }

  private static boolean isOpening(LightEvent event, List<Opening> openings) {
    Span stretch = HistoryRoutes.seen(event);
    return openings.stream().anyMatch(opening -> opening.span().overlaps(stretch));
  }

  private ContainerResult.LeaksOfKind ofKind(LightKind kind, List<LightEvent> events) {
    Set<LocalDate> days = new HashSet<>();
    events.forEach(event -> days.add(event.start().atZone(zone).toLocalDate()));
    double dose = events.stream().mapToDouble(LightEvent::doseLuxHours).sum();
    return new ContainerResult.LeaksOfKind(kind.key(), events.size(), days.size(), dose);
  }

  /** All by the base and ceiling that most of them have. */
  @Nullable SeasonHeat heat(Set<ContainerId> withSeeds) {
    List<Read> measured =
        read.values().stream()
            .filter(one -> one.measured() && withSeeds.contains(one.container().id()))
            .toList();
    if (measured.isEmpty()) {
      return null;
    }
    HeatRule rule = commonRule(measured);
    HeatSum all =
        measured.stream()
            .map(one -> one.whole().hours().heat(one.span(), rule))
            .reduce(HeatSum.ZERO, HeatSum::plus);
    return new SeasonHeat(
        rule.baseC(),
        rule.ceilingC(),
        HOURS_PER_DAY * all.degreeHours() / all.coveredHours(),
        measured.size());
  }

  private static HeatRule commonRule(List<Read> containers) {
    Map<HeatRule, Integer> counts = new LinkedHashMap<>();
    containers.forEach(one -> counts.merge(one.rule(), 1, Integer::sum));
    // Of those that are as common, the first that was met.
    return counts.entrySet().stream()
        .reduce((a, b) -> b.getValue() > a.getValue() ? b : a)
        .map(Map.Entry::getKey)
        .orElseThrow();
  }

  /** The heat sources against each other, those with the most containers first. */
  @Nullable SourceComparison sources() {
    Map<String, List<Read>> bySource = new LinkedHashMap<>();
    for (Read one : read.values()) {
      String source = one.container().settings().heatSource();
      if (source != null && one.measured()) {
        bySource
            .computeIfAbsent(source.toLowerCase(Locale.ROOT), key -> new ArrayList<>())
            .add(one);
      }
    }
    if (bySource.size() < 2) {
      return null;
    }
    List<List<Read>> compared =
        bySource.values().stream()
            .sorted((a, b) -> Integer.compare(b.size(), a.size()))
            .limit(MOST_SOURCES)
            .toList();
    List<Read> all = compared.stream().flatMap(List::stream).toList();
    HeatRule rule = commonRule(all);
    LocalHours hours = LocalHours.of(around(all), zone);
    List<HeatBench.Side> sides = compared.stream().map(group -> side(group, hours, rule)).toList();
    return SourceComparison.of(rule, HeatBench.compare(hours, sides));
  }

  private static Span around(List<Read> all) {
    Instant from = all.stream().map(one -> one.span().from()).min(Instant::compareTo).orElseThrow();
    Instant to = all.stream().map(one -> one.span().to()).max(Instant::compareTo).orElseThrow();
    return new Span(from, to);
  }

  private HeatBench.Side side(List<Read> group, LocalHours hours, HeatRule rule) {
    String name = Objects.requireNonNull(group.get(0).container().settings().heatSource());
    return new HeatBench.Side(
        name, name, true, group.stream().map(one -> place(one, hours, rule)).toList());
  }

  private BenchPlace place(Read one, LocalHours hours, HeatRule rule) {
    ContainerId id = one.container().id();
    return new BenchPlace(
        id,
        one.container().name(),
        one.whole().hours().bench(hours, rule, calibrated.temperatureErrorC(id, one.span())),
        List.of(),
        null);
  }
}
