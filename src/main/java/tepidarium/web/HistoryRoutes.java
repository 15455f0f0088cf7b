package tepidarium.web;

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
import java.util.OptionalDouble;
import org.jspecify.annotations.Nullable;
import tepidarium.alert.AlertKind;
import tepidarium.container.Container;
import tepidarium.container.ContainerId;
import tepidarium.container.Register;
import tepidarium.heat.BandTime;
import tepidarium.heat.DegreeHours;
import tepidarium.heat.Excursion;
import tepidarium.heat.HeatRule;
import tepidarium.heat.HeatSum;
import tepidarium.heat.Limit;
import tepidarium.heat.LostHeat;
import tepidarium.heat.TimeInBand;
import tepidarium.history.History;
import tepidarium.history.Thinned;
import tepidarium.light.LightDose;
import tepidarium.light.LightEvent;
import tepidarium.light.LightEvents;
import tepidarium.reading.Quantity;
import tepidarium.reading.Samples;
import tepidarium.reading.Span;

/** What happened in a container: series, heat, light, and time in band. */
final class HistoryRoutes {
  private static final int MOST_POINTS = 5_000;
  private static final int DEFAULT_POINTS = 500;
  private static final int DEFAULT_JOIN_SECONDS = 120;
  private static final int MOST_DAYS = 4_000;
  private static final double MS_PER_HOUR = 3_600_000.0;

