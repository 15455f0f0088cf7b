package tepidarium.importing;

import java.nio.charset.Charset;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.ZoneId;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import tepidarium.importing.ImportTexts.Setting;
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
    dateOrder = dateOrder == null ? null : orNull(dateOrder.toLowerCase(Locale.ROOT));
    decimal = inWords(orNull(decimal));
    delimiter = orNull(delimiter);
    encoding = orNull(encoding);
    Map<String, String> chosen = new LinkedHashMap<>(Objects.requireNonNullElse(columns, Map.of()));
    chosen.values().removeIf(meaning -> orNull(meaning) == null);
    columns = Collections.unmodifiableMap(chosen);
  }

  private static @Nullable String inWords(@Nullable String decimal) {
    return ",".equals(decimal) ? "comma" : ".".equals(decimal) ? "point" : decimal;
  }

  private static @Nullable String orNull(@Nullable String text) {
    return text == null || text.isBlank() ? null : text;
  }

  /** These choices, and those of a profile where these leave a guess. */
  public ImportChoices over(ImportChoices profile) {
    // Of two meanings of one column the later one holds.
    Map<String, String> merged = new LinkedHashMap<>(profile.columns);
    merged.keySet().removeAll(columns.keySet());
    merged.putAll(columns);
    return new ImportChoices(
        or(sensor, profile.sensor),
        or(zone, profile.zone),
        or(dateOrder, profile.dateOrder),
        or(decimal, profile.decimal),
        or(delimiter, profile.delimiter),
        or(headerLine, profile.headerLine),
        or(encoding, profile.encoding),
        merged);
  }

  private static <T> @Nullable T or(@Nullable T set, @Nullable T otherwise) {
    return set == null ? otherwise : set;
  }

  /**
   * Returns the options for one file.
   *
   * @throws InvalidInput if a choice is wrong; the message names it
   */
  public ImportOptions options(
      String fileName, ZoneId defaultZone, Instant latest, ImportTexts texts) {
    return new ImportOptions(
        charset(texts),
        delimiterSign(texts),
        decimalComma(texts),
        dateOrder == null ? null : DateOrder.of(dateOrder),
        headerLine,
        zoneId(texts),
        sensor == null ? null : new SensorId(sensor),
        columns,
        fileName,
        defaultZone,
        latest,
        texts);
  }

  private @Nullable Charset charset(ImportTexts texts) {
    try {
      return encoding == null ? null : Charset.forName(encoding);
    } catch (IllegalArgumentException e) {
      throw texts.refusal("encoding", texts.of(Setting.ENCODING, String.valueOf(encoding)));
    }
  }

  private @Nullable ZoneId zoneId(ImportTexts texts) {
    try {
      return zone == null ? null : ZoneId.of(zone);
    } catch (DateTimeException e) {
      throw texts.refusal("zone", texts.of(Setting.ZONE, String.valueOf(zone)));
    }
  }

  private @Nullable Character delimiterSign(ImportTexts texts) {
    if (delimiter == null) {
      return null;
    }
    return switch (delimiter) {
      case "comma" -> ',';
      case "semicolon" -> ';';
      case "tab" -> '\t';
      default -> {
        if (delimiter.length() != 1 || "\"\r\n".contains(delimiter)) {
          throw texts.refusal("delimiter", texts.of(Setting.DELIMITER));
        }
        yield delimiter.charAt(0);
      }
    };
  }

  private @Nullable Boolean decimalComma(ImportTexts texts) {
    if (decimal == null) {
      return null;
    }
    return switch (decimal) {
      case "comma" -> true;
      case "point" -> false;
      default -> throw texts.refusal("decimal", texts.of(Setting.DECIMAL), decimal);
    };
  }
}
