package tepidarium.ingest;

import com.fasterxml.jackson.core.JsonPointer;
import java.util.List;
import java.util.Objects;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import tepidarium.reading.Quantity;

/**
 * Position and unit of one quantity in the payload of another device.
 *
 * @param pointer JSON Pointer (RFC 6901), such as {@code /bme280/temp}; empty (the default) if the
 *     payload is one plain number
 * @param unit °C (or C), °F (or F), K; % (or percent), fraction; lux (or lx); V, mV; ppm, %; the
 *     default is the first one of each quantity
 */
public record MappedValue(String pointer, @Nullable String unit) {
  private static final Pattern RFC_6901 = Pattern.compile("(?:/(?:[^~/]|~[01])*)*");

  public MappedValue {
    // A configuration file that leaves the pointer out gives null.
    pointer = Objects.requireNonNullElse(pointer, "");
  }

  /** Whether the whole payload is the value. */
  boolean isWholePayload() {
    return pointer.isEmpty();
  }

  /**
   * Compiles a pointer.
   *
   * @param field name of the field, for the error message
   */
  static JsonPointer compile(String pointer, String field) {
    if (!RFC_6901.matcher(pointer).matches()) {
      throw new IllegalArgumentException(
          field
              + " has the pointer "
              + Text.quote(pointer)
              + ", which is not a JSON Pointer: begin each step with /, as in /values/temp, and write"
              + " ~1 for / and ~0 for ~ in a name");
    }
    return JsonPointer.compile(pointer);
  }

  /** The unit of the value; checked against the quantity. */
  Unit unitFor(Quantity quantity) {
    if (unit == null) {
      return Unit.stored(quantity);
    }
    return Unit.of(quantity, unit).orElseThrow(() -> wrongUnit(quantity, unit));
  }

  private static IllegalArgumentException wrongUnit(Quantity quantity, String unit) {
    List<String> symbols = Unit.symbols(quantity);
    String problem =
        quantity == Quantity.BATTERY && Unit.of(Quantity.HUMIDITY, unit).isPresent()
            ? ", but a percentage cannot be converted to volts: map the voltage, or leave"
                + " battery out; units are "
            : ", which is not one of ";
    return new IllegalArgumentException(
        quantity.key()
            + " has the unit "
            + Text.quote(unit)
            + problem
            + String.join(", ", symbols));
  }
}
