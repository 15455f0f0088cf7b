package tepidarium.web.history;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.jspecify.annotations.Nullable;
import tepidarium.calibration.CalibrationSession;
import tepidarium.calibration.QuantityCorrection;
import tepidarium.container.Container;
import tepidarium.container.Placement;
import tepidarium.container.Register;
import tepidarium.germination.Act;
import tepidarium.germination.GroupState;
import tepidarium.germination.Sowing;
import tepidarium.germination.SowingFinder;
import tepidarium.germination.SowingTimeline;
import tepidarium.reading.Quantity;
import tepidarium.reading.SensorId;
import tepidarium.reading.Span;
import tepidarium.web.ContainerRequests;

/**
 * Route for what people did with a container at one instant: placed and removed sensors, calibrated
 * them, checked seeds. Charts mark these instants.
 */
public final class EventRoutes {
  private final Register register;
  private final SowingFinder sowings;
  private final ContainerRequests requests;

  /** An event; a field that does not belong to its kind is null. */
  record EventJson(
      String kind,
      Instant at,
      @Nullable String sensor,
      @Nullable String quantity,
      @Nullable Long sowing,
      @Nullable String sowingName,
      @Nullable String group,
      @Nullable Integer germinated) {
    static EventJson ofSensor(String kind, Instant at, SensorId sensor) {
      return new EventJson(kind, at, sensor.name(), null, null, null, null, null);
    }

    static EventJson calibrated(Instant at, SensorId sensor, Quantity quantity) {
      return new EventJson("calibrated", at, sensor.name(), quantity.key(), null, null, null, null);
    }

    static EventJson checked(Instant at, SowingTimeline timeline, Act.Checked check) {
      return new EventJson(
          "checked",
          at,
          null,
          null,
          timeline.first().sowing(),
          timeline.name(),
          check.group().toString(),
          check.germinated());
    }
  }

  record EventsAnswer(Instant from, Instant to, List<EventJson> events) {}

  public EventRoutes(Register register, SowingFinder sowings, ContainerRequests requests) {
    this.register = register;
    this.sowings = sowings;
    this.requests = requests;
  }

  public void add(RoutesConfig routes) {
    routes.get("/api/containers/{id}/events", this::list);
  }

  private void list(Context ctx) {
    Container container = requests.container(ctx);
    ctx.json(answer(container, requests.span(ctx, container.id())));
  }

  EventsAnswer answer(Container container, Span span) {
    List<EventJson> events = new ArrayList<>();
    addSensors(events, container);
    addChecks(events, container);
    List<EventJson> inSpan =
        events.stream()
            .filter(one -> !one.at().isBefore(span.from()) && !one.at().isAfter(span.to()))
            .distinct()
            .sorted(Comparator.comparing(EventJson::at))
            .toList();
    return new EventsAnswer(span.from(), span.to(), inSpan);
  }

  /** A sensor is often calibrated outside of the container, so each session counts. */
  private void addSensors(List<EventJson> events, Container container) {
    for (Placement placement : register.placementsIn(container.id())) {
      SensorId sensor = placement.sensor();
      events.add(EventJson.ofSensor("placed", placement.from(), sensor));
      Instant until = placement.until();
      if (until != null) {
        events.add(EventJson.ofSensor("removed", until, sensor));
      }
      register
          .correction(sensor)
          .dated()
          .forEach((quantity, correction) -> addSessions(events, sensor, quantity, correction));
    }
  }

  private static void addSessions(
      List<EventJson> events, SensorId sensor, Quantity quantity, QuantityCorrection correction) {
    for (CalibrationSession session : correction.sessions()) {
      events.add(EventJson.calibrated(session.at(), sensor, quantity));
    }
  }

  private void addChecks(List<EventJson> events, Container container) {
    for (Sowing sowing : sowings.all()) {
      SowingTimeline timeline = sowings.timeline(sowing);
      for (SowingTimeline.Step step : timeline.steps()) {
        if (step.entry().act() instanceof Act.Checked check) {
          GroupState group = step.after().get(check.group());
          if (group != null && group.container().equals(container.id())) {
            events.add(EventJson.checked(step.entry().at(), timeline, check));
          }
        }
      }
    }
  }
}
