package tepidarium.calibration;

import java.time.Instant;
import java.time.temporal.ChronoUnit;
import org.jspecify.annotations.Nullable;
import tepidarium.reading.Checks;
import tepidarium.reading.InputRule;
import tepidarium.reading.InvalidInput;
import tepidarium.reading.Quantity;
import tepidarium.reading.SensorId;

/**
 * A sensor's raw reading of a quantity at an instant at which the true value was known.
 *
 * @param at truncated to whole milliseconds
 * @param reading as the sensor sent it, in the unit of the quantity
 * @param trueValue in the same unit
 * @param uncertainty standard uncertainty of the true value, in the same unit, at least 0
 * @param note at most 200 characters; null for none
 */
public record CalibrationPoint(
    SensorId sensor,
    Quantity quantity,
    Instant at,
    double reading,
    double trueValue,
    double uncertainty,
    CalibrationMethod method,
    @Nullable String note) {
  private static final int LONGEST_NOTE = 200;

  /** A stored point with the number by which it is removed. */
  public record Stored(long id, CalibrationPoint point) {}

  public CalibrationPoint {
    at = at.truncatedTo(ChronoUnit.MILLIS);
    requirePlausible("reading", quantity, reading);
    requirePlausible("trueValue", quantity, trueValue);
    if (!(uncertainty >= 0 && Double.isFinite(uncertainty))) {
      throw new InvalidInput(
          "uncertainty",
          "must be a number of at least 0, not " + uncertainty,
          InputRule.RANGE.with(0, null, quantity == Quantity.TEMPERATURE ? "K" : quantity.unit()));
    }
    requireFitting(method, quantity, trueValue);
    note = note == null || note.isBlank() ? null : Checks.text("note", note, LONGEST_NOTE);
  }

  private static void requirePlausible(String field, Quantity quantity, double value) {
    if (!quantity.plausible(value)) {
      throw InvalidInput.range(field, quantity.low(), quantity.high(), quantity.unit());
    }
  }

  private static void requireFitting(CalibrationMethod method, Quantity quantity, double value) {
    Quantity only =
        switch (method) {
          case ICE_POINT -> Quantity.TEMPERATURE;
          case SATURATED_SALT -> Quantity.HUMIDITY;
          case DARK, KNOWN_LAMP -> Quantity.LIGHT;
          case COMPARISON, OTHER -> quantity;
        };
    if (quantity != only) {
      throw new InvalidInput(
          "method",
          method.key()
              + " calibrates "
              + only.key()
              + ". For "
              + quantity.key()
              + " use comparison");
    }
    boolean isZero = method == CalibrationMethod.ICE_POINT || method == CalibrationMethod.DARK;
    if (isZero && value != 0) {
      throw new InvalidInput(
          "trueValue",
          "must be 0 " + quantity.unit() + " with the method " + method.key() + ", not " + value,
          InputRule.VALUE_OF_METHOD.with(0, quantity.unit()));
    }
  }

  /** The point with the uncertainty of its reading, which is that of one step of the sensor. */
  FixedPoint fixedPoint() {
    return new FixedPoint(
        reading, TypicalSensor.readingUncertainty(quantity), trueValue, uncertainty);
  }
}
