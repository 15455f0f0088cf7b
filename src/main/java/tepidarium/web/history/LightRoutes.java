package tepidarium.web.history;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import tepidarium.container.Container;
import tepidarium.container.ContainerId;
import tepidarium.container.Register;
import tepidarium.light.LightCause;
import tepidarium.light.LightEvent;
import tepidarium.light.Site;
import tepidarium.reading.Quantity;
import tepidarium.reading.Span;
import tepidarium.rollup.ContainerHistory;
import tepidarium.rollup.FaultHistory;
import tepidarium.web.ContainerRequests;
import tepidarium.web.LeftOutJson;
import tepidarium.web.Params;

/** Route for the light inside a container. */
public final class LightRoutes {
  private static final int DEFAULT_JOIN_SECONDS = 120;
  private static final double MS_PER_HOUR = 3_600_000.0;

  private final Register register;
  private final ContainerHistory history;
  private final FaultHistory faults;
  private final ContainerRequests requests;
  private final @Nullable Site site;

  record LightEventJson(
      Instant start,
      @Nullable Instant end,
      double peakLux,
      double doseLuxHours,
      String kind,
      String advice,
      String sign,
      @Nullable Double sunElevation,
      @Nullable String sunQuarter,
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
      List<LeftOutJson> leftOut,
      List<LightEventJson> events) {}

  public LightRoutes(
      Register register,
      ContainerHistory history,
      FaultHistory faults,
      ContainerRequests requests,
      @Nullable Site site) {
    this.register = register;
    this.history = history;
    this.faults = faults;
    this.requests = requests;
    this.site = site;
  }

  public void add(RoutesConfig routes) {
    routes.get("/api/containers/{id}/light", this::light);
  }

  private void light(Context ctx) {
    Container container = requests.container(ctx);
    Span span = requests.span(ctx, container.id());
    Double asked = Params.number(ctx, "limit", 0, 100_000, "lux");
    double limit = asked == null ? container.band().lightHighLux() : asked;
    int join = Params.whole(ctx, "joinSeconds", DEFAULT_JOIN_SECONDS, 0, 86_400);
    ctx.json(answer(container, span, limit, join));
  }

  /** Above the limit of the container's band. */
  LightAnswer answer(Container container, Span span) {
    return answer(container, span, container.band().lightHighLux(), DEFAULT_JOIN_SECONDS);
  }

  private LightAnswer answer(Container container, Span span, double limit, int join) {
    ContainerHistory.LightSummary summaries =
        history.light(container, span, limit, Duration.ofSeconds(join));
    return new LightAnswer(
        span.from(),
        span.to(),
        limit,
        join,
        summaries.luxHours(),
        summaries.coveredMs() / MS_PER_HOUR,
        summaries.gapMs() / MS_PER_HOUR,
        LeftOutJson.of(faults.leftOut(container.id(), span, Quantity.LIGHT)),
        lightEvents(summaries, container.id()));
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
        cause.sign().key(),
        cause.sunElevationDegrees(),
        cause.sunQuarter(),
        detail.temperatureChangeC(),
        detail.humidityChangePercent());
  }
}
