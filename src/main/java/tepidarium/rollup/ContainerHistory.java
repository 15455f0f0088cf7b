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
import java.util.function.Predicate;
import org.jspecify.annotations.Nullable;
import tepidarium.container.Container;
import tepidarium.container.ContainerId;
import tepidarium.container.Opening;
import tepidarium.heat.DegreeHours;
import tepidarium.heat.HeatHours;
import tepidarium.heat.HeatRule;
import tepidarium.heat.HeatSum;
import tepidarium.heat.LocalHours;
import tepidarium.heat.SensorError;
import tepidarium.heat.TemperatureHistogram;
import tepidarium.history.CalibratedReadings;
import tepidarium.history.Downsampled;
import tepidarium.light.LightCause;
import tepidarium.light.LightCauses;
import tepidarium.light.LightEvent;
import tepidarium.light.LightEvents;
import tepidarium.light.LightShape;
import tepidarium.light.OpeningSign;
import tepidarium.light.OpeningSigns;
import tepidarium.light.Site;
import tepidarium.reading.Quantity;
import tepidarium.reading.Samples;
import tepidarium.reading.Span;

/**
 * Answers queries about a container over any span: heat, light, charts. Sums come from the hourly
 * rollups. Raw readings are loaded only around hours with an event. Thread-safe.
 */
public final class ContainerHistory {
  /** Light events or excursions at most this far apart are merged into one. */
  public static final Duration DEFAULT_JOIN = Duration.ofMinutes(2);

  /**
   * A light event with its shape and the changes of temperature and humidity during it.
   *
   * @param temperatureChangeC change from its start to its last reading, °C; null if unknown
   * @param humidityChangePercent change of relative humidity over the same time, percentage points;
   *     null if unknown
   */
  public record LightEventDetail(
      LightEvent event,
      LightShape shape,
      @Nullable Double temperatureChangeC,
      @Nullable Double humidityChangePercent) {}

  /** Light over a span: the dose in lux·h, covered and uncovered time in ms, and the events. */
  public record LightSummary(
      double luxHours, long coveredMs, long gapMs, List<LightEventDetail> events) {
    /**
     * The cause of each event, in their order.
     *
     * @param openings recorded openings of the container, at least those that overlap an event
     * @param site null if it is not known
     */
    public List<LightCause> causes(List<Opening> openings, @Nullable Site site) {
      return LightCauses.of(
          events.stream()
              .map(one -> LightCauses.Seen.of(one.event(), one.shape(), openings))
              .toList(),
          site);
    }
  }

  private final HourlyRollups rollups;
  private final CalibratedReadings calibrated;
  private final HistogramCache histograms;
  private final BandHistory band;

  public ContainerHistory(HourlyRollups rollups, CalibratedReadings calibrated) {
    this.rollups = rollups;
    this.calibrated = calibrated;
    histograms = new HistogramCache(rollups);
    band = new BandHistory(rollups, histograms, calibrated);
  }

  /**
   * All figures of a container over a span, computed from one load of its rollups.
   *
   * @param heat with the container's own base and ceiling
   * @param temperature summary of its readings; null if there are none
   */
  public record SpanSummary(
      ContainerHours hours,
      HeatSum heat,
      @Nullable Summary temperature,
      BandHistory.LimitSummary cold,
      BandHistory.LimitSummary hot,
      BandHistory.LimitSummary dry,
      LightSummary light) {}

  /** Computes all figures of a span at once; light uses the container's own limit. */
  public SpanSummary summary(Container container, Span span) {
    ContainerHours hours = hours(container, span);
    List<RollupRow> rows = hours.rows();
    Summary temperature =
        rows.stream()
            .map(row -> row.summary(Quantity.TEMPERATURE))
            .filter(Objects::nonNull)
            .reduce(Summary::plus)
            .orElse(null);
    return new SpanSummary(
        hours,
        RollupRow.heat(rows),
        temperature,
        band.cold(container, span, rows),
        band.hot(container, span, rows),
        band.dry(container, span, rows),
        light(container, span, rows, container.band().lightHighLux(), DEFAULT_JOIN));
  }

