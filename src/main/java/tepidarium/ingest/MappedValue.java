package tepidarium.ingest;

import com.fasterxml.jackson.core.JsonPointer;
import java.util.List;
import java.util.Objects;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import tepidarium.reading.Quantity;

/**
 * Where a foreign payload holds a quantity, and in which unit.
 *
 * @param pointer a JSON Pointer (RFC 6901) such as {@code /bme280/temp}; empty, the default, where
 *     the payload is the plain number and nothing else
 * @param unit °C (or C), °F (or F), K; % (or percent), fraction; lux (or lx); V, mV; ppm, %; the
 *     first of each quantity where it is not said
 */
public record MappedValue(String pointer, @Nullable String unit) {
  private static final Pattern RFC_6901 = Pattern.compile("(?:/(?:[^~/]|~[01])*)*");

  public MappedValue {
    // A configuration file that leaves the pointer out gives null.
    pointer = Objects.requireNonNullElse(pointer, "");
  }

  /** Whether the payload is the value, so that there is no JSON to point into. */
  boolean isWholePayload() {
    return pointer.isEmpty();
  }

  /** The pointer, ready for use; its complaint names what it is for. */
  static JsonPointer compile(String pointer, String what) {
    if (!RFC_6901.matcher(pointer).matches()) {
      throw new IllegalArgumentException(
          what
              + " has the pointer "
              + Text.quote(pointer)
              + ", which is no JSON Pointer: begin each step with /, as in /values/temp, and write"
              + " ~1 for / and ~0 for ~ in a name");
    }
    return JsonPointer.compile(pointer);
  }

  /** The unit of the value, checked against the quantity. */
  Unit unitFor(Quantity quantity) {
    if (unit == null) {
      return Unit.stored(quantity);
    }
    return Unit.of(quantity, unit).orElseThrow(() -> wrongUnit(quantity, unit));
  }

  private static IllegalArgumentException wrongUnit(Quantity quantity, String unit) {
    List<String> symbols = Unit.symbols(quantity);
    String why =
        quantity == Quantity.BATTERY && Unit.of(Quantity.HUMIDITY, unit).isPresent()
            ? ", but a share of a battery cannot be turned into volts: map its voltage, or leave"
                + " battery out; units are "
            : ", which is none of ";
    return new IllegalArgumentException(
        quantity.key() + " has the unit " + Text.quote(unit) + why + String.join(", ", symbols));
  }
}
