package tepidarium.web.history;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import tepidarium.alert.AlertKind;
import tepidarium.container.Container;
import tepidarium.container.ContainerId;
import tepidarium.container.Opening;
import tepidarium.container.Register;
import tepidarium.heat.Excursion;
import tepidarium.heat.HeatRule;
import tepidarium.heat.HeatSum;
import tepidarium.heat.SensorError;
import tepidarium.history.CalibratedReadings;
import tepidarium.history.Downsampled;
import tepidarium.light.LightCause;
import tepidarium.light.LightEvent;
import tepidarium.light.Site;
import tepidarium.reading.InvalidInput;
import tepidarium.reading.Quantity;
import tepidarium.reading.Span;
import tepidarium.rollup.ContainerHistory;
import tepidarium.rollup.LimitTime;
import tepidarium.web.ContainerRequests;
import tepidarium.web.Params;

/** Routes for the history of a container: series, heat, light, and time in band. */
public final class HistoryRoutes {
  private static final int MOST_POINTS = 5_000;
  private static final int DEFAULT_POINTS = 500;
  private static final int DEFAULT_JOIN_SECONDS = 120;
  private static final int MOST_DAYS = 4_000;

  /** Maximum span in days, about 20 years; bounds the memory for hourly values. */
  private static final int LONGEST_DAYS = 7_500;

  private static final double MS_PER_HOUR = 3_600_000.0;

  private final Register register;
  private final CalibratedReadings calibrated;
  private final ContainerHistory history;
  private final ContainerRequests requests;
  private final ZoneId zone;
  private final @Nullable Site site;

  record DayJson(
      LocalDate day,
      double degreeHours,
      double coveredHours,
      double gapHours,
      double lower,
      double upper) {}

  record HeatAnswer(
      Instant from,
      Instant to,
      double base,
      @Nullable Double ceiling,
      double degreeHours,
      double coveredHours,
      double gapHours,
      double lower,
      double upper,
      double sensorError,
      double sensorLower,
      double sensorUpper,
      List<DayJson> byDay) {}

  record LightEventJson(
      Instant start,
      @Nullable Instant end,
      double peakLux,
      double doseLuxHours,
      String kind,
      String advice,
      @Nullable Double temperatureChange,
      @Nullable Double humidityChange) {}

  record LightAnswer(
      Instant from,
      Instant to,
      double limit,
      int joinSeconds,
      double doseLuxHours,
      double coveredHours,
      double gapHours,
      List<LightEventJson> events) {}

  record LimitJson(
      double limit, @Nullable Double fractionInside, double hoursOutside, double coveredHours) {}

  record ExcursionJson(
      String kind,
      Instant start,
      @Nullable Instant end,
      double hours,
      double worst,
      Instant worstAt,
      @Nullable Double degreeHoursLost,
      boolean duringOpening) {}

  record BandAnswer(
      Instant from,
      Instant to,
      double coveredHours,
      double gapHours,
      Map<String, LimitJson> limits,
      List<ExcursionJson> excursions) {}

  public HistoryRoutes(
      Register register,
      CalibratedReadings calibrated,
      ContainerHistory history,
      ContainerRequests requests,
      ZoneId zone,
      @Nullable Site site) {
    this.register = register;
    this.calibrated = calibrated;
    this.history = history;
    this.requests = requests;
    this.zone = zone;
    this.site = site;
  }

  public void add(RoutesConfig routes) {
    routes.get(
        "/api/containers/{id}/readings",
        ctx -> {
          Container container = requests.container(ctx);
          readings(ctx, container.id(), (span, points) -> history.series(container, span, points));
        });
    routes.get("/api/room", ctx -> readings(ctx, ContainerId.ROOM, history::roomSeries));
    routes.get("/api/containers/{id}/heat", this::heat);
    routes.get("/api/containers/{id}/light", this::light);
    routes.get("/api/containers/{id}/band", this::band);
  }

  private Span span(Context ctx, ContainerId id) {
    Span span = requests.span(ctx, id);
    if (span.length().toDays() > LONGEST_DAYS) {
      throw new InvalidInput("from", "must lie at most " + LONGEST_DAYS + " days before to");
    }
    return span;
  }

  /** Creates the downsampled series of a span. */
  private interface SeriesSource {
    Map<Quantity, List<Downsampled.Point>> series(Span span, int points);
  }

  private void readings(Context ctx, ContainerId id, SeriesSource source) {
    Span span = span(ctx, id);
    int points = Params.whole(ctx, "points", DEFAULT_POINTS, 1, MOST_POINTS);
    Map<String, Object> answer = new LinkedHashMap<>();
    answer.put("container", id.value());
    answer.put("from", span.from());
    answer.put("to", span.to());
    source
        .series(span, points)
        .forEach((quantity, thinned) -> answer.put(quantity.key(), SeriesJson.of(thinned)));
    ctx.json(answer);
  }