  /** The time outside the limits of the band. */
  public BandHistory band() {
    return band;
  }

  /** Heat of a span, and its time against both temperature limits. */
  public record TemperatureTotals(HeatSum heat, LimitTime cold, LimitTime hot) {}

  /** The totals of a span, from the rollups alone; with the container's own base and ceiling. */
  public TemperatureTotals temperatureTotals(Container container, Span span) {
    List<RollupRow> rows = rollups.rows(container, span);
    return new TemperatureTotals(
        RollupRow.heat(rows),
        rows.stream().map(RollupRow::cold).reduce(LimitTime.NONE, LimitTime::plus),
        rows.stream().map(RollupRow::hot).reduce(LimitTime.NONE, LimitTime::plus));
  }

  private ContainerHours hours(Container container, Span span) {
    return new ContainerHours(container, span, rollups.rows(container, span), calibrated);
  }

  /**
   * The heat of a span. Rollups are used for the container's own base and ceiling, and for values
   * that are multiples of 0.25 °C; other values need the raw readings.
   */
  public HeatSum heat(Container container, Span span, HeatRule rule) {
    if (rule.equals(HeatRule.of(container.settings()))) {
      return RollupRow.heat(rollups.rows(container, span));
    }
    if (TemperatureHistogram.isExact(rule)) {
      return histogram(container, span).heat(rule);
    }
    Samples temperature = calibrated.samples(container.id(), Quantity.TEMPERATURE, span);
    return DegreeHours.of(temperature, span, rule, calibrated.maxGap());
  }

  /** Time spent at each temperature in a span; gives the heat by any rule. */
  public TemperatureHistogram histogram(Container container, Span span) {
    return histograms.get(container, span);
  }

  /** The possible error of the heat of a span because of the sensors placed in the container. */
  public SensorError sensorError(Container container, Span span, HeatRule rule) {
    return sensorError(container, span, rule, null);
  }

  /**
   * The possible error of the heat of a span. The errors of the sensors are taken one by one: those
   * placed at one time do not count for the heat of another.
   *
   * @param known histogram of the whole span; null to look it up
   */
  public SensorError sensorError(
      Container container, Span span, HeatRule rule, @Nullable TemperatureHistogram known) {
    List<Span> pieces = calibrated.spansOfEqualSensors(container.id(), span);
    SensorError sum = new SensorError(0, 0);
    for (Span piece : pieces) {
      TemperatureHistogram histogram =
          known != null && pieces.size() == 1 ? known : histogram(container, piece);
      double errorC = calibrated.temperatureErrorC(container.id(), piece, histogram.meanC());
      sum = sum.plus(histogram.sensorError(rule, errorC));
    }
    return sum;
  }

  /**
   * The heat of each day, or part of a day, of a span. A day is 23 or 25 hours long when the clocks
   * change.
   *
   * @param zone time zone of the day boundaries
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
   * The hourly columns of a container for the heat bench.
   *
   * @param rule heat rule, the same for all compared containers
   */
  HeatHours heatHours(Container container, LocalHours hours, HeatRule rule) {
    return hours(container, hours.span()).bench(hours, rule);
  }

  /** The light of a span. */
  public LightSummary light(Container container, Span span, double limitLux, Duration join) {
    return light(container, span, rollups.rows(container, span), limitLux, join);
  }

