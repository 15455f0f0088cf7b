package tepidarium.web.sensors;

import java.time.Instant;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import tepidarium.container.Calibration;
import tepidarium.container.Register;
import tepidarium.container.SensorCorrection;
import tepidarium.reading.DeviceStatus;
import tepidarium.reading.Quantity;
import tepidarium.reading.SensorId;
import tepidarium.sensor.SensorBook;
import tepidarium.sensor.SensorDetails;
import tepidarium.series.SensorSummary;
import tepidarium.series.UncertainReadings;

/**
 * The JSON form of a sensor.
 *
 * @param latest newest raw values
 * @param corrected the same values corrected
 * @param activity null while it is not calculated yet, and before the first reading
 * @param faults null when activity is null
 */
public record SensorJson(
    String sensor,
    @Nullable Instant firstHeard,
    @Nullable Instant lastHeard,
    Map<String, SensorSummary.@Nullable Value> latest,
    Map<String, @Nullable Double> corrected,
    @Nullable UncertainReadings uncertain,
    List<PlacementJson> placements,
    CalibrationJson calibration,
    @Nullable String name,
    @Nullable String note,
    @Nullable Double emptyVolts,
    @Nullable Instant retired,
    @Nullable DeviceJson device,
    @Nullable ActivityJson activity,
    @Nullable FaultSummaryJson faults) {

  public record PlacementJson(String container, Instant from, @Nullable Instant until) {}

  /** The sensor's newest report about itself. */
  public record DeviceJson(@Nullable Integer rssi, @Nullable String firmware, Instant at) {
    static DeviceJson of(DeviceStatus status) {
      return new DeviceJson(status.rssiDbm(), status.firmware(), status.at());
    }
  }

  public record CalibrationJson(
      double temperatureOffset, double humidityOffset, double temperatureError) {}

  record PlacementRequest(
      @Nullable String container, @Nullable String from, @Nullable String until) {}

  /** Replaces all details; a field that is left out is removed. */
  record DetailsRequest(@Nullable String name, @Nullable String note, @Nullable Double emptyVolts) {
    SensorDetails over(SensorDetails old) {
      return new SensorDetails(name, note, emptyVolts, old.retiredAt());
    }
  }

  record CalibrationRequest(
      @Nullable Double temperatureOffset,
      @Nullable Double humidityOffset,
      @Nullable Double temperatureError) {

    Calibration over(Calibration old) {
      return new Calibration(
          temperatureOffset == null ? old.temperatureOffsetC() : temperatureOffset,
          humidityOffset == null ? old.humidityOffsetPercent() : humidityOffset,
          temperatureError == null ? old.temperatureErrorC() : temperatureError);
    }
  }

  static SensorJson of(
      SensorId sensor,
      Optional<SensorSummary> heard,
      @Nullable UncertainReadings uncertain,
      Register register,
      SensorBook book,
      @Nullable ActivityJson activity,
      @Nullable FaultSummaryJson faults) {
    Map<String, SensorSummary.@Nullable Value> latest = new LinkedHashMap<>();
    Map<String, @Nullable Double> corrected = new LinkedHashMap<>();
    SensorCorrection correction = register.correction(sensor);
    for (Quantity quantity : Quantity.values()) {
      SensorSummary.@Nullable Value raw =
          heard.map(known -> known.latest().get(quantity)).orElse(null);
      latest.put(quantity.key(), raw);
      corrected.put(
          quantity.key(),
          raw == null ? null : correction.corrected(quantity, raw.at(), raw.value()));
    }
    Calibration calibration = register.calibration(sensor);
    SensorDetails details = book.details(sensor);
    DeviceStatus status = book.status(sensor);
    return new SensorJson(
        sensor.name(),
        heard.map(SensorSummary::first).orElse(null),
        heard.map(SensorSummary::last).orElse(null),
        latest,
        corrected,
        uncertain,
        register.placementsOf(sensor).stream()
            .map(p -> new PlacementJson(p.container().value(), p.from(), p.until()))
            .toList(),
        new CalibrationJson(
            calibration.temperatureOffsetC(),
            calibration.humidityOffsetPercent(),
            calibration.temperatureErrorC()),
        details.name(),
        details.note(),
        details.emptyVolts(),
        details.retiredAt(),
        status == null ? null : DeviceJson.of(status),
        activity,
        faults);
  }
}
