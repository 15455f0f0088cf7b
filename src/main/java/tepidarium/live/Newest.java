package tepidarium.live;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;
import org.jspecify.annotations.Nullable;
import tepidarium.container.ContainerId;
import tepidarium.container.Placement;
import tepidarium.container.Register;
import tepidarium.reading.Quantity;
import tepidarium.reading.Reading;
import tepidarium.reading.SensorId;
import tepidarium.series.SensorSummary;

/**
 * The newest values of every sensor, and with them of every container. Safe for use by several
 * threads.
 */
public final class Newest {
  /** A container's newest value of a quantity, calibrated, and the sensor that speaks for it. */
  public record Value(double value, Instant at, SensorId sensor) {}

  private final Register register;
  private final Duration maxGap;
  private final Map<SensorId, SensorSummary> heard = new ConcurrentHashMap<>();

  public Newest(Register register, Duration maxGap, Map<SensorId, SensorSummary> heard) {
    this.register = register;
    this.maxGap = maxGap;
    this.heard.putAll(heard);
  }

  void add(Reading reading) {
    heard.compute(
        reading.sensor(),
        (sensor, old) -> old == null ? SensorSummary.of(reading) : old.with(reading));
  }

  void add(SensorId sensor, SensorSummary more) {
    heard.merge(sensor, more, SensorSummary::with);
  }

  /** Forgets values from after the instant: the clock has been set back. */
  void forgetAfter(Instant instant) {
    heard.replaceAll((sensor, known) -> known.forgetAfter(instant));
  }

  /** All sensors heard of, by name. */
  public List<SensorId> sensors() {
    List<SensorId> sensors = new ArrayList<>(heard.keySet());
    sensors.sort(null);
    return sensors;
  }

  public Optional<SensorSummary> of(SensorId sensor) {
    return Optional.ofNullable(heard.get(sensor));
  }

  /**
   * The container's newest value of a quantity, from the sensors that are in it now: the first one
   * placed speaks, unless it has fallen silent for longer than the longest gap while another
   * reports.
   */
  public Optional<Value> of(ContainerId container, Quantity quantity, Instant now) {
    Value speaker = null;
    for (Placement placement : register.placementsIn(container)) {
      if (placement.holdsAt(now)) {
        Value value = value(placement, quantity);
        if (value != null && (speaker == null || later(value, speaker))) {
          speaker = value;
        }
      }
    }
    return Optional.ofNullable(speaker);
  }

  private boolean later(Value value, Value speaker) {
    return Duration.between(speaker.at(), value.at()).compareTo(maxGap) > 0;
  }

  private @Nullable Value value(Placement placement, Quantity quantity) {
    SensorSummary known = heard.get(placement.sensor());
    SensorSummary.Value raw = known == null ? null : known.latest().get(quantity);
    if (raw == null || !placement.holdsAt(raw.at())) {
      return null;
    }
    double offset = register.calibration(placement.sensor()).offset(quantity);
    return new Value(raw.value() + offset, raw.at(), placement.sensor());
  }
}
