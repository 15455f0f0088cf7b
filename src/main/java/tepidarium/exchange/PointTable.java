package tepidarium.exchange;

import java.util.Arrays;
import java.util.List;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import tepidarium.calibration.CalibrationMethod;
import tepidarium.calibration.CalibrationPoint;
import tepidarium.reading.InputRule;
import tepidarium.reading.InvalidInput;
import tepidarium.reading.Quantity;
import tepidarium.reading.SensorId;

/** The table of calibration points; one row for each point. */
final class PointTable {
  static final List<String> HEADER =
      List.of("sensor", "quantity", "at", "reading", "trueValue", "uncertainty", "method", "note");

  private PointTable() {}

  static List<@Nullable String> row(CalibrationPoint point) {
    return Arrays.asList(
        point.sensor().name(),
        point.quantity().key(),
        point.at().toString(),
        String.valueOf(point.reading()),
        String.valueOf(point.trueValue()),
        String.valueOf(point.uncertainty()),
        point.method().key(),
        point.note());
  }

  static CalibrationPoint point(Row row) {
    String quantity = row.required("quantity");
    String method = row.required("method");
    return new CalibrationPoint(
        new SensorId(row.required("sensor")),
        Quantity.ofKey(quantity)
            .orElseThrow(
                () ->
                    unknown(
                        "quantity", quantity, Arrays.stream(Quantity.values()).map(Quantity::key))),
        row.instant("at"),
        row.requiredDecimal("reading"),
        row.requiredDecimal("trueValue"),
        row.requiredDecimal("uncertainty"),
        CalibrationMethod.ofKey(method)
            .orElseThrow(
                () ->
                    unknown(
                        "method",
                        method,
                        Arrays.stream(CalibrationMethod.values()).map(CalibrationMethod::key))),
        row.text("note"));
  }

  private static InvalidInput unknown(String column, String text, Stream<String> known) {
    return new InvalidInput(
        column, "is not known: \"" + text + '"', InputRule.CHOICE.with(text, known.toList()));
  }
}