  private LightSummary light(
      Container container, Span span, List<RollupRow> rows, double limitLux, Duration join) {
    long widen = Math.max(HourlyRollups.HOUR_MS, join.toMillis() + calibrated.maxGap().toMillis());
    List<LightEventDetail> events = new ArrayList<>();
    for (Span part : SpansAround.of(rows, litAbove(limitLux), span, widen)) {
      Map<Quantity, Samples> samples = calibrated.samples(container.id(), part);
      Samples light =
          samples
              .getOrDefault(Quantity.LIGHT, Samples.EMPTY)
              .between(part.fromMs(), part.toMs() + 1);
      LightEvents.of(light, limitLux, calibrated.maxGap(), join).stream()
          .filter(event -> event.start().isBefore(span.to()))
          .forEach(
              event -> events.add(detail(event, LightShape.of(light, event, limitLux), samples)));
    }
    double luxHours = rows.stream().mapToDouble(RollupRow::luxHours).sum();
    long covered = rows.stream().mapToLong(row -> row.light().coveredMs()).sum();
    return new LightSummary(luxHours, covered, span.length().toMillis() - covered, events);
  }

  private LightEventDetail detail(
      LightEvent event, LightShape shape, Map<Quantity, Samples> samples) {
    return new LightEventDetail(
        event,
        shape,
        change(samples.getOrDefault(Quantity.TEMPERATURE, Samples.EMPTY), event),
        change(samples.getOrDefault(Quantity.HUMIDITY, Samples.EMPTY), event));
  }

  /** Suggests openings from the readings. Loads raw readings only around hours with light. */
  public List<OpeningSign> openingSigns(Container container, Span span) {
    double limitLux = container.band().lightHighLux();
    List<OpeningSign> signs = new ArrayList<>();
    for (Span part :
        SpansAround.of(
            rollups.rows(container, span), litAbove(limitLux), span, HourlyRollups.HOUR_MS)) {
      Map<Quantity, Samples> samples =
          calibrated.samples(container.id(), OpeningSigns.neededFor(part));
      signs.addAll(OpeningSigns.of(samples, part, limitLux, calibrated.maxGap()));
    }
    return signs;
  }

  /** Accepts the hours in which some reading of light is above the limit. */
  private static Predicate<RollupRow> litAbove(double limitLux) {
    return row -> {
      Summary summary = row.summary(Quantity.LIGHT);
      return summary != null && summary.max() > limitLux;
    };
  }

  private @Nullable Double change(Samples samples, LightEvent event) {
    long gapMs = calibrated.maxGap().toMillis();
    var before = samples.valueAt(event.start().toEpochMilli(), gapMs);
    var after = samples.valueAt(event.lastSeen().toEpochMilli(), gapMs);
    return before.isPresent() && after.isPresent()
        ? after.getAsDouble() - before.getAsDouble()
        : null;
  }

  /**
   * The readings downsampled to at most {@code points} buckets, extremes kept. If a bucket is an
   * hour or longer, the rollups are used, so the time needed depends on the number of points and
   * not on the number of readings.
   */
  public Map<Quantity, List<Downsampled.Point>> series(Container container, Span span, int points) {
    Map<Quantity, List<Downsampled.Point>> series = new EnumMap<>(Quantity.class);
    boolean coarse = span.length().toMillis() / points >= HourlyRollups.HOUR_MS;
    List<RollupRow> rows = coarse ? rollups.rows(container, span) : List.of();
    Map<Quantity, Samples> samples = coarse ? Map.of() : calibrated.samples(container.id(), span);
    Duration maxGap = calibrated.maxGap();
    for (Quantity quantity : Quantity.values()) {
      series.put(
          quantity,
          coarse
              ? DownsampledRollups.of(rows, quantity, span, points, maxGap.toMillis())
              : Downsampled.of(
                  samples.getOrDefault(quantity, Samples.EMPTY), span, points, maxGap));
    }
    return series;
  }

  /** Downsampled readings of the room sensor. */
  public Map<Quantity, List<Downsampled.Point>> roomSeries(Span span, int points) {
    return series(HourlyRollups.ROOM, span, points);
  }

  /** Before this instant, raw readings have been deleted and hourly sums are final. */
  public Instant rawFrom() {
    return rollups.rawFrom();
  }

  /** The time span with data; see {@link HourlyRollups#extent}. */
  public Optional<Span> extent(ContainerId container, Instant now) {
    return rollups.extent(container, now);
  }
}
