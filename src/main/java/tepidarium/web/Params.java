package tepidarium.web;

import com.fasterxml.jackson.core.JsonLocation;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.exc.InputCoercionException;
import com.fasterxml.jackson.core.exc.StreamConstraintsException;
import com.fasterxml.jackson.databind.JsonMappingException;
import com.fasterxml.jackson.databind.exc.UnrecognizedPropertyException;
import com.fasterxml.jackson.databind.exc.ValueInstantiationException;
import io.javalin.http.Context;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.format.DateTimeParseException;
import java.time.temporal.ChronoUnit;
import java.util.Arrays;
import java.util.List;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import tepidarium.heat.HeatRule;
import tepidarium.reading.InputRule;
import tepidarium.reading.InvalidInput;
import tepidarium.reading.Quantity;
import tepidarium.reading.SensorId;

/**
 * Reads parameters and bodies of requests. Refuses invalid values with a message that names the
 * field.
 */
public final class Params {
  private static final int MAX_QUOTE_LENGTH = 60;

  private Params() {}

  /** Cuts a text from a request at 60 characters, for quoting in an answer. */
  public static String shown(String text) {
    return text.length() <= MAX_QUOTE_LENGTH ? text : text.substring(0, MAX_QUOTE_LENGTH) + '…';
  }

  /**
   * Reads a quantity by its key.
   *
   * @throws InvalidInput of the field {@code quantity} if it is missing or not a quantity
   */
  public static Quantity quantity(@Nullable String key) {
    if (key == null) {
      throw InvalidInput.missing("quantity");
    }
    return Quantity.ofKey(key)
        .orElseThrow(
            () -> new InvalidInput("quantity", "must be a quantity, not \"" + shown(key) + '"'));
  }

  /**
   * Reads an id from the path.
   *
   * @throws NotFound if the text is not a number
   */
  public static long id(Context ctx, String name) {
    String text = ctx.pathParam(name);
    try {
      return Long.parseLong(text);
    } catch (NumberFormatException e) {
      throw new NotFound("there is no " + name + " \"" + text + '"');
    }
  }

  public static SensorId sensorId(Context ctx) {
    return new SensorId(ctx.pathParam("sensor"));
  }

  public static @Nullable Instant instant(Context ctx, String name) {
    String text = ctx.queryParam(name);
    return text == null || text.isBlank() ? null : instant(name, text);
  }

  public static Instant instant(String name, String text) {
    try {
      Instant instant =
          OffsetDateTime.parse(text.strip()).toInstant().truncatedTo(ChronoUnit.MILLIS);
      // The range that databases and browsers support.
      if (instant.isBefore(Instant.EPOCH)) {
        throw new InvalidInput(
            name, "must not lie before the year 1970", InputRule.TOO_EARLY.with(Instant.EPOCH));
      }
      if (instant.getEpochSecond() > 253_402_300_799L) {
        throw InvalidInput.instant(name, shown(text));
      }
      return instant;
    } catch (DateTimeParseException e) {
      throw InvalidInput.instant(name, shown(text));
    }
  }

  /**
   * Reads different names, given once with commas between, or several times for names that contain
   * a comma.
   */
  public static List<String> names(Context ctx, String parameter) {
    List<String> values = ctx.queryParams(parameter);
    List<String> parts = values.size() == 1 ? Arrays.asList(values.get(0).split(",", -1)) : values;
    return parts.stream().map(String::strip).filter(name -> !name.isEmpty()).distinct().toList();
  }

  /** Reads a number; refuses values outside the range. */
  public static @Nullable Double number(
      Context ctx, String name, double least, double most, String unit) {
    Double value = number(ctx, name);
    if (value != null && (value < least || value > most)) {
      throw InvalidInput.range(name, least, most, unit);
    }
    return value;
  }

  private static @Nullable Double number(Context ctx, String name) {
    String text = ctx.queryParam(name);
    if (text == null || text.isBlank()) {
      return null;
    }
    try {
      double value = Double.parseDouble(text);
      if (Double.isFinite(value)) {
        return value;
      }
    } catch (NumberFormatException e) {
      // Refused below, together with infinite numbers.
    }
    throw InvalidInput.number(name, shown(text));
  }

