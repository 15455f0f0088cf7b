package tepidarium.web.sensors;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import tepidarium.container.Container;
import tepidarium.container.Register;
import tepidarium.fault.FaultDecision;
import tepidarium.reading.InputRule;
import tepidarium.reading.InvalidInput;
import tepidarium.reading.SensorId;
import tepidarium.reading.Span;
import tepidarium.rollup.ContainerHistory;
import tepidarium.rollup.FaultHistory;
import tepidarium.web.ContainerRequests;
import tepidarium.web.Params;
import tepidarium.web.Visitor;

/** Routes for the faults of sensors, and the grower's decisions about them. */
public final class FaultRoutes {
  private static final Duration DEFAULT_SPAN = Duration.ofDays(30);
  private static final int MAX_DAYS = 7_500;

  private final Register register;
  private final FaultHistory faults;
  private final ContainerHistory history;
  private final ContainerRequests requests;
  private final SensorViews views;
  private final Clock clock;

  public FaultRoutes(
      Register register,
      FaultHistory faults,
      ContainerHistory history,
      ContainerRequests requests,
      SensorViews views,
      Clock clock) {
    this.register = register;
    this.faults = faults;
    this.history = history;
    this.requests = requests;
    this.views = views;
    this.clock = clock;
  }

  public void add(RoutesConfig routes) {
    routes.get("/api/containers/{id}/faults", this::ofContainer);
    routes.get("/api/sensors/{sensor}/faults", this::ofSensor);
    routes.post("/api/sensors/{sensor}/fault-decisions", this::decide);
  }

  private void ofContainer(Context ctx) {
    Container container = requests.container(ctx);
    Span span = requests.span(ctx, container.id());
    ctx.json(ofContainer(container, span));
  }

  /** Also a part of charts. */
  public Object ofContainer(Container container, Span span) {
    return FaultJson.of(span, faults.ofContainer(container.id(), span));
  }

  private void ofSensor(Context ctx) {
    SensorId sensor = Params.sensorId(ctx);
    views.existing(sensor);
    Instant to = Params.instant(ctx, "to");
    Instant end = to == null ? clock.instant() : to;
    Instant from = Params.instant(ctx, "from");
    Instant start = from == null ? end.minus(DEFAULT_SPAN) : from;
    if (start.isAfter(end)) {
      throw InvalidInput.order();
    }
    Span span = new Span(start, end);
    if (span.length().toDays() > MAX_DAYS) {
      throw InvalidInput.span(MAX_DAYS);
    }
    ctx.json(FaultJson.of(span, faults.ofSensor(sensor, span)));
  }

  private void decide(Context ctx) {
    SensorId sensor = Params.sensorId(ctx);
    views.existing(sensor);
    FaultDecision decision =
        Params.body(ctx, FaultJson.DecisionRequest.class)
            .decision(sensor, Visitor.of(ctx), clock.instant());
    if (decision.from().isBefore(history.rawFrom())) {
      throw new InvalidInput(
          "from",
          "must not lie before "
              + history.rawFrom()
              + ": the readings before then have been deleted, so their sums can no longer change",
          InputRule.READINGS_DELETED.with(history.rawFrom()));
    }
    register.decide(decision);
    views.faultsDecided(sensor);
    Span span = new Span(decision.from(), decision.to().plusMillis(1));
    ctx.json(FaultJson.of(span, faults.ofSensor(sensor, span)));
  }
}