  private void heat(Context ctx) {
    Container container = requests.container(ctx);
    Span span = span(ctx, container.id());
    Double base = Params.number(ctx, "base", -20, 60, "°C");
    Double ceiling = Params.number(ctx, "ceiling", -20, 80, "°C");
    HeatRule rule =
        Params.heatRule(
            base == null ? container.settings().baseC() : base,
            ceiling == null ? container.settings().ceilingC() : ceiling);
    if (span.length().toDays() > MOST_DAYS) {
      throw new InvalidInput(
          "from", "must lie at most " + MOST_DAYS + " days before to, because each day is listed");
    }
    HeatSum sum = history.heat(container, span, rule);
    double high = container.band().temperatureHighC();
    SensorError sensor =
        history
            .histogram(container, span)
            .sensorError(rule, calibrated.temperatureErrorC(container.id(), span));
    ctx.json(
        new HeatAnswer(
            span.from(),
            span.to(),
            rule.baseC(),
            rule.ceilingC(),
            sum.degreeHours(),
            sum.coveredHours(),
            sum.gapHours(),
            sum.lower(),
            sum.upper(rule, high),
            sensor.either(),
            Math.max(0, sum.degreeHours() - sensor.less()),
            sum.degreeHours() + sensor.more(),
            byDay(container, span, rule, high)));
  }

  private List<DayJson> byDay(Container container, Span span, HeatRule rule, double high) {
    List<DayJson> days = new ArrayList<>();
    history
        .heatByDay(container, span, rule, zone)
        .forEach(
            (day, sum) ->
                days.add(
                    new DayJson(
                        day,
                        sum.degreeHours(),
                        sum.coveredHours(),
                        sum.gapHours(),
                        sum.lower(),
                        sum.upper(rule, high))));
    return days;
  }

  private void light(Context ctx) {
    Container container = requests.container(ctx);
    Span span = span(ctx, container.id());
    Double asked = Params.number(ctx, "limit", 0, 100_000, "lux");
    double limit = asked == null ? container.band().lightHighLux() : asked;
    int join = Params.whole(ctx, "joinSeconds", DEFAULT_JOIN_SECONDS, 0, 86_400);
    ContainerHistory.LightSummary summaries =
        history.light(container, span, limit, Duration.ofSeconds(join));
    ctx.json(
        new LightAnswer(
            span.from(),
            span.to(),
            limit,
            join,
            summaries.luxHours(),
            summaries.coveredMs() / MS_PER_HOUR,
            summaries.gapMs() / MS_PER_HOUR,
            lightEvents(summaries, container.id())));
  }

  private List<LightEventJson> lightEvents(ContainerHistory.LightSummary light, ContainerId id) {
    List<LightCause> causes = light.causes(register.openings(id), site);
    List<LightEventJson> events = new ArrayList<>();
    for (int i = 0; i < causes.size(); i++) {
      events.add(lightEvent(light.events().get(i), causes.get(i)));
    }
    return events;
  }

  private static LightEventJson lightEvent(
      ContainerHistory.LightEventDetail detail, LightCause cause) {
    LightEvent event = detail.event();
    return new LightEventJson(
        event.start(),
        event.end(),
        event.peakLux(),
        event.doseLuxHours(),
        cause.kind().key(),
        cause.advice(),
        detail.temperatureChangeC(),
        detail.humidityChangePercent());
  }

  private void band(Context ctx) {
    Container container = requests.container(ctx);
    Span span = span(ctx, container.id());
    Map<String, ContainerHistory.LimitSummary> summaries = new LinkedHashMap<>();
    ContainerHistory.LimitSummary cold = history.cold(container, span);
    long covered = cold.time().coveredMs();
    summaries.put("cold", cold);
    summaries.put("hot", history.hot(container, span));
    summaries.put("light", history.bright(container, span));
    summaries.put("dry", history.dry(container, span));
    Map<String, LimitJson> limits = new LinkedHashMap<>();
    List<ExcursionJson> excursions = new ArrayList<>();
    List<Opening> openings = register.openings(container.id());
    summaries.forEach(
        (kind, limit) -> {
          limits.put(kind, limit(limit));
          List<Opening> explaining = expectedWhileOpen(kind) ? openings : List.of();
          limit.excursions().forEach(detail -> excursions.add(excursion(kind, detail, explaining)));
        });
    excursions.sort(Comparator.comparing(ExcursionJson::start));
    ctx.json(
        new BandAnswer(
            span.from(),
            span.to(),
            covered / MS_PER_HOUR,
            (span.length().toMillis() - covered) / MS_PER_HOUR,
            limits,
            excursions));
  }

  private static LimitJson limit(ContainerHistory.LimitSummary summaries) {
    LimitTime time = summaries.time();
    return new LimitJson(
        summaries.limit().value(),
        time.coveredMs() == 0 ? null : 1 - time.outsideMs() / time.coveredMs(),
        time.outsideMs() / MS_PER_HOUR,
        time.coveredMs() / MS_PER_HOUR);
  }

  /** Whether a limit is expected to be exceeded while the container is open for a check. */
  private static boolean expectedWhileOpen(String kind) {
    return AlertKind.ofKey(kind).filter(AlertKind::expectedWhileOpen).isPresent();
  }

  private static ExcursionJson excursion(
      String kind, ContainerHistory.ExcursionDetail detail, List<Opening> openings) {
    Excursion excursion = detail.excursion();
    return new ExcursionJson(
        kind,
        excursion.start(),
        excursion.end(),
        excursion.hours(),
        excursion.worst(),
        excursion.worstAt(),
        detail.degreeHoursLost(),
        openings.stream().anyMatch(excursion::isWithin));
  }
}
