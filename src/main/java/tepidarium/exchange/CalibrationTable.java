package tepidarium.exchange;

import java.util.Arrays;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import tepidarium.container.Calibration;
import tepidarium.reading.SensorId;

/** The table of constant offsets; one row for each sensor that has one. */
final class CalibrationTable {
  static final List<String> HEADER =
      List.of("sensor", "temperatureOffset", "humidityOffset", "temperatureError");

  private CalibrationTable() {}

  static List<@Nullable String> row(Map.Entry<SensorId, Calibration> sensor) {
    Calibration calibration = sensor.getValue();
    return Arrays.asList(
        sensor.getKey().name(),
        String.valueOf(calibration.temperatureOffsetC()),
        String.valueOf(calibration.humidityOffsetPercent()),
        String.valueOf(calibration.temperatureErrorC()));
  }

  static Map.Entry<SensorId, Calibration> calibration(Row row) {
    return Map.entry(
        new SensorId(row.required("sensor")),
        new Calibration(
            row.requiredDecimal("temperatureOffset"),
            row.requiredDecimal("humidityOffset"),
            row.requiredDecimal("temperatureError")));
  }
}
