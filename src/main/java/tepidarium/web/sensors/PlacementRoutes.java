package tepidarium.web.sensors;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.time.Clock;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import tepidarium.container.Container;
import tepidarium.container.ContainerId;
import tepidarium.container.Placement;
import tepidarium.container.Register;
import tepidarium.reading.InputRule;
import tepidarium.reading.InvalidInput;
import tepidarium.reading.SensorId;
import tepidarium.rollup.ContainerHistory;
import tepidarium.sensor.PlacementChanges;
import tepidarium.web.Params;
import tepidarium.web.sensors.PlacementChangeJson.ContainerChange;
import tepidarium.web.sensors.PlacementChangeJson.Figures;

/**
 * Routes that move, retire and replace a sensor, and correct its placements. Each answer has the
 * figures of the containers concerned before and after the change.
 */
public final class PlacementRoutes {
  private final Register register;
  private final SensorViews views;
  private final ContainerHistory history;
  private final Clock clock;

  public PlacementRoutes(
      Register register, SensorViews views, ContainerHistory history, Clock clock) {
    this.register = register;
    this.views = views;
    this.history = history;
    this.clock = clock;
  }

  record MoveRequest(@Nullable String container, @Nullable String from) {}

  record RetireRequest(@Nullable String from) {}

  record ReplaceRequest(@Nullable String by, @Nullable String from) {}

  record PlacementRequest(
      @Nullable String container, @Nullable String from, @Nullable String until) {
    Placement placement(SensorId sensor) {
      if (from == null) {
        throw InvalidInput.missing("from");
      }
      Instant start = Params.instant("from", from);
      Instant end = until == null ? null : Params.instant("until", until);
      if (end != null && !end.isAfter(start)) {
        throw new InvalidInput(
            "until", "is " + end + " and must lie after from " + start, InputRule.AFTER.with());
      }
      ContainerId place = ContainerName.read(container);
      if (place == null) {
        throw new InvalidInput(
            "container",
            "is missing. Leave out a placement to remove it",
            InputRule.MISSING.with());
      }
      return new Placement(sensor, place, start, end);
    }
  }

  record CorrectionRequest(@Nullable List<@Nullable PlacementRequest> placements) {}

  public void add(RoutesConfig routes) {
    routes.post("/api/sensors/{sensor}/move", this::move);
    routes.post("/api/sensors/{sensor}/retire", this::retire);
    routes.post("/api/sensors/{sensor}/unretire", this::unretire);
    routes.post("/api/sensors/{sensor}/replace", this::replace);
    routes.put("/api/sensors/{sensor}/placements", this::correct);
  }

  private void move(Context ctx) {
    SensorId sensor = known(Params.sensorId(ctx));
    MoveRequest request = Params.body(ctx, MoveRequest.class);
    ContainerId to = ContainerName.read(request.container());
    Instant now = clock.instant();
    Instant from = instant(request.from(), now);
    List<ContainerChange> figures =
        change(now, () -> Map.of(sensor, changes(sensor, now).moved(to, from)));
    if (to != null) {
      views.change(sensor, details -> details.retired(null));
    }
    answer(ctx, sensor, List.of(), figures);
  }

  private void retire(Context ctx) {
    SensorId sensor = known(Params.sensorId(ctx));
    Instant now = clock.instant();
    Instant from = instant(Params.body(ctx, RetireRequest.class).from(), now);
    List<ContainerChange> figures =
        change(now, () -> Map.of(sensor, changes(sensor, now).retired(from)));
    views.change(sensor, details -> details.retired(from));
    answer(ctx, sensor, List.of(), figures);
  }

  private void unretire(Context ctx) {
    SensorId sensor = known(Params.sensorId(ctx));
    views.change(sensor, details -> details.retired(null));
    answer(ctx, sensor, List.of(), List.of());
  }

