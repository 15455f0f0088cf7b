package tepidarium.importing;

import java.nio.charset.Charset;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.ZoneId;
import java.util.Map;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import tepidarium.reading.InvalidInput;
import tepidarium.reading.SensorId;

/**
 * The choices of a person that replace a guess about a file, as they are written in options. Each
 * may be null or blank; it is then guessed.
 *
 * @param columns meaning of columns, by number or header, such as {@code 3=temperature:F}
 */
public record ImportChoices(
    @Nullable String sensor,
    @Nullable String zone,
    @Nullable String dateOrder,
    @Nullable String decimal,
    @Nullable String delimiter,
    @Nullable Integer headerLine,
    @Nullable String encoding,
    Map<String, String> columns) {
  public static final ImportChoices NONE =
      new ImportChoices(null, null, null, null, null, null, null, Map.of());

  public ImportChoices {
    sensor = orNull(sensor);
    zone = orNull(zone);
    dateOrder = orNull(dateOrder);
    decimal = orNull(decimal);
    delimiter = orNull(delimiter);
    encoding = orNull(encoding);
    columns = Map.copyOf(Objects.requireNonNullElse(columns, Map.of()));
  }

  private static @Nullable String orNull(@Nullable String text) {
    return text == null || text.isEmpty() ? null : text;
  }

  /**
   * Returns the options for one file.
   *
   * @throws InvalidInput if a choice is wrong; the message names its option
   */
  public ImportOptions options(String fileName, ZoneId defaultZone, Instant latest) {
    return new ImportOptions(
        charset(),
        delimiterSign(),
        decimalComma(),
        dateOrder == null ? null : DateOrder.of(dateOrder),
        headerLine,
        zoneId(),
        sensor == null ? null : new SensorId(sensor),
        columns,
        fileName,
        defaultZone,
        latest);
  }

  private @Nullable Charset charset() {
    try {
      return encoding == null ? null : Charset.forName(encoding);
    } catch (IllegalArgumentException e) {
      throw new InvalidInput("--encoding " + encoding + " is not a known encoding", e);
    }
  }

  private @Nullable ZoneId zoneId() {
    try {
      return zone == null ? null : ZoneId.of(zone);
    } catch (DateTimeException e) {
      throw new InvalidInput(
          "--zone " + zone + " is not a time zone such as Europe/Berlin or +01:00", e);
    }
  }

  private @Nullable Character delimiterSign() {
    if (delimiter == null) {
      return null;
    }
    return switch (delimiter) {
      case "comma" -> ',';
      case "semicolon" -> ';';
      case "tab" -> '\t';
      default -> {
        if (delimiter.length() != 1 || "\"\r\n".contains(delimiter)) {
          throw new InvalidInput("--delimiter is comma, semicolon, tab or one character");
        }
        yield delimiter.charAt(0);
      }
    };
  }

  private @Nullable Boolean decimalComma() {
    if (decimal == null) {
      return null;
    }
    return switch (decimal) {
      case "comma", "," -> true;
      case "point", "." -> false;
      default -> throw new InvalidInput("--decimal is comma or point, not \"" + decimal + '"');
    };
  }
}
