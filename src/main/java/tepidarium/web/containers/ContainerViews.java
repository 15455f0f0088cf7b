package tepidarium.web.containers;

import java.time.Clock;
import java.time.Instant;
import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import tepidarium.container.Container;
import tepidarium.container.ContainerId;
import tepidarium.container.Register;
import tepidarium.live.HeatSoFar;
import tepidarium.live.LatestValues;
import tepidarium.live.Watch;
import tepidarium.reading.Quantity;
import tepidarium.series.StoreException;
import tepidarium.web.HeatJson;
import tepidarium.web.alerts.AlertViews;

/** Creates the JSON of containers in their present state. Thread-safe. */
public final class ContainerViews {
  private final Register register;
  private final LatestValues latestValues;
  private final HeatSoFar heatSoFar;
  private final Watch watch;
  private final AlertViews alerts;
  private final Clock clock;

  public ContainerViews(
      Register register,
      LatestValues latestValues,
      HeatSoFar heatSoFar,
      Watch watch,
      AlertViews alerts,
      Clock clock) {
    this.register = register;
    this.latestValues = latestValues;
    this.heatSoFar = heatSoFar;
    this.watch = watch;
    this.alerts = alerts;
    this.clock = clock;
  }

  public ContainerJson container(Container container) {
    ContainerId id = container.id();
    Instant now = clock.instant();
    return new ContainerJson(
        id.value(),
        container.name(),
        ContainerJson.kindOf(container),
        container.settings().heatSource(),
        container.settings().room(),
        container.settings().baseC(),
        container.settings().ceilingC(),
        ContainerJson.BandLimits.of(container.band()),
        container.createdAt(),
        register.placementsIn(id).stream()
            .filter(placement -> placement.holdsAt(now))
            .map(placement -> placement.sensor().name())
            .toList(),
        latest(id, now),
        limits(id),
        watch.openAlerts(id).stream().map(alerts::alert).toList(),
        heat(container, now),
        register.openingAt(id, now).map(o -> ContainerJson.SpanJson.of(o.span())).orElse(null));
  }

  private Map<String, ContainerJson.@Nullable LatestJson> latest(ContainerId id, Instant now) {
    Map<String, ContainerJson.@Nullable LatestJson> latest = new LinkedHashMap<>();
    for (Quantity quantity : Quantity.values()) {
      latest.put(
          quantity.key(),
          latestValues
              .of(id, quantity, now)
              .map(v -> new ContainerJson.LatestJson(v.value(), v.at(), v.sensor().name()))
              .orElse(null));
    }
    return latest;
  }

  private Map<String, String> limits(ContainerId id) {
    Map<String, String> limits = new LinkedHashMap<>();
    watch
        .states(id)
        .forEach((kind, state) -> limits.put(kind.key(), state.name().toLowerCase(Locale.ROOT)));
    return limits;
  }

  /** Null if there is no heat yet, or while the readings store is unavailable. */
  private @Nullable HeatJson heat(Container container, Instant now) {
    try {
      return addedUp(container, now);
    } catch (StoreException e) {
      return null;
    }
  }

  private @Nullable HeatJson addedUp(Container container, Instant now) {
    return heatSoFar
        .of(container, now)
        .map(
            sum ->
                HeatJson.of(
                    sum.span(),
                    sum.heat(),
                    sum.rule(),
                    container,
                    heatSoFar.sensorError(container, sum)))
        .orElse(null);
  }
}
