package tepidarium.web.history;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import tepidarium.container.Container;
import tepidarium.container.ContainerId;
import tepidarium.history.Downsampled;
import tepidarium.reading.Quantity;
import tepidarium.reading.Span;
import tepidarium.rollup.ContainerHistory;
import tepidarium.rollup.FaultHistory;
import tepidarium.web.ContainerRequests;
import tepidarium.web.LeftOutJson;
import tepidarium.web.Params;

/** Routes for the downsampled readings of a container and of the room. */
public final class SeriesRoutes {
  private static final int MAX_POINTS = 5_000;
  private static final int DEFAULT_POINTS = 500;

  private final ContainerHistory history;
  private final FaultHistory faults;
  private final ContainerRequests requests;

  public SeriesRoutes(ContainerHistory history, FaultHistory faults, ContainerRequests requests) {
    this.history = history;
    this.faults = faults;
    this.requests = requests;
  }

  public void add(RoutesConfig routes) {
    routes.get(
        "/api/containers/{id}/readings",
        ctx -> {
          Container container = requests.container(ctx);
          readings(ctx, container.id(), (span, points) -> history.series(container, span, points));
        });
    routes.get("/api/room", ctx -> readings(ctx, ContainerId.ROOM, history::roomSeries));
  }

  /** Creates the downsampled series of a span. */
  private interface SeriesSource {
    Map<Quantity, List<Downsampled.Point>> series(Span span, int points);
  }

  private void readings(Context ctx, ContainerId id, SeriesSource source) {
    Span span = requests.span(ctx, id);
    ctx.json(answer(id, span, Params.whole(ctx, "points", DEFAULT_POINTS, 1, MAX_POINTS), source));
  }

  Map<String, Object> answer(Container container, Span span, int points) {
    return answer(container.id(), span, points, (of, most) -> history.series(container, of, most));
  }

  private Map<String, Object> answer(ContainerId id, Span span, int points, SeriesSource source) {
    Map<String, Object> answer = new LinkedHashMap<>();
    answer.put("container", id.value());
    answer.put("from", span.from());
    answer.put("to", span.to());
    answer.put("leftOut", LeftOutJson.of(faults.leftOut(id, span, Quantity.values())));
    source
        .series(span, points)
        .forEach((quantity, thinned) -> answer.put(quantity.key(), SeriesJson.of(thinned)));
    return answer;
  }
}
