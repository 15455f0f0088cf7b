package tepidarium.web.history;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.util.List;
import java.util.Map;
import tepidarium.container.Container;
import tepidarium.reading.InputRule;
import tepidarium.reading.InvalidInput;
import tepidarium.reading.Span;
import tepidarium.web.ContainerRequests;
import tepidarium.web.Params;

/**
 * Route for all that charts of several containers show, in one answer. Each part is the answer that
 * the route of one container gives.
 */
public final class ChartRoutes {
  /** Bounds the size of an answer, together with {@link #MAX_POINTS}. */
  private static final int MAX_CONTAINERS = 10;

  private static final int MAX_POINTS = 1_000;
  private static final int DEFAULT_POINTS = 300;

  /** Creates one part of the answer for a container. */
  public interface Part {
    Object of(Container container, Span span);
  }

  private final ContainerRequests requests;
  private final SeriesRoutes series;
  private final HeatRoutes heat;
  private final LightRoutes light;
  private final BandRoutes band;
  private final EventRoutes events;
  private final Part openings;
  private final Part faults;

  record ChartJson(
      String container,
      Map<String, Object> readings,
      LightRoutes.LightAnswer light,
      BandRoutes.BandAnswer band,
      Object openings,
      EventRoutes.EventsAnswer events,
      Object faults,
      HeatRoutes.HeatAnswer heat) {}

  public ChartRoutes(
      ContainerRequests requests,
      SeriesRoutes series,
      HeatRoutes heat,
      LightRoutes light,
      BandRoutes band,
      EventRoutes events,
      Part openings,
      Part faults) {
    this.requests = requests;
    this.series = series;
    this.heat = heat;
    this.light = light;
    this.band = band;
    this.events = events;
    this.openings = openings;
    this.faults = faults;
  }

  public void add(RoutesConfig routes) {
    routes.get("/api/charts", this::charts);
  }

  private void charts(Context ctx) {
    List<String> ids = Params.names(ctx, "containers");
    if (ids.isEmpty() || ids.size() > MAX_CONTAINERS) {
      throw new InvalidInput(
          "containers",
          "must be one to " + MAX_CONTAINERS + " ids, not " + ids.size(),
          InputRule.COUNT.with(1, MAX_CONTAINERS));
    }
    int points = Params.whole(ctx, "points", DEFAULT_POINTS, 1, MAX_POINTS);
    List<Container> containers = ids.stream().map(requests::existing).toList();
    ctx.json(
        containers.stream()
            .map(container -> chart(container, requests.span(ctx, container.id()), points))
            .toList());
  }

  private ChartJson chart(Container container, Span span, int points) {
    return new ChartJson(
        container.id().value(),
        series.answer(container, span, points),
        light.answer(container, span),
        band.answer(container, span),
        openings.of(container, span),
        events.answer(container, span),
        faults.of(container, span),
        heat.sinceBeginning(container));
  }
}
