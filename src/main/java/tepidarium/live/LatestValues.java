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

/** The newest values of every sensor and of every container, in memory. Thread-safe. */
public final class LatestValues {
  /** A container's newest value of a quantity, calibrated, and the sensor it is from. */
  public record Value(double value, Instant at, SensorId sensor) {}

  private final Register register;
  private final Duration maxGap;
  private final Map<SensorId, SensorSummary> summaries = new ConcurrentHashMap<>();

  public LatestValues(Register register, Duration maxGap, Map<SensorId, SensorSummary> summaries) {
    this.register = register;
    this.maxGap = maxGap;
    this.summaries.putAll(summaries);
  }

  void add(Reading reading) {
    summaries.compute(
        reading.sensor(),
        (sensor, old) -> old == null ? SensorSummary.of(reading) : old.with(reading));
  }

  void add(SensorId sensor, SensorSummary more) {
    summaries.merge(sensor, more, SensorSummary::with);
  }

  /** Removes values later than the instant; needed after the clock was set back. */
  void forgetAfter(Instant instant) {
    summaries.replaceAll((sensor, known) -> known.forgetAfter(instant));
  }

  /** All sensors that ever sent a reading, ordered by name. */
  public List<SensorId> sensors() {
    List<SensorId> sensors = new ArrayList<>(summaries.keySet());
    sensors.sort(null);
    return sensors;
  }

  public Optional<SensorSummary> of(SensorId sensor) {
    return Optional.ofNullable(summaries.get(sensor));
  }

  /**
   * The container's newest value of a quantity, from the sensors placed in it now. The sensor that
   * was placed first has priority. Another one takes over if its value is newer by more than the
   * longest allowed gap. A value that figures leave out is not used.
   */
  public Optional<Value> of(ContainerId container, Quantity quantity, Instant now) {
    Value chosen = null;
    for (Placement placement : register.placementsIn(container)) {
      if (placement.holdsAt(now)) {
        Value value = value(placement, quantity);
        if (value != null && (chosen == null || later(value, chosen))) {
          chosen = value;
        }
      }
    }
    return Optional.ofNullable(chosen);
  }

  private boolean later(Value value, Value chosen) {
    return Duration.between(chosen.at(), value.at()).compareTo(maxGap) > 0;
  }

  private @Nullable Value value(Placement placement, Quantity quantity) {
    SensorSummary known = summaries.get(placement.sensor());
    SensorSummary.Value raw = known == null ? null : known.latest().get(quantity);
    if (raw == null || !placement.holdsAt(raw.at())) {
      return null;
    }
    boolean leftOut =
        register
            .exclusions(placement.sensor())
            .excludes(quantity, raw.at().toEpochMilli(), raw.value());
    if (leftOut) {
      return null;
    }
    double corrected =
        register.correction(placement.sensor()).corrected(quantity, raw.at(), raw.value());
    return new Value(corrected, raw.at(), placement.sensor());
  }
}
