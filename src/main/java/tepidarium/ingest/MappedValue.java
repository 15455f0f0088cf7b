package tepidarium.ingest;

import com.fasterxml.jackson.core.JsonPointer;
import java.util.List;
import java.util.Objects;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import tepidarium.reading.Quantity;

/**
 * Position and unit of one quantity in the payload of another device. The number is multiplied by
 * {@code factor}, then {@code plus} is added; the result is in the unit.
 *
 * @param pointer JSON Pointer (RFC 6901), such as {@code /bme280/temp}; empty (the default) if the
 *     payload is one plain number, or the value is in packed bytes
 * @param unit °C (or C), °F (or F), K; % (or percent), fraction; lux (or lx); V, mV; ppm, %; the
 *     default is the first one of each quantity
 * @param firstByte index of the first byte of the value in the rule's bytes, from 0; null if the
 *     value is not in packed bytes
 * @param length number of bytes, 1 to 4; default 1
 * @param order {@code big} (the default) if the highest byte comes first, or {@code little}
 * @param signed whether the value can be negative (two's complement); default false
 * @param factor default 1
 * @param plus default 0
 */
public record MappedValue(
    String pointer,
    @Nullable String unit,
    @Nullable Integer firstByte,
    @Nullable Integer length,
    @Nullable String order,
    @Nullable Boolean signed,
    @Nullable Double factor,
    @Nullable Double plus) {
  private static final int MAX_FIRST_BYTE = 1_023;
  private static final int MAX_LENGTH = 4;
  private static final Pattern RFC_6901 = Pattern.compile("(?:/(?:[^~/]|~[01])*)*");

  public MappedValue {
    // A configuration file that leaves the pointer out gives null.
    pointer = Objects.requireNonNullElse(pointer, "");
  }

  /** A value in JSON or a plain number, without a factor. */
  public MappedValue(String pointer, @Nullable String unit) {
    this(pointer, unit, null, null, null, null, null, null);
  }

  /** Whether the whole payload is the value. */
  boolean isWholePayload() {
    return pointer.isEmpty() && firstByte == null;
  }

  /**
   * The place of the value in packed bytes; null if it is not there.
   *
   * @param key name of the quantity, for the error message
   */
  @Nullable ByteField byteField(String key) {
    if (firstByte == null) {
      if (length != null || order != null || signed != null) {
        throw new IllegalArgumentException(
            key + " has length, order or signed without firstByte: add firstByte, or remove them");
      }
      return null;
    }
    if (!pointer.isEmpty()) {
      throw new IllegalArgumentException(
          key + " has both pointer and firstByte: remove the one that is wrong");
    }
    if (firstByte < 0 || firstByte > MAX_FIRST_BYTE) {
      throw new IllegalArgumentException(
          key + " has firstByte " + firstByte + ": count from 0, at most " + MAX_FIRST_BYTE);
    }
    int bytes = length == null ? 1 : length;
    if (bytes < 1 || bytes > MAX_LENGTH) {
      throw new IllegalArgumentException(
          key + " has the length " + bytes + ": use 1 to " + MAX_LENGTH + " bytes");
    }
    if (order != null && !order.equals("big") && !order.equals("little")) {
      throw new IllegalArgumentException(
          key + " has the order " + Text.quote(order) + ": use big or little");
    }
    return new ByteField(firstByte, bytes, "little".equals(order), Boolean.TRUE.equals(signed));
  }

  /**
   * The factor and the constant.
   *
   * @param key name of the quantity, for the error message
   */
  Scale scale(String key) {
    double times = factor == null ? 1 : factor;
    double more = plus == null ? 0 : plus;
    if (times == 0 || !Double.isFinite(times) || !Double.isFinite(more)) {
      throw new IllegalArgumentException(
          key + " has a factor of 0 or a number that is too large: set factor, such as 0.01");
    }
    return times == 1 && more == 0 ? Scale.NONE : new Scale(times, more);
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
