package tepidarium.importing;

import java.io.BufferedReader;
import java.io.IOException;
import java.nio.charset.Charset;
import java.time.Instant;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import tepidarium.ingest.SensorNames;
import tepidarium.ingest.Unit;
import tepidarium.reading.Quantity;
import tepidarium.reading.Reading;
import tepidarium.reading.SensorId;

/**
 * Reads InfluxDB line protocol: {@code measurement,tag=x field=1.5,other=2 time}. The names of
 * fields are read like the headers of a table. The sensor is a tag that names one, or the
 * measurement. Source: InfluxDB documentation, "Line protocol reference".
 */
final class LineProtocol {
  private static final Pattern LINE =
      Pattern.compile("[^,\\s#][^\\s]* [^\\s=]+=.+?(?: -?\\d{9,19})?\\s*");

  private static final int MAX_KNOWN = 20_000;

  private final Instant latest;
  private final @Nullable SensorId sensor;
  private final ImportTexts texts;
  private final Map<String, @Nullable Unit> units = new HashMap<>();
  private final Map<String, Series> knownSeries = new HashMap<>();

  /** A measurement with its tags. */
  private record Series(String measurement, @Nullable SensorId sensor) {}

  LineProtocol(ImportOptions options) {
    this.latest = options.latest();
    this.sensor = options.sensor();
    this.texts = options.texts();
  }

  /** Whether the first line that is not empty or a comment has this form. */
  static boolean isIn(String head) {
    return head.lines()
        .map(String::strip)
        .filter(line -> !line.isEmpty() && !line.startsWith("#"))
        .findFirst()
        .filter(line -> LINE.matcher(line).matches() && parts(line).size() >= 2)
        .isPresent();
  }

  void read(Source source, Charset charset, RowReceiver receiver) throws IOException {
    long number = 0;
    try (LimitedReader text = new LimitedReader(FileEncoding.open(source, charset));
        BufferedReader lines = new BufferedReader(text, 1 << 16)) {
      boolean more = true;
      while (more) {
        String line = lines.readLine();
        text.recordEnded();
        number++;
        more = line != null;
        if (line != null && !line.isBlank() && !line.startsWith("#")) {
          more = read(number, line.strip(), receiver);
        }
      }
    } catch (LimitedReader.RecordTooLong e) {
      receiver.bad(number + 1, texts.say("row.too-long"), "");
    }
  }

  private boolean read(long number, String line, RowReceiver receiver) {
    List<String> parts = parts(line);
    if (parts.size() < 2 || parts.size() > 3) {
      return receiver.bad(number, texts.say("row.no-line-protocol"), line);
    }
    long ms = parts.size() == 3 ? millis(parts.get(2)) : Long.MIN_VALUE;
    if (ms < Reading.EARLIEST.toEpochMilli() || ms > latest.toEpochMilli()) {
      return receiver.bad(
          number, texts.say(parts.size() == 2 ? "row.without-time" : "row.bad-time"), line);
    }
    Series series = series(parts.get(0));
    SensorId id = sensor == null ? series.sensor() : sensor;
    Map<Quantity, Double> values = new EnumMap<>(Quantity.class);
    String problem =
        id == null
            ? texts.say("row.no-sensor")
            : addValues(series.measurement(), parts.get(1), values);
    boolean more = problem == null || receiver.bad(number, problem, line);
    if (id == null || values.isEmpty()) {
      return problem == null ? receiver.empty(number) : more;
    }
    return receiver.reading(number, new Reading(id, Instant.ofEpochMilli(ms), values, null))
        && more;
  }

  /** Adds the values of the fields. Returns the problem with a bad field; null if all are good. */
  private @Nullable String addValues(
      String measurement, String fields, Map<Quantity, Double> values) {
    String problem = null;
    for (String field : split(fields, ',')) {
      List<String> pair = split(field, '=');
      Unit unit = pair.size() < 2 ? null : unit(plain(pair.get(0)), measurement);
      if (unit == null) {
        continue;
      }
      double value = unit.toStored(number(pair.get(1)));
      if (unit.quantity().plausible(value)) {
        values.put(unit.quantity(), value);
      } else {
        Quantity quantity = unit.quantity();
        problem =
            texts.say(
                "row.bad-field",
                field,
                Math.round(quantity.low()),
                Math.round(quantity.high()),
                quantity.unit());
      }
    }
    return problem;
  }

