package tepidarium.web.history;

import com.fasterxml.jackson.annotation.JsonUnwrapped;
import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import tepidarium.container.Container;
import tepidarium.heat.HeatRule;
import tepidarium.heat.HeatSum;
import tepidarium.heat.SensorError;
import tepidarium.reading.InputRule;
import tepidarium.reading.InvalidInput;
import tepidarium.reading.Quantity;
import tepidarium.reading.Span;
import tepidarium.rollup.ContainerHistory;
import tepidarium.rollup.FaultHistory;
import tepidarium.web.ContainerRequests;
import tepidarium.web.HeatJson;
import tepidarium.web.LeftOutJson;
import tepidarium.web.Params;

/** Route for the heat of a container. */
public final class HeatRoutes {
  private static final int MAX_DAYS = 4_000;

  private final ContainerHistory history;
  private final FaultHistory faults;
  private final ContainerRequests requests;
  private final ZoneId zone;

  record DayJson(
      LocalDate day,
      double degreeHours,
      double coveredHours,
      double gapHours,
      double lower,
      double upper) {}

  record HeatAnswer(
      @JsonUnwrapped HeatJson heat,
      double base,
      @Nullable Double ceiling,
      List<LeftOutJson> leftOut,
      List<DayJson> byDay) {}

  public HeatRoutes(
      ContainerHistory history, FaultHistory faults, ContainerRequests requests, ZoneId zone) {
    this.history = history;
    this.faults = faults;
    this.requests = requests;
    this.zone = zone;
  }

  public void add(RoutesConfig routes) {
    routes.get("/api/containers/{id}/heat", this::heat);
  }

  private void heat(Context ctx) {
    Container container = requests.container(ctx);
    Span span = requests.span(ctx, container.id());
    Double base = Params.number(ctx, "base", -20, 60, "°C");
    Double ceiling = Params.number(ctx, "ceiling", -20, 80, "°C");
    HeatRule rule =
        Params.heatRule(
            base == null ? container.settings().baseC() : base,
            ceiling == null ? container.settings().ceilingC() : ceiling);
    ctx.json(answer(container, span, rule));
  }

  /** Since the first reading of the container, by its own rule. */
  HeatAnswer sinceBeginning(Container container) {
    Span span = requests.span(container.id(), null, null);
    return answer(container, span, HeatRule.of(container.settings()));
  }

  private HeatAnswer answer(Container container, Span span, HeatRule rule) {
    if (span.length().toDays() > MAX_DAYS) {
      throw new InvalidInput(
          "from",
          "must lie at most " + MAX_DAYS + " days before to, because each day is listed",
          InputRule.SPAN.with(MAX_DAYS));
    }
    HeatSum sum = history.heat(container, span, rule);
    SensorError sensor = history.sensorError(container, span, rule);
    return new HeatAnswer(
        HeatJson.of(span, sum, rule, container, sensor),
        rule.baseC(),
        rule.ceilingC(),
        LeftOutJson.of(faults.leftOut(container.id(), span, Quantity.TEMPERATURE)),
        byDay(container, span, rule));
  }

  private List<DayJson> byDay(Container container, Span span, HeatRule rule) {
    double high = container.band().temperatureHighC();
    List<DayJson> days = new ArrayList<>();
    history
        .heatByDay(container, span, rule, zone)
        .forEach(
            (day, sum) ->
                days.add(
                    new DayJson(
                        day,
                        sum.degreeHours(),
                        sum.coveredHours(),
                        sum.gapHours(),
                        sum.lower(),
                        sum.upper(rule, high))));
    return days;
  }
}
