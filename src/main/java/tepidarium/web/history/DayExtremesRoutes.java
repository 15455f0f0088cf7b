package tepidarium.web.history;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.time.format.DateTimeParseException;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import tepidarium.container.Container;
import tepidarium.heat.DayEstimates;
import tepidarium.heat.DayExtremes;
import tepidarium.heat.DayExtremesStore;
import tepidarium.heat.HeatRule;
import tepidarium.heat.HeatSum;
import tepidarium.reading.InputRule;
import tepidarium.reading.InvalidInput;
import tepidarium.reading.Reading;
import tepidarium.reading.Span;
import tepidarium.rollup.ContainerHistory;
import tepidarium.web.ContainerRequests;
import tepidarium.web.NotFound;
import tepidarium.web.Params;

/**
 * Routes for daily lowest and highest temperatures entered by hand, and the heat estimated from
 * them.
 */
public final class DayExtremesRoutes {
  private static final int MAX_DAYS = 4_000;
  private static final String METHOD = "single sine";

  private final ContainerHistory history;
  private final ContainerRequests requests;
  private final Clock clock;
  private final ZoneId zone;
  private final DayExtremesStore store;

  record DayRequest(@Nullable Double min, @Nullable Double max) {}

  record DayJson(
      LocalDate day,
      double min,
      double max,
      double estimate,
      @Nullable Double measured,
      @Nullable Double difference) {
    static DayJson of(DayEstimates.Day day) {
      DayExtremes entered = day.entered();
      return new DayJson(
          entered.day(),
          entered.minC(),
          entered.maxC(),
          day.estimate(),
          day.measured(),
          day.difference());
    }
  }

  record Answer(
      String container,
      String timeZone,
      String method,
      double base,
      @Nullable Double ceiling,
      double unmeasured,
      int unmeasuredDays,
      int bothDays,
      @Nullable Double meanDifference,
      List<DayJson> days) {}

  public DayExtremesRoutes(
      ContainerHistory history,
      DayExtremesStore store,
      ContainerRequests requests,
      Clock clock,
      ZoneId zone) {
    this.history = history;
    this.store = store;
    this.requests = requests;
    this.clock = clock;
    this.zone = zone;
  }

  public void add(RoutesConfig routes) {
    routes.get("/api/containers/{id}/day-extremes", this::list);
    routes.put("/api/containers/{id}/day-extremes/{day}", this::put);
    routes.delete("/api/containers/{id}/day-extremes/{day}", this::remove);
  }

  private void list(Context ctx) {
    Container container = requests.container(ctx);
    ctx.json(answer(container));
  }

  private Answer answer(Container container) {
    HeatRule rule = HeatRule.of(container.settings());
    List<DayExtremes> entered = store.days(container.id());
    DayEstimates estimates =
        DayEstimates.of(entered, measured(container, rule, entered), rule, zone);
    var difference = estimates.meanDifference();
    return new Answer(
        container.id().value(),
        zone.getId(),
        METHOD,
        rule.baseC(),
        rule.ceilingC(),
        estimates.unmeasured(),
        entered.size() - estimates.both(),
        estimates.both(),
        difference.isPresent() ? difference.getAsDouble() : null,
        estimates.days().stream().map(DayJson::of).toList());
  }

  private Map<LocalDate, HeatSum> measured(
      Container container, HeatRule rule, List<DayExtremes> entered) {
    if (entered.isEmpty()) {
      return Map.of();
    }
    Instant from = start(entered.get(0).day());
    Instant to = start(entered.get(entered.size() - 1).day().plusDays(1));
    Span whole = new Span(from, to);
    Instant now = clock.instant();
    return history
        .extent(container.id(), now)
        .map(whole::within)
        .filter(span -> span.from().isBefore(span.to()))
        .map(span -> history.heatByDay(container, span, rule, zone))
        .orElse(Map.of());
  }

  private Instant start(LocalDate day) {
    return day.atStartOfDay(zone).toInstant();
  }

  private void put(Context ctx) {
    Container container = requests.container(ctx);
    LocalDate day = day(ctx);
    DayRequest request = Params.body(ctx, DayRequest.class);
    if (request.min() == null || request.max() == null) {
      throw InvalidInput.missing(request.min() == null ? "min" : "max");
    }
    if (day.isAfter(clock.instant().atZone(zone).toLocalDate())) {
      throw new InvalidInput(
          "day", day + " lies in the future", InputRule.FUTURE.with(clock.instant()));
    }
    if (day.isBefore(Reading.EARLIEST.atZone(ZoneOffset.UTC).toLocalDate())) {
      throw new InvalidInput(
          "day", "must not lie before 2010", InputRule.TOO_EARLY.with(Reading.EARLIEST));
    }
    List<DayExtremes> before = store.days(container.id());
    if (before.size() >= MAX_DAYS
        && before.stream().noneMatch(entered -> entered.day().equals(day))) {
      throw new InvalidInput(
          "day",
          "cannot be added: a container can have " + MAX_DAYS + " days; remove some",
          InputRule.FULL.with(MAX_DAYS));
    }
    store.put(container.id(), new DayExtremes(day, request.min(), request.max()));
    ctx.json(answer(container));
  }

  private void remove(Context ctx) {
    Container container = requests.container(ctx);
    LocalDate day = day(ctx);
    if (!store.remove(container.id(), day)) {
      throw new NotFound("nothing was entered for " + day);
    }
    ctx.status(HttpStatus.NO_CONTENT);
  }

  private static LocalDate day(Context ctx) {
    String text = ctx.pathParam("day");
    try {
      return LocalDate.parse(text);
    } catch (DateTimeParseException e) {
      throw new InvalidInput(
          "day",
          "must be a date like 2026-03-01, not \"" + Params.shown(text) + '"',
          InputRule.INSTANT.with(Params.shown(text)));
    }
  }
}
