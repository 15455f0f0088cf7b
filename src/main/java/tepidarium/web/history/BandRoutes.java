package tepidarium.web.history;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import tepidarium.alert.AlertKind;
import tepidarium.container.Container;
import tepidarium.container.Opening;
import tepidarium.container.Register;
import tepidarium.heat.Excursion;
import tepidarium.heat.Limit;
import tepidarium.reading.Quantity;
import tepidarium.reading.Span;
import tepidarium.rollup.BandHistory;
import tepidarium.rollup.ContainerHistory;
import tepidarium.rollup.FaultHistory;
import tepidarium.rollup.InsideBounds;
import tepidarium.rollup.LimitTime;
import tepidarium.web.ContainerRequests;
import tepidarium.web.LeftOutJson;

/** Route for the time in band of a container, and its excursions. */
public final class BandRoutes {
  private static final double MS_PER_HOUR = 3_600_000.0;

  /** The quantities that have limits. */
  private static final Quantity[] LIMITED = {
    Quantity.TEMPERATURE, Quantity.LIGHT, Quantity.HUMIDITY
  };

  private final Register register;
  private final ContainerHistory history;
  private final FaultHistory faults;
  private final ContainerRequests requests;

  record LimitJson(
      double limit,
      @Nullable Double fractionInside,
      @Nullable Double sensorLower,
      @Nullable Double sensorUpper,
      double hoursOutside,
      double coveredHours) {}

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
      List<LeftOutJson> leftOut,
      Map<String, LimitJson> limits,
      List<ExcursionJson> excursions) {}

  public BandRoutes(
      Register register,
      ContainerHistory history,
      FaultHistory faults,
      ContainerRequests requests) {
    this.register = register;
    this.history = history;
    this.faults = faults;
    this.requests = requests;
  }

  public void add(RoutesConfig routes) {
    routes.get("/api/containers/{id}/band", this::band);
  }

  private void band(Context ctx) {
    Container container = requests.container(ctx);
    ctx.json(answer(container, requests.span(ctx, container.id())));
  }

  BandAnswer answer(Container container, Span span) {
    BandHistory.AllLimits all = history.band().allLimits(container, span);
    long covered = all.cold().time().coveredMs();
    Map<String, BandHistory.LimitSummary> summaries = new LinkedHashMap<>();
    summaries.put("cold", all.cold());
    summaries.put("hot", all.hot());
    summaries.put("light", all.bright());
    summaries.put("dry", all.dry());
    Map<String, LimitJson> limits = new LinkedHashMap<>();
    List<ExcursionJson> excursions = new ArrayList<>();
    List<Opening> openings = register.openings(container.id());
    summaries.forEach(
        (kind, limit) -> {
          limits.put(kind, limit(limit, bounds(container, span, kind, limit.limit())));
          List<Opening> explaining = expectedWhileOpen(kind) ? openings : List.of();
          limit.excursions().forEach(detail -> excursions.add(excursion(kind, detail, explaining)));
        });
    excursions.sort(Comparator.comparing(ExcursionJson::start));
    return new BandAnswer(
        span.from(),
        span.to(),
        covered / MS_PER_HOUR,
        (span.length().toMillis() - covered) / MS_PER_HOUR,
        LeftOutJson.of(faults.leftOut(container.id(), span, LIMITED)),
        limits,
        excursions);
  }

  /** Null without covered time. */
  private @Nullable InsideBounds bounds(Container container, Span span, String kind, Limit limit) {
    Quantity quantity = AlertKind.ofKey(kind).map(AlertKind::quantity).orElseThrow();
    return history.band().insideBounds(container, span, quantity, limit).orElse(null);
  }

  private static LimitJson limit(
      BandHistory.LimitSummary summaries, @Nullable InsideBounds bounds) {
    LimitTime time = summaries.time();
    Double inside = time.coveredMs() == 0 ? null : 1 - time.outsideMs() / time.coveredMs();
    return new LimitJson(
        summaries.limit().value(),
        inside,
        inside == null || bounds == null ? null : Math.min(inside, bounds.lower()),
        inside == null || bounds == null ? null : Math.max(inside, bounds.upper()),
        time.outsideMs() / MS_PER_HOUR,
        time.coveredMs() / MS_PER_HOUR);
  }

  /** Whether a limit is expected to be exceeded while the container is open for a check. */
  private static boolean expectedWhileOpen(String kind) {
    return AlertKind.ofKey(kind).filter(AlertKind::expectedWhileOpen).isPresent();
  }

  private static ExcursionJson excursion(
      String kind, BandHistory.ExcursionDetail detail, List<Opening> openings) {
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
