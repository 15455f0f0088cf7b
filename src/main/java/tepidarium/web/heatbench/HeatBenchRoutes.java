package tepidarium.web.heatbench;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import tepidarium.container.Container;
import tepidarium.container.ContainerId;
import tepidarium.container.Register;
import tepidarium.heat.HeatBench;
import tepidarium.heat.HeatBench.Side;
import tepidarium.heat.HeatRule;
import tepidarium.heat.LocalHours;
import tepidarium.history.CalibratedReadings;
import tepidarium.reading.InputRule;
import tepidarium.reading.InvalidInput;
import tepidarium.reading.Quantity;
import tepidarium.reading.Span;
import tepidarium.rollup.BenchReader;
import tepidarium.rollup.ContainerHistory;
import tepidarium.rollup.FaultHistory;
import tepidarium.rollup.LeftOut;
import tepidarium.web.ContainerRequests;
import tepidarium.web.Params;

/** Routes for comparing containers or heat sources, and for the trial of a place without seeds. */
public final class HeatBenchRoutes {
  private static final int MAX_SIDES = 8;
  private static final int MAX_DAYS = 1_000;
  private static final int MAX_WATTS = 5_000;
  private static final int MAX_TRIAL_DAYS = 60;
  private static final Duration TRIAL = Duration.ofDays(2);

  private final Register register;
  private final BenchReader reader;
  private final FaultHistory faults;
  private final ContainerRequests requests;
  private final ZoneId zone;

  public HeatBenchRoutes(
      Register register,
      CalibratedReadings calibrated,
      ContainerHistory history,
      FaultHistory faults,
      ContainerRequests requests,
      ZoneId zone) {
    this.register = register;
    this.reader = new BenchReader(register, calibrated, history);
    this.faults = faults;
    this.requests = requests;
    this.zone = zone;
  }

  public void add(RoutesConfig routes) {
    routes.get("/api/compare/heat", this::compare);
    routes.get("/api/containers/{id}/trial", this::trial);
  }

  /** A requested side of the comparison. */
  private record RequestedSide(
      String key, String name, boolean source, List<Container> containers) {}

  private void compare(Context ctx) {
    List<String> containers = Params.names(ctx, "containers");
    List<String> sources = Params.names(ctx, "sources");
    if (containers.isEmpty() == sources.isEmpty()) {
      throw new InvalidInput(
          "name what to compare: either containers=a,b with their ids, or sources=x,y with the"
              + " names of heat sources");
    }
    List<RequestedSide> requested =
        containers.isEmpty()
            ? sources.stream().map(this::source).toList()
            : containers.stream().map(this::container).toList();
    if (requested.size() < 2 || requested.size() > MAX_SIDES) {
      throw new InvalidInput(
          sources.isEmpty() ? "containers" : "sources",
          "must be two to " + MAX_SIDES + " different ones, not " + requested.size(),
          InputRule.COUNT.with(2, MAX_SIDES));
    }
    HeatRule rule = rule(ctx, requested.get(0).containers().get(0));
    Span span = span(ctx, requested);
    LocalHours hours = LocalHours.of(span, zone);
    List<Side> sides = requested.stream().map(one -> side(one, hours, rule)).toList();
    ctx.json(
        HeatBenchJson.of(
            hours.span(),
            zone,
            rule,
            !sources.isEmpty(),
            HeatBench.compare(hours, sides),
            leftOut(requested, hours.span())));
  }

  /** What the temperatures of each side left out because of faults, by its key. */
  private Map<String, List<LeftOut>> leftOut(List<RequestedSide> sides, Span span) {
    Map<String, List<LeftOut>> leftOut = new HashMap<>();
    for (RequestedSide side : sides) {
      side.containers().stream()
          .flatMap(one -> faults.leftOut(one.id(), span, Quantity.TEMPERATURE).stream())
          .reduce(LeftOut::plus)
          .ifPresent(sum -> leftOut.put(side.key(), List.of(sum)));
    }
    return leftOut;
  }

  private RequestedSide container(String name) {
    Container found =
        register.containers().stream()
            .filter(container -> container.id().value().equals(name))
            .findFirst()
            .orElseThrow(
                () ->
                    new InvalidInput(
                        "containers",
                        "names \"" + name + "\", but there is no such container",
                        InputRule.NOT_FOUND.with(name)));
    return new RequestedSide(name, found.name(), false, List.of(found));
  }

  private RequestedSide source(String name) {
    List<Container> found =
        register.containers().stream()
            .filter(container -> name.equalsIgnoreCase(container.settings().heatSource()))
            .toList();
    if (found.isEmpty()) {
      throw new InvalidInput(
          "sources",
          "names \"" + name + "\", but no container has this heat source",
          InputRule.NOT_FOUND.with(name));
    }
    return new RequestedSide(name, name, true, found);
  }

  private Side side(RequestedSide requested, LocalHours hours, HeatRule rule) {
    return new Side(
        requested.key(),
        requested.name(),
        requested.source(),
        requested.containers().stream()
            .map(container -> reader.place(container, hours, rule))
            .toList());
  }

  /**
   * Returns one heat rule for all sides, so that a difference does not come from different
   * settings.
   */
  private static HeatRule rule(Context ctx, Container first) {
    Double base = Params.number(ctx, "base", -20, 60, "°C");
    Double ceiling = Params.number(ctx, "ceiling", -20, 80, "°C");
    return Params.heatRule(
        base == null ? first.settings().baseC() : base,
        ceiling == null ? first.settings().ceilingC() : ceiling);
  }

  /** As values, else from the first reading of any of them to the last moment of any. */
  private Span span(Context ctx, List<RequestedSide> requested) {
    Instant from = Params.instant(ctx, "from");
    Instant to = Params.instant(ctx, "to");
    List<Span> spans = new ArrayList<>();
    for (RequestedSide side : requested) {
      side.containers().forEach(container -> spans.add(requests.span(container.id(), from, to)));
    }
    Instant start = spans.stream().map(Span::from).min(Instant::compareTo).orElseThrow();
    Instant end = spans.stream().map(Span::to).max(Instant::compareTo).orElseThrow();
    Span span = new Span(start, end);
    if (span.length().toDays() > MAX_DAYS) {
      throw InvalidInput.span(MAX_DAYS);
    }
    return span;
  }

  private void trial(Context ctx) {
    Container container = requests.container(ctx);
    Double watts = Params.number(ctx, "watts", 0, MAX_WATTS, "W");
    Span span = trialSpan(ctx, container.id());
    ctx.json(TrialJson.of(container.id(), span, reader.trial(container, span, watts)));
  }

  private Span trialSpan(Context ctx, ContainerId id) {
    Instant from = Params.instant(ctx, "from");
    Span span = requests.span(id, from, Params.instant(ctx, "to"));
    if (span.length().toDays() > MAX_TRIAL_DAYS && from != null) {
      throw new InvalidInput(
          "from",
          "must lie at most " + MAX_TRIAL_DAYS + " days before to: a trial is no longer",
          InputRule.SPAN.with(MAX_TRIAL_DAYS));
    }
    Instant start = span.to().minus(TRIAL);
    return from == null && start.isAfter(span.from()) ? new Span(start, span.to()) : span;
  }
}