  /** A number, with a suffix i or u if it is an integer; NaN if it is none. */
  private static double number(String text) {
    int end = text.length();
    if (end > 1 && "iu".indexOf(text.charAt(end - 1)) >= 0 && isDigit(text.charAt(end - 2))) {
      end--;
    }
    for (int i = 0; i < end; i++) {
      if (!isDigit(text.charAt(i)) && "-+.eE".indexOf(text.charAt(i)) < 0) {
        return Double.NaN;
      }
    }
    try {
      return Double.parseDouble(text.substring(0, end));
    } catch (NumberFormatException e) {
      return Double.NaN;
    }
  }

  private static boolean isDigit(char character) {
    return character >= '0' && character <= '9';
  }

  /** A field named "value" gets its quantity from the measurement. */
  private @Nullable Unit unit(String field, String measurement) {
    String name = field.equals("value") ? measurement : field;
    if (!units.containsKey(name)) {
      units.put(name, unit(ColumnWords.of(name)));
    }
    return units.get(name);
  }

  /** The unit of a field; null if its values cannot be used. */
  private static @Nullable Unit unit(ColumnWords words) {
    Quantity quantity = words.quantity();
    if (quantity == null || words.isDerived() || words.unknownUnit() != null) {
      return null;
    }
    Unit named = words.unit();
    return named == null ? Unit.stored(quantity) : named;
  }

  /** Measurement and sensor of a series; cached, because each is in many lines. */
  private Series series(String text) {
    Series known = knownSeries.get(text);
    if (known == null) {
      List<String> parts = split(text, ',');
      known = new Series(plain(parts.get(0)), sensor(parts));
      if (knownSeries.size() >= MAX_KNOWN) {
        knownSeries.clear();
      }
      knownSeries.put(text, known);
    }
    return known;
  }

  private static @Nullable SensorId sensor(List<String> series) {
    for (String tag : series.subList(1, series.size())) {
      List<String> pair = split(tag, '=');
      if (pair.size() == 2 && ColumnWords.of(plain(pair.get(0))).namesSensor()) {
        return SensorNames.adapted(plain(pair.get(1))).orElse(null);
      }
    }
    return SensorNames.adapted(plain(series.get(0))).orElse(null);
  }

  /** The unit follows from the number of digits, because the times lie between 2010 and 2100. */
  private static long millis(String text) {
    if (text.isEmpty() || text.length() > 19 || !text.chars().allMatch(c -> isDigit((char) c))) {
      return Long.MIN_VALUE;
    }
    long value =
        Long.parseLong(
            text.length() == 19 && text.compareTo("9223372036854775807") > 0 ? "0" : text);
    return switch (text.length()) {
      case 10 -> value * 1000;
      case 13 -> value;
      case 16 -> value / 1000;
      case 19 -> value / 1_000_000;
      default -> Long.MIN_VALUE;
    };
  }

  private static List<String> parts(String line) {
    return split(line, ' ');
  }

  /** Splits a text at a character that is neither escaped nor in quotes. */
  private static List<String> split(String text, char separator) {
    List<String> parts = new ArrayList<>();
    boolean quoted = false;
    int start = 0;
    for (int i = 0; i < text.length(); i++) {
      char character = text.charAt(i);
      if (character == '\\') {
        i++;
      } else if (character == '"') {
        quoted = !quoted;
      } else if (character == separator && !quoted) {
        parts.add(text.substring(start, i));
        start = i + 1;
      }
    }
    parts.add(text.substring(start));
    return parts;
  }

  private static String plain(String name) {
    return name.indexOf('\\') < 0 ? name : name.replaceAll("\\\\(.)", "$1");
  }
}
