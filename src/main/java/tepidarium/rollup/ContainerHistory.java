package tepidarium.rollup;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.function.Function;
import java.util.function.Predicate;
import org.jspecify.annotations.Nullable;
import tepidarium.container.Container;
import tepidarium.container.ContainerId;
import tepidarium.heat.BandTime;
import tepidarium.heat.DegreeHours;
import tepidarium.heat.Excursion;
import tepidarium.heat.HeatHours;
import tepidarium.heat.HeatRule;
import tepidarium.heat.HeatSum;
import tepidarium.heat.Limit;
import tepidarium.heat.LocalHours;
import tepidarium.heat.LostHeat;
import tepidarium.heat.TimeInBand;
import tepidarium.heat.Warmth;
import tepidarium.history.History;
import tepidarium.history.Thinned;
import tepidarium.light.LightEvent;
import tepidarium.light.LightEvents;
import tepidarium.light.LightShape;
import tepidarium.light.OpeningSign;
import tepidarium.light.OpeningSigns;
import tepidarium.memo.Memo;
import tepidarium.reading.Quantity;
import tepidarium.reading.Samples;
import tepidarium.reading.Span;

/**
 * Tells what happened in a container over any span: sums from the rollups, and the readings
 * themselves only around the hours in which something happened. Safe for use by several threads.
 */
public final class ContainerHistory {
  /** Light events or excursions this much apart, or less, are one. */
  public static final Duration DEFAULT_JOIN = Duration.ofMinutes(2);

  /**
   * A light event with how it came and went and what changed during it.
   *
   * @param temperatureChangeC from its start to its last reading, °C; null where not known
   * @param humidityChangePercent the same of the humidity
   */
  public record Lit(
      LightEvent event,
      LightShape shape,
      @Nullable Double temperatureChangeC,
      @Nullable Double humidityChangePercent) {}

  /** Light over a span: the dose in lux·h, covered and uncovered time in ms, and the events. */
  public record LightTold(double luxHours, long coveredMs, long gapMs, List<Lit> events) {}

  /**
   * An excursion.
   *
   * @param degreeHoursLost heat lost to cold, °C·h; null where that is not the question
   */
  public record Out(Excursion excursion, @Nullable Double degreeHoursLost) {}

  /** Time against one limit of the band, and the excursions beyond it. */
  public record LimitTold(Limit limit, LimitTime time, List<Out> excursions) {}

  private static final int WARMTHS = 5_000;
  private static final long DAY_MS = Duration.ofDays(1).toMillis();

  private final HourlyRollups rollups;
  private final History history;
  private final Memo<Told, Warmth> warmths = new Memo<>(WARMTHS);

  private record Told(ContainerId container, Span span, HourlyRollups.Version version) {}

  public ContainerHistory(HourlyRollups rollups, History history) {
    this.rollups = rollups;
    this.history = history;
  }

  /**
   * All that a container did over a span, from hours that are read once.
   *
   * @param heat with the container's own base and ceiling
   * @param temperature all its readings summed up; null for none
   */
  public record Whole(
      ContainerHours hours,
      HeatSum heat,
      @Nullable Summary temperature,
      LimitTold cold,
      LimitTold hot,
      LimitTold dry,
      LightTold light) {}

  /** Tells all of a span at once, light by the container's own limit. */
  public Whole whole(Container container, Span span) {
    ContainerHours hours = hours(container, span);
    List<RollupRow> rows = hours.rows();
    Summary temperature =
        rows.stream()
            .map(row -> row.summary(Quantity.TEMPERATURE))
            .filter(Objects::nonNull)
            .reduce(Summary::plus)
            .orElse(null);
    return new Whole(
        hours,
        RollupRow.heat(rows),
        temperature,
        cold(container, span, rows),
        hot(container, span, rows),
        dry(container, span, rows),
        light(container, span, rows, container.band().lightHighLux(), DEFAULT_JOIN));
  }

  private ContainerHours hours(Container container, Span span) {
    return new ContainerHours(container, span, rollups.rows(container, span), history);
  }

  /**
   * The heat of a span. It comes from the rollups with the container's own base and ceiling, and
   * with such as lie on whole quarters of a degree.
   */
  public HeatSum heat(Container container, Span span, HeatRule rule) {
    if (rule.equals(HeatRule.of(container.settings()))) {
      return RollupRow.heat(rollups.rows(container, span));
    }
    if (Warmth.isExact(rule)) {
      return warmth(container, span).heat(rule);
    }
    Samples temperature = history.samples(container.id(), Quantity.TEMPERATURE, span);
    return DegreeHours.of(temperature, span, rule, history.maxGap());
  }