  private void replace(Context ctx) {
    SensorId sensor = known(Params.sensorId(ctx));
    ReplaceRequest request = Params.body(ctx, ReplaceRequest.class);
    if (request.by() == null) {
      throw new InvalidInput(
          "by", "is missing. Name the sensor that takes its place", InputRule.MISSING.with());
    }
    SensorId by = known(new SensorId(request.by()));
    if (by.equals(sensor)) {
      throw new InvalidInput(
          "by", "is the same sensor. Name the one that takes its place", InputRule.SAME.with());
    }
    Instant now = clock.instant();
    Instant from = instant(request.from(), now);
    List<ContainerChange> figures =
        change(
            now,
            () -> {
              PlacementChanges old = changes(sensor, now);
              Map<SensorId, List<Placement>> changed = new LinkedHashMap<>();
              changed.put(by, changes(by, now).replacing(old.takenOver(from), from));
              changed.put(sensor, old.retired(from));
              return changed;
            });
    views.change(sensor, details -> details.retired(from));
    views.change(by, details -> details.retired(null));
    answer(ctx, sensor, List.of(by), figures);
  }

  private void correct(Context ctx) {
    SensorId sensor = known(Params.sensorId(ctx));
    List<@Nullable PlacementRequest> requests =
        Params.body(ctx, CorrectionRequest.class).placements();
    if (requests == null) {
      throw InvalidInput.missing("placements");
    }
    List<Placement> wanted = new ArrayList<>();
    for (PlacementRequest request : requests) {
      if (request == null) {
        throw new InvalidInput("placements", "must not contain null");
      }
      wanted.add(request.placement(sensor));
    }
    Instant now = clock.instant();
    List<ContainerChange> figures =
        change(now, () -> Map.of(sensor, changes(sensor, now).corrected(wanted)));
    if (register.placeOf(sensor, now).isPresent()) {
      views.change(sensor, details -> details.retired(null));
    }
    answer(ctx, sensor, List.of(), figures);
  }

  private SensorId known(SensorId sensor) {
    views.existing(sensor);
    return sensor;
  }

  private static Instant instant(@Nullable String from, Instant now) {
    return from == null ? now : Params.instant("from", from);
  }

  private PlacementChanges changes(SensorId sensor, Instant now) {
    return new PlacementChanges(
        sensor, register.placementsOf(sensor), views.firstHeard(sensor), now, this::nameOf);
  }

  private String nameOf(ContainerId id) {
    return register.container(id).map(container -> container.settings().name()).orElse(id.value());
  }

  /** Plans the change to find the containers concerned, then plans and stores it in one step. */
  private List<ContainerChange> change(
      Instant now, Supplier<Map<SensorId, List<Placement>>> change) {
    List<Container> concerned =
        concerned(change.get()).stream()
            .map(id -> register.container(id).orElse(null))
            .filter(Objects::nonNull)
            .toList();
    List<@Nullable Figures> before = new ArrayList<>();
    concerned.forEach(container -> before.add(figures(container, now)));
    register.arrange(change);
    List<ContainerChange> changes = new ArrayList<>();
    for (int i = 0; i < concerned.size(); i++) {
      Container container = concerned.get(i);
      changes.add(
          new ContainerChange(
              container.id().value(),
              container.settings().name(),
              before.get(i),
              figures(container, now)));
    }
    return changes;
  }

  /** The containers in which a placement is added, removed or changed. */
  private Set<ContainerId> concerned(Map<SensorId, List<Placement>> planned) {
    Set<ContainerId> concerned = new LinkedHashSet<>();
    planned.forEach(
        (sensor, placements) -> {
          Set<Placement> old = new HashSet<>(register.placementsOf(sensor));
          Set<Placement> next = new HashSet<>(placements);
          for (Placement placement : register.placementsOf(sensor)) {
            if (!next.contains(placement)) {
              concerned.add(placement.container());
            }
          }
          for (Placement placement : placements) {
            if (!old.contains(placement)) {
              concerned.add(placement.container());
            }
          }
        });
    return concerned;
  }

  private @Nullable Figures figures(Container container, Instant now) {
    return history
        .extent(container.id(), now)
        .map(span -> Figures.of(history.temperatureTotals(container, span)))
        .orElse(null);
  }

  private void answer(
      Context ctx, SensorId sensor, List<SensorId> others, List<ContainerChange> figures) {
    ctx.json(
        new PlacementChangeJson(
            views.existing(sensor), others.stream().map(views::existing).toList(), figures));
  }
}