  /** Reads a parameter that is true or false. */
  public static boolean flag(Context ctx, String name, boolean otherwise) {
    String text = ctx.queryParam(name);
    if (text == null || text.isBlank()) {
      return otherwise;
    }
    return switch (text.strip()) {
      case "true" -> true;
      case "false" -> false;
      default -> throw new InvalidInput(name, "must be true or false, not \"" + shown(text) + '"');
    };
  }

  public static int whole(Context ctx, String name, int otherwise, int least, int most) {
    Double value = number(ctx, name);
    if (value == null) {
      return otherwise;
    }
    if (value != Math.rint(value) || value < least || value > most) {
      throw InvalidInput.whole(name, least, most);
    }
    return value.intValue();
  }

  public static Duration minutes(@Nullable Double minutes, double most) {
    if (minutes == null || !(minutes > 0 && minutes <= most)) {
      throw new InvalidInput(
          "minutes",
          "must be above 0 and at most " + (int) most,
          InputRule.ABOVE.with(0, (int) most));
    }
    return Duration.ofMillis(Math.round(minutes * 60_000));
  }

  /** Checks the name of the person who makes a change; "somebody" if it is missing. */
  public static String person(@Nullable String by) {
    String name = by == null || by.isBlank() ? "somebody" : by.strip();
    if (name.length() > 60) {
      throw InvalidInput.tooLong("by", 60);
    }
    return name;
  }

  /** Checks the reason that a person gave; null if there is none. */
  public static @Nullable String reason(@Nullable String reason) {
    if (reason == null || reason.isBlank()) {
      return null;
    }
    if (reason.strip().length() > 200) {
      throw InvalidInput.tooLong("reason", 200);
    }
    return reason.strip();
  }

  /** Creates a heat rule; the ceiling must be above the base temperature. */
  public static HeatRule heatRule(double baseC, @Nullable Double ceilingC) {
    if (ceilingC != null && ceilingC <= baseC) {
      throw new InvalidInput(
          "ceiling",
          ceilingC + " °C must lie above the base temperature " + baseC + " °C",
          InputRule.HIGHER.with(ceilingC, baseC, "base", "°C"));
    }
    return new HeatRule(baseC, ceilingC);
  }

  /**
   * Reads the body as a record; an empty body counts as an empty object. JSON is UTF-8 (RFC 8259).
   */
  public static <T> T body(Context ctx, Class<T> type) {
    String text = new String(ctx.bodyAsBytes(), StandardCharsets.UTF_8);
    try {
      T body = Json.MAPPER.readValue(text.isBlank() ? "{}" : text, type);
      if (body == null) {
        throw new InvalidInput("the body must be a JSON object");
      }
      return body;
    } catch (JsonMappingException e) {
      throw refused(e);
    } catch (StreamConstraintsException e) {
      throw new InvalidInput(
          "the body is nested more than "
              + Json.MAX_NESTING
              + " levels deep, or holds a number or name that is too long");
    } catch (InputCoercionException e) {
      throw new InvalidInput("a number is too large" + place(e));
    } catch (JsonProcessingException e) {
      throw new InvalidInput("the body is not JSON, or has a field twice," + place(e));
    }
  }

  /**
   * Describes which part of the body does not match the record. Returns the cause if it is an
   * exception of another type.
   */
  private static RuntimeException refused(JsonMappingException e) {
    if (e instanceof UnrecognizedPropertyException unknown) {
      String known =
          unknown.getKnownPropertyIds().stream()
              .map(Object::toString)
              .sorted()
              .collect(Collectors.joining(", "));
      return new InvalidInput(
          "there is no field \"" + shown(path(e)) + "\" here; the fields are " + known);
    }
    if (e.getCause() instanceof RuntimeException cause
        && e instanceof ValueInstantiationException) {
      return cause;
    }
    return path(e).isEmpty()
        ? new InvalidInput("the body must be a JSON object")
        : new InvalidInput(shown(path(e)), "has a value of the wrong kind");
  }

  private static String place(JsonProcessingException e) {
    JsonLocation at = e.getLocation();
    return at == null ? "" : " at line " + at.getLineNr() + ", column " + at.getColumnNr();
  }

  private static String path(JsonMappingException e) {
    StringBuilder path = new StringBuilder();
    for (JsonMappingException.Reference part : e.getPath()) {
      if (part.getFieldName() == null) {
        path.append('[').append(part.getIndex()).append(']');
      } else {
        path.append(path.isEmpty() ? "" : ".").append(part.getFieldName());
      }
    }
    return path.toString();
  }
}