  /**
   * For how long it was how warm in a span: from the rollups, for the heat by any rule. What does
   * not change any more is remembered; of what may, at most the last days.
   */
  public Warmth warmth(Container container, Span span) {
    long settledMs = rollups.settledUntilMs() / DAY_MS * DAY_MS;
    if (span.toMs() <= rollups.settledUntilMs() || span.fromMs() >= settledMs) {
      return settledWarmth(container, span);
    }
    return Warmth.sum(
        List.of(
            settledWarmth(container, Span.ofMillis(span.fromMs(), settledMs)),
            warmthNow(container, Span.ofMillis(settledMs, span.toMs()))));
  }

  private Warmth settledWarmth(Container container, Span span) {
    Optional<HourlyRollups.Version> version = rollups.version(container, span);
    if (version.isEmpty()) {
      return warmthNow(container, span);
    }
    Told told = new Told(container.id(), span, version.get());
    Warmth known = warmths.known(told);
    if (known != null) {
      return known;
    }
    Warmth warmth = warmthNow(container, span);
    if (rollups.version(container, span).equals(version)) {
      warmths.keep(told, warmth);
    }
    return warmth;
  }

  private Warmth warmthNow(Container container, Span span) {
    return Warmth.sum(rollups.rows(container, span).stream().map(RollupRow::warmth).toList());
  }

  /**
   * The heat of each day, or part of a day, of a span. A day is 23 or 25 hours long when the clocks
   * change.
   *
   * @param zone where a day begins
   */
  public Map<LocalDate, HeatSum> heatByDay(
      Container container, Span span, HeatRule rule, ZoneId zone) {
    ContainerHours hours = hours(container, span);
    Map<LocalDate, HeatSum> sums = new LinkedHashMap<>();
    for (LocalDate day : days(span, zone)) {
      Span whole = Span.ofMillis(startMs(day, zone), startMs(day.plusDays(1), zone));
      sums.put(day, hours.heat(whole.within(span), rule));
    }
    return sums;
  }

  private static List<LocalDate> days(Span span, ZoneId zone) {
    List<LocalDate> days = new ArrayList<>();
    LocalDate day = span.from().atZone(zone).toLocalDate();
    while (startMs(day, zone) < span.toMs()) {
      days.add(day);
      day = day.plusDays(1);
    }
    return days;
  }

  private static long startMs(LocalDate day, ZoneId zone) {
    return day.atStartOfDay(zone).toInstant().toEpochMilli();
  }

  /**
   * The hours of a container for the heat bench.
   *
   * @param rule the same for all that are compared
   */
  HeatHours heatHours(Container container, LocalHours hours, HeatRule rule) {
    double errorC = history.temperatureErrorC(container.id(), hours.span());
    return hours(container, hours.span()).bench(hours, rule, errorC);
  }

  /** The light of a span. */
  public LightTold light(Container container, Span span, double limitLux, Duration join) {
    return light(container, span, rollups.rows(container, span), limitLux, join);
  }

  private LightTold light(
      Container container, Span span, List<RollupRow> rows, double limitLux, Duration join) {
    Predicate<RollupRow> lit =
        row -> {
          Summary summary = row.summary(Quantity.LIGHT);
          return summary != null && summary.max() > limitLux;
        };
    long widen = Math.max(HourlyRollups.HOUR_MS, join.toMillis() + history.maxGap().toMillis());
    List<Lit> events = new ArrayList<>();
    for (Span run : Runs.of(rows, lit, span, widen)) {
      Map<Quantity, Samples> samples = history.samples(container.id(), run);
      Samples light =
          samples.getOrDefault(Quantity.LIGHT, Samples.EMPTY).between(run.fromMs(), run.toMs() + 1);
      LightEvents.of(light, limitLux, history.maxGap(), join).stream()
          .filter(event -> event.start().isBefore(span.to()))
          .forEach(event -> events.add(lit(event, LightShape.of(light, event, limitLux), samples)));
    }
    double luxHours = rows.stream().mapToDouble(RollupRow::luxHours).sum();
    long covered = rows.stream().mapToLong(row -> row.light().coveredMs()).sum();
    return new LightTold(luxHours, covered, span.length().toMillis() - covered, events);
  }

  private Lit lit(LightEvent event, LightShape shape, Map<Quantity, Samples> samples) {
    return new Lit(
        event,
        shape,
        change(samples.getOrDefault(Quantity.TEMPERATURE, Samples.EMPTY), event),
        change(samples.getOrDefault(Quantity.HUMIDITY, Samples.EMPTY), event));
  }

  /**
   * Where the readings look as if somebody had opened the container: read only around the hours in
   * which it was light.
   */
  public List<OpeningSign> openingSigns(Container container, Span span) {
    double limitLux = container.band().lightHighLux();
    Predicate<RollupRow> lit =
        row -> {
          Summary summary = row.summary(Quantity.LIGHT);
          return summary != null && summary.max() > limitLux;
        };
    List<OpeningSign> signs = new ArrayList<>();
    for (Span run : Runs.of(rollups.rows(container, span), lit, span, HourlyRollups.HOUR_MS)) {
      Map<Quantity, Samples> samples = history.samples(container.id(), OpeningSigns.neededFor(run));
      signs.addAll(OpeningSigns.of(samples, run, limitLux, history.maxGap()));
    }
    return signs;
  }

