package tepidarium.live;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import tepidarium.alert.AlertBoard;
import tepidarium.alert.AlertKey;
import tepidarium.alert.AlertKind;
import tepidarium.alert.AlertRules;
import tepidarium.alert.Forecast;
import tepidarium.alert.Observation;
import tepidarium.alert.SensorSign;
import tepidarium.alert.SensorSigns;
import tepidarium.alert.Trend;
import tepidarium.container.Container;
import tepidarium.container.ContainerId;
import tepidarium.container.Register;
import tepidarium.heat.Limit;
import tepidarium.history.CalibratedReadings;
import tepidarium.reading.Quantity;
import tepidarium.reading.Samples;
import tepidarium.reading.SensorId;
import tepidarium.reading.Span;

/**
 * Checks the last hours of each container once a minute: forecasts when the temperature will cross
 * a limit, and finds sensor faults. One call works for at most 100 ms and the next call continues,
 * so a round over thousands of containers takes longer than a minute. Used by the watch thread
 * alone.
 */
final class PeriodicChecks {
  private static final Duration EVERY = Duration.ofMinutes(1);

  /** A container whose newest reading is older is not checked. */
  private static final Duration MAX_AGE = Duration.ofMinutes(15);

  private static final long MAX_NANOS_PER_CALL = Duration.ofMillis(100).toNanos();

  /** Number of other containers that a constant temperature is compared with. */
  private static final int OTHERS = 3;

  private final Register register;
  private final CalibratedReadings calibrated;
  private final AlertRules rules;
  private final AlertBoard board;
  private final Deque<Container> round = new ArrayDeque<>();
  private @Nullable Instant roundBegan;

  PeriodicChecks(
      Register register, CalibratedReadings calibrated, AlertRules rules, AlertBoard board) {
    this.register = register;
    this.calibrated = calibrated;
    this.rules = rules;
    this.board = board;
  }

  /** Continues the round, or starts the next one if it is due. */
  void run(Instant now) {
    boolean due =
        roundBegan == null || roundBegan.isAfter(now) || !roundBegan.plus(EVERY).isAfter(now);
    if (round.isEmpty() && due) {
      roundBegan = now;
      round.addAll(register.containers());
    }
    long began = System.nanoTime();
    while (!round.isEmpty() && System.nanoTime() - began < MAX_NANOS_PER_CALL) {
      check(round.remove(), now);
    }
  }

  private void check(Container container, Instant now) {
    if (register.openingAt(container.id(), now).isPresent()) {
      return;
    }
    Span span = new Span(now.minus(SensorSigns.LOOKS_BACK), now);
    Map<SensorId, Map<Quantity, Samples>> inside = calibrated.bySensor(container.id(), span);
    Optional<Instant> last = newest(inside);
    if (last.isEmpty() || last.get().isBefore(now.minus(MAX_AGE)) || last.get().isAfter(now)) {
      return;
    }
    Samples temperature = calibrated.samples(container.id(), Quantity.TEMPERATURE, span);
    forecast(container, AlertKind.HEADING_COLD, AlertKind.COLD, temperature, last.get(), now);
    forecast(container, AlertKind.HEADING_HOT, AlertKind.HOT, temperature, last.get(), now);
    faults(container, inside, span, last.get(), now);
  }

  private static Optional<Instant> newest(Map<SensorId, Map<Quantity, Samples>> inside) {
    return inside.values().stream()
        .flatMap(quantities -> quantities.values().stream())
        .filter(samples -> !samples.isEmpty())
        .map(samples -> Instant.ofEpochMilli(samples.lastMs()))
        .max(Instant::compareTo);
  }

  private void forecast(
      Container container,
      AlertKind kind,
      AlertKind limitKind,
      Samples temperature,
      Instant at,
      Instant now) {
    Limit limit =
        rules.effective(new AlertKey(container.id(), limitKind), container.band()).rule().limit();
    Forecast forecast = Forecast.of(temperature, limit, now, Forecast.MAX_LEAD_TIME).orElse(null);
    Observation observation =
        forecast == null
            ? Observation.heading(kind, at, null, null)
            : Observation.heading(kind, at, forecast.at(), Trend.of(forecast));
    board.observe(container.id(), container.band(), observation, now);
  }

  private void faults(
      Container container,
      Map<SensorId, Map<Quantity, Samples>> inside,
      Span span,
      Instant at,
      Instant now) {
    List<SensorSigns.Report> reports =
        inside.entrySet().stream()
            .map(
                one ->
                    new SensorSigns.Report(
                        one.getKey(), one.getValue(), errorC(one.getKey(), one.getValue(), at)))
            .toList();
    List<Samples> elsewhere =
        Stream.concat(Stream.of(ContainerId.ROOM), others(container))
            .map(place -> calibrated.samples(place, Quantity.TEMPERATURE, span))
            .toList();
    List<SensorSign> faults = SensorSigns.of(reports, elsewhere, calibrated.maxGap());
    Observation observation =
        Observation.faults(at, faults.stream().map(SensorSign::reason).toList());
    board.observe(container.id(), container.band(), observation, now);
  }

  private double errorC(SensorId sensor, Map<Quantity, Samples> samples, Instant at) {
    Samples temperature = samples.getOrDefault(Quantity.TEMPERATURE, Samples.EMPTY);
    return temperature.isEmpty()
        ? 0
        : register
            .correction(sensor)
            .error(Quantity.TEMPERATURE, at, temperature.value(temperature.size() - 1));
  }

  private Stream<ContainerId> others(Container container) {
    return register.containers().stream()
        .map(Container::id)
        .filter(id -> !id.equals(container.id()))
        .limit(OTHERS);
  }
}
