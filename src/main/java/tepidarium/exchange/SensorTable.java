package tepidarium.exchange;

import java.util.Arrays;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import tepidarium.reading.SensorId;
import tepidarium.sensor.SensorDetails;

/** The table of what the grower entered about sensors; one row for each sensor with details. */
final class SensorTable {
  static final List<String> HEADER = List.of("sensor", "name", "note", "emptyVolts", "retiredAt");

  private SensorTable() {}

  static List<@Nullable String> row(Map.Entry<SensorId, SensorDetails> sensor) {
    SensorDetails details = sensor.getValue();
    return Arrays.asList(
        sensor.getKey().name(),
        details.name(),
        details.note(),
        Row.cell(details.emptyVolts()),
        Row.cell(details.retiredAt()));
  }

  static Map.Entry<SensorId, SensorDetails> sensor(Row row) {
    return Map.entry(
        new SensorId(row.required("sensor")),
        new SensorDetails(
            row.text("name"),
            row.text("note"),
            row.decimal("emptyVolts"),
            row.optionalInstant("retiredAt")));
  }
}