  private @Nullable Double change(Samples samples, LightEvent event) {
    long gapMs = history.maxGap().toMillis();
    var before = samples.valueAt(event.start().toEpochMilli(), gapMs);
    var after = samples.valueAt(event.lastSeen().toEpochMilli(), gapMs);
    return before.isPresent() && after.isPresent()
        ? after.getAsDouble() - before.getAsDouble()
        : null;
  }

  /** Time against the low temperature; its excursions say what heat they cost. */
  public LimitTold cold(Container container, Span span) {
    return cold(container, span, rollups.rows(container, span));
  }

  private LimitTold cold(Container container, Span span, List<RollupRow> rows) {
    Limit limit = Limit.low(container.band().temperatureLowC());
    return against(container, span, rows, Quantity.TEMPERATURE, limit, RollupRow::cold, true);
  }

  /** Time against the high temperature. */
  public LimitTold hot(Container container, Span span) {
    return hot(container, span, rollups.rows(container, span));
  }

  private LimitTold hot(Container container, Span span, List<RollupRow> rows) {
    Limit limit = Limit.high(container.band().temperatureHighC());
    return against(container, span, rows, Quantity.TEMPERATURE, limit, RollupRow::hot, false);
  }

  /** Time against the light limit. */
  public LimitTold bright(Container container, Span span) {
    Limit limit = Limit.high(container.band().lightHighLux());
    List<RollupRow> rows = rollups.rows(container, span);
    return against(container, span, rows, Quantity.LIGHT, limit, RollupRow::light, false);
  }

  /** Time against the low humidity. */
  public LimitTold dry(Container container, Span span) {
    return dry(container, span, rollups.rows(container, span));
  }

  private LimitTold dry(Container container, Span span, List<RollupRow> rows) {
    Limit limit = Limit.low(container.band().humidityLowPercent());
    return against(container, span, rows, Quantity.HUMIDITY, limit, RollupRow::dry, false);
  }

  private LimitTold against(
      Container container,
      Span span,
      List<RollupRow> rows,
      Quantity quantity,
      Limit limit,
      Function<RollupRow, LimitTime> time,
      boolean heatIsLost) {
    LimitTime total = rows.stream().map(time).reduce(LimitTime.NONE, LimitTime::plus);
    Predicate<RollupRow> outside = row -> time.apply(row).outsideMs() > 0;
    List<Out> excursions = new ArrayList<>();
    for (Span run : Runs.of(rows, outside, span, HourlyRollups.HOUR_MS)) {
      Samples samples = history.samples(container.id(), quantity, run);
      BandTime found = TimeInBand.of(samples, run, limit, history.maxGap(), DEFAULT_JOIN);
      for (Excursion excursion : found.excursions()) {
        Double lost = heatIsLost ? lost(container, samples, excursion) : null;
        excursions.add(new Out(excursion, lost));
      }
    }
    return new LimitTold(limit, total, excursions);
  }

  private double lost(Container container, Samples samples, Excursion excursion) {
    return LostHeat.of(
        samples,
        new Span(excursion.start(), excursion.lastSeen()),
        HeatRule.of(container.settings()),
        container.band().temperatureLowC(),
        history.maxGap());
  }

  /**
   * The readings thinned to so many points, with no extreme lost: from the rollups where a point
   * stands for an hour or more, so that the time it takes depends on what is shown and not on what
   * there is.
   */
  public Map<Quantity, List<Thinned.Point>> series(Container container, Span span, int points) {
    Map<Quantity, List<Thinned.Point>> series = new EnumMap<>(Quantity.class);
    boolean coarse = span.length().toMillis() / points >= HourlyRollups.HOUR_MS;
    List<RollupRow> rows = coarse ? rollups.rows(container, span) : List.of();
    Map<Quantity, Samples> samples = coarse ? Map.of() : history.samples(container.id(), span);
    Duration maxGap = history.maxGap();
    for (Quantity quantity : Quantity.values()) {
      series.put(
          quantity,
          coarse
              ? ThinnedRows.of(rows, quantity, span, points, maxGap.toMillis())
              : Thinned.of(samples.getOrDefault(quantity, Samples.EMPTY), span, points, maxGap));
    }
    return series;
  }

  /** The same of the room sensor. */
  public Map<Quantity, List<Thinned.Point>> roomSeries(Span span, int points) {
    return series(HourlyRollups.ROOM, span, points);
  }

  /** From when to when there is something to tell; see {@link HourlyRollups#extent}. */
  public Optional<Span> extent(ContainerId container, Instant now) {
    return rollups.extent(container, now);
  }
}
