package tepidarium.web;

import java.time.Clock;
import java.time.Instant;
import java.time.ZoneId;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import tepidarium.alert.Alert;
import tepidarium.container.Calibration;
import tepidarium.container.Container;
import tepidarium.container.ContainerId;
import tepidarium.container.Placement;
import tepidarium.container.Register;
import tepidarium.history.CalibratedReadings;
import tepidarium.light.Site;
import tepidarium.live.HeatSoFar;
import tepidarium.live.Newest;
import tepidarium.live.Watch;
import tepidarium.reading.InvalidInput;
import tepidarium.reading.Quantity;
import tepidarium.reading.SensorId;
import tepidarium.reading.Span;
import tepidarium.rollup.ContainerHistory;
import tepidarium.series.ReadingSource;
import tepidarium.series.StoreException;

/** Puts together what the API shows of containers, sensors and alerts as they are now. */
public final class Views {
  private final Register register;
  private final Newest newest;
  private final HeatSoFar heatSoFar;
  private final CalibratedReadings calibrated;
  private final ReadingSource readings;
  private final ContainerHistory history;
  private final Watch watch;
  private final Clock clock;
  private final ZoneId zone;
  private final @Nullable Site site;

  public Views(
      Register register,
      Newest newest,
      HeatSoFar heatSoFar,
      CalibratedReadings calibrated,
      ReadingSource readings,
      ContainerHistory history,
      Watch watch,
      Clock clock,
      ZoneId zone,
      @Nullable Site site) {
    this.register = register;
    this.newest = newest;
    this.heatSoFar = heatSoFar;
    this.calibrated = calibrated;
    this.readings = readings;
    this.history = history;
    this.watch = watch;
    this.clock = clock;
    this.zone = zone;
    this.site = site;
  }

  ContainerJson container(Container container) {
    ContainerId id = container.id();
    Instant now = clock.instant();
    return new ContainerJson(
        id.value(),
        container.name(),
        ContainerJson.kindOf(container),
        container.settings().heatSource(),
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
        watch.openAlerts(id).stream().map(this::alert).toList(),
        heat(container, now),
        register.openingAt(id, now).map(o -> ContainerJson.SpanJson.of(o.span())).orElse(null));
  }

  private Map<String, ContainerJson.@Nullable LatestJson> latest(ContainerId id, Instant now) {
    Map<String, ContainerJson.@Nullable LatestJson> latest = new LinkedHashMap<>();
    for (Quantity quantity : Quantity.values()) {
      latest.put(
          quantity.key(),
          newest
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

  /** Null also while the readings store is away: all else about a container is known without it. */
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
                    sum.warmth()
                        .sensorError(
                            sum.rule(), calibrated.temperatureErrorC(container.id(), sum.span()))))
        .orElse(null);
  }

  /** An alert as the API shows it. */
  public AlertJson alert(Alert alert) {
    String name =
        register
            .container(alert.container())
            .map(Container::name)
            .orElse(alert.container().value());
    return AlertJson.of(alert, name, zone);
  }

  SensorJson sensor(SensorId sensor) {
    return SensorJson.of(sensor, newest.of(sensor), readings.uncertain().get(sensor), register);
  }

  /** A sensor that was heard of, placed or calibrated. */
  SensorJson existing(SensorId sensor) {
    boolean known =
        newest.of(sensor).isPresent()
            || readings.uncertain().containsKey(sensor)
            || !register.placementsOf(sensor).isEmpty()
            || !register.calibration(sensor).equals(Calibration.NONE);
    if (!known) {
      throw new NotFound("nothing was heard yet of a sensor \"" + sensor + '"');
    }
    return sensor(sensor);
  }

  /** Every sensor that was heard of or placed, by name. */
  List<SensorJson> sensors() {
    Set<SensorId> all = new TreeSet<>(newest.sensors());
    all.addAll(readings.uncertain().keySet());
    register.placementsIn(ContainerId.ROOM).stream().map(Placement::sensor).forEach(all::add);
    for (Container container : register.containers()) {
      register.placementsIn(container.id()).stream().map(Placement::sensor).forEach(all::add);
    }
    return all.stream().map(this::sensor).toList();
  }

  Container existing(ContainerId id) {
    return register
        .container(id)
        .orElseThrow(() -> new NotFound("there is no container \"" + id + '"'));
  }

  /**
   * The span that a request means: from and to as given, else from the container's first reading to
   * now.
   */
  Span span(ContainerId id, @Nullable Instant from, @Nullable Instant to) {
    Instant now = clock.instant();
    Span extent = history.extent(id, now).orElse(new Span(now, now));
    Instant start = from == null ? extent.from() : from;
    Instant end = to == null ? extent.to() : to;
    if (end.isBefore(start)) {
      if (from != null && to != null) {
        throw new InvalidInput("to", "must not lie before from");
      }
      return from == null ? new Span(end, end) : new Span(start, start);
    }
    return new Span(start, end);
  }

  ZoneId zone() {
    return zone;
  }

  /** Where the containers stand; null when that is not known. */
  @Nullable Site site() {
    return site;
  }

  Instant now() {
    return clock.instant();
  }
}