  private final Register register;
  private final History history;
  private final Views views;

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
      List<DayJson> byDay) {}

  record LightEventJson(
      Instant start,
      @Nullable Instant end,
      double peakLux,
      double doseLuxHours,
      String kind,
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
      @Nullable Double degreeHoursLost) {}

  record BandAnswer(
      Instant from,
      Instant to,
      double coveredHours,
      double gapHours,
      Map<String, LimitJson> limits,
      List<ExcursionJson> excursions) {}

  HistoryRoutes(Register register, History history, Views views) {
    this.register = register;
    this.history = history;
    this.views = views;
  }

  void add(RoutesConfig routes) {
    routes.get(
        "/api/containers/{id}/readings",
        ctx -> readings(ctx, views.existing(Params.containerId(ctx)).id()));
    routes.get("/api/room", ctx -> readings(ctx, ContainerId.ROOM));
    routes.get("/api/containers/{id}/heat", this::heat);
    routes.get("/api/containers/{id}/light", this::light);
    routes.get("/api/containers/{id}/band", this::band);
  }

  private Span span(Context ctx, ContainerId id) {
    return views.span(id, Params.instant(ctx, "from"), Params.instant(ctx, "to"));
  }

  private void readings(Context ctx, ContainerId id) {
    Span span = span(ctx, id);
    int points = Params.whole(ctx, "points", DEFAULT_POINTS, 1, MOST_POINTS);
    Map<Quantity, Samples> samples = history.samples(id, span);
    Map<String, Object> answer = new LinkedHashMap<>();
    answer.put("container", id.value());
    answer.put("from", span.from());
    answer.put("to", span.to());
    for (Quantity quantity : Quantity.values()) {
      Samples found = samples.getOrDefault(quantity, Samples.EMPTY);
      answer.put(
          quantity.key(),
          SeriesJson.of(Thinned.of(found, span, points, history.maxGap().toMillis())));
    }
    ctx.json(answer);
  }

  private void heat(Context ctx) {
    Container container = views.existing(Params.containerId(ctx));
    Span span = span(ctx, container.id());
    Double base = Params.number(ctx, "base", -20, 60, "°C");
    Double ceiling = Params.number(ctx, "ceiling", -20, 80, "°C");
    HeatRule rule =
        new HeatRule(
            base == null ? container.settings().baseC() : base,
            ceiling == null ? container.settings().ceilingC() : ceiling);
    Samples temperature = history.samples(container.id(), Quantity.TEMPERATURE, span);
    HeatSum sum = DegreeHours.of(temperature, span, rule, history.maxGap());
    double high = container.band().temperatureHighC();
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
            sum.sensorError(history.temperatureErrorC(container.id(), span)),
            byDay(temperature, span, rule, high)));
  }

  private List<DayJson> byDay(Samples temperature, Span span, HeatRule rule, double high) {
    ZoneId zone = views.zone();
    List<DayJson> days = new ArrayList<>();
    LocalDate day = span.from().atZone(zone).toLocalDate();
    while (day.atStartOfDay(zone).toInstant().isBefore(span.to())) {
      Span whole =
          new Span(
              day.atStartOfDay(zone).toInstant(), day.plusDays(1).atStartOfDay(zone).toInstant());
      HeatSum sum = DegreeHours.of(temperature, whole.within(span), rule, history.maxGap());
      days.add(
          new DayJson(
              day,
              sum.degreeHours(),
              sum.coveredHours(),
              sum.gapHours(),
              sum.lower(),
              sum.upper(rule, high)));
      if (days.size() > MOST_DAYS) {
        throw new BadRequest(
            "a span of more than " + MOST_DAYS + " days has too many days to list");
      }
      day = day.plusDays(1);
    }
    return days;
  }

  private void light(Context ctx) {
    Container container = views.existing(Params.containerId(ctx));
    Span span = span(ctx, container.id());
    Double asked = Params.number(ctx, "limit", 0, 100_000, "lux");
    double limit = asked == null ? container.band().lightHighLux() : asked;
    int join = Params.whole(ctx, "joinSeconds", DEFAULT_JOIN_SECONDS, 0, 86_400);
    Map<Quantity, Samples> samples = history.samples(container.id(), span);
    Samples light = samples.getOrDefault(Quantity.LIGHT, Samples.EMPTY);
    Samples inside = light.between(span.fromMs(), span.toMs() + 1);
    LightDose dose = LightDose.of(light, span, history.maxGap());
    List<LightEventJson> events =
        LightEvents.of(inside, limit, history.maxGap(), Duration.ofSeconds(join)).stream()
            .map(event -> lightEvent(event, container.id(), samples))
            .toList();
    ctx.json(
        new LightAnswer(
            span.from(),
            span.to(),
            limit,
            join,
            dose.luxHours(),
            dose.coveredMs() / MS_PER_HOUR,
            dose.gapMs() / MS_PER_HOUR,
            events));
  }

  private LightEventJson lightEvent(
      LightEvent event, ContainerId id, Map<Quantity, Samples> samples) {
    Span stretch = new Span(event.start(), event.lastSeen().plusMillis(1));
    boolean opening = !register.openings(id, stretch).isEmpty();
    return new LightEventJson(
        event.start(),
        event.end(),
        event.peakLux(),
        event.doseLuxHours(),
        opening ? "opening" : "leak",
        change(samples.getOrDefault(Quantity.TEMPERATURE, Samples.EMPTY), event),
        change(samples.getOrDefault(Quantity.HUMIDITY, Samples.EMPTY), event));
  }

  /** How much a quantity changed from the event's start to its end; null where not known. */
  private @Nullable Double change(Samples samples, LightEvent event) {
    long gapMs = history.maxGap().toMillis();
    OptionalDouble before = samples.valueAt(event.start().toEpochMilli(), gapMs);
    OptionalDouble after = samples.valueAt(event.lastSeen().toEpochMilli(), gapMs);
    return before.isPresent() && after.isPresent()
        ? after.getAsDouble() - before.getAsDouble()
        : null;
  }

  private void band(Context ctx) {
    Container container = views.existing(Params.containerId(ctx));
    Span span = span(ctx, container.id());
    Map<Quantity, Samples> samples = history.samples(container.id(), span);
    Map<String, LimitJson> limits = new LinkedHashMap<>();
    List<ExcursionJson> excursions = new ArrayList<>();
    HeatSum covered =
        DegreeHours.of(
            samples.getOrDefault(Quantity.TEMPERATURE, Samples.EMPTY),
            span,
            rule(container),
            history.maxGap());
    for (AlertKind kind : Views.bandKinds()) {
      Limit limit = kind.limit(container.band(), Duration.ZERO);
      Samples found =
          kind.quantity() == null
              ? Samples.EMPTY
              : samples.getOrDefault(kind.quantity(), Samples.EMPTY);
      BandTime time =
          TimeInBand.of(
              found, span, limit, history.maxGap(), Duration.ofSeconds(DEFAULT_JOIN_SECONDS));
      limits.put(kind.key(), limit(limit, time));
      for (Excursion excursion : time.excursions()) {
        excursions.add(excursion(kind, excursion, container, found, span));
      }
    }
    excursions.sort(Comparator.comparing(ExcursionJson::start));
    ctx.json(
        new BandAnswer(
            span.from(),
            span.to(),
            covered.coveredHours(),
            covered.gapHours(),
            limits,
            excursions));
  }

  private static LimitJson limit(Limit limit, BandTime time) {
    OptionalDouble inside = time.fractionInside();
    return new LimitJson(
        limit.value(),
        inside.isPresent() ? inside.getAsDouble() : null,
        time.outsideHours(),
        time.coveredMs() / MS_PER_HOUR);
  }

  private ExcursionJson excursion(
      AlertKind kind, Excursion excursion, Container container, Samples samples, Span span) {
    Double lost = null;
    if (kind == AlertKind.COLD) {
      Instant end = excursion.end() == null ? span.to() : excursion.end();
      lost =
          LostHeat.of(
              samples,
              new Span(excursion.start(), end),
              rule(container),
              container.band().temperatureLowC(),
              history.maxGap());
    }
    return new ExcursionJson(
        kind.key(),
        excursion.start(),
        excursion.end(),
        excursion.hours(),
        excursion.worst(),
        excursion.worstAt(),
        lost);
  }

  private static HeatRule rule(Container container) {
    return new HeatRule(container.settings().baseC(), container.settings().ceilingC());
  }
}
