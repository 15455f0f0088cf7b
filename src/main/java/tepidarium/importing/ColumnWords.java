package tepidarium.importing;

import java.text.Normalizer;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import tepidarium.ingest.Unit;
import tepidarium.reading.Quantity;

/**
 * Finds the meaning of a column in the words of its header: English words, and common ones of
 * German, French and Spanish (common practice, no source).
 *
 * @param header the header as the file has it
 * @param quantity the measured quantity; null if no word names one
 * @param unit the unit; null if no word names a known one
 * @param unknownUnit a unit that cannot be converted; null if there is none
 * @param rest the other words, which may name a sensor
 * @param words all words, in lower case
 */
record ColumnWords(
    String header,
    @Nullable Quantity quantity,
    @Nullable Unit unit,
    @Nullable String unknownUnit,
    String rest,
    List<String> words) {
  private static final Map<String, String> UNITS =
      Map.ofEntries(
          Map.entry("°c", "°C"),
          Map.entry("c", "°C"),
          Map.entry("celsius", "°C"),
          Map.entry("degc", "°C"),
          Map.entry("°f", "°F"),
          Map.entry("f", "°F"),
          Map.entry("fahrenheit", "°F"),
          Map.entry("degf", "°F"),
          Map.entry("k", "K"),
          Map.entry("kelvin", "K"),
          Map.entry("%", "%"),
          Map.entry("%rh", "%"),
          Map.entry("percent", "%"),
          Map.entry("pct", "%"),
          Map.entry("lx", "lux"),
          Map.entry("lux", "lux"),
          Map.entry("ppm", "ppm"),
          Map.entry("v", "V"),
          Map.entry("volt", "V"),
          Map.entry("volts", "V"),
          Map.entry("mv", "mV"),
          Map.entry("fraction", "fraction"));
  private static final Set<String> UNKNOWN_UNITS = Set.of("klx", "klux", "fc", "ppb", "db", "par");
  private static final Set<String> DERIVED =
      Set.of(
          "dew",
          "dewpoint",
          "taupunkt",
          "rosee",
          "rocio",
          "vpd",
          "heatindex",
          "index",
          "setpoint",
          "alarm",
          "alert",
          "limit",
          "threshold",
          "min",
          "max",
          "minimum",
          "maximum",
          "high",
          "low",
          "std",
          "status",
          "absolute",
          "absolut");
  private static final Set<String> FILLERS =
      Set.of(
          "relative",
          "rel",
          "air",
          "level",
          "value",
          "reading",
          "avg",
          "average",
          "mean",
          "deg",
          "intensity",
          "relh",
          "in",
          "of",
          "the",
          "ambient",
          "internal",
          "temp",
          "rh",
          "hum",
          "relativ",
          "relativer",
          "smp",
          "carbon",
          "dioxide",
          "soil",
          "medium",
          "substrate");
  private static final Set<String> TIME =
      Set.of(
          "time",
          "date",
          "datetime",
          "timestamp",
          "zeit",
          "uhrzeit",
          "datum",
          "zeitstempel",
          "heure",
          "fecha",
          "hora",
          "epoch",
          "unix",
          "unixtime",
          "ts",
          "when",
          "recorded");
  private static final Set<String> SENSOR =
      Set.of(
          "sensor",
          "device",
          "serial",
          "logger",
          "station",
          "probe",
          "name",
          "sn",
          "gerat",
          "kanal",
          "channel",
          "location",
          "node",
          "mac",
          "seriennummer",
          "box",
          "container");

  ColumnWords {
    words = List.copyOf(words);
  }

  static ColumnWords of(String header) {
    List<String> shown = split(header);
    List<String> words = shown.stream().map(ColumnWords::plain).toList();
    Quantity quantity = quantity(words);
    Unit unit = null;
    String unknown = null;
    List<String> rest = new ArrayList<>();
    for (int i = 0; i < words.size(); i++) {
      String word = words.get(i);
      String symbol = UNITS.get(word);
      if (UNKNOWN_UNITS.contains(word)) {
        unknown = shown.get(i);
      } else if (symbol != null && isUnitAt(words, i, quantity)) {
        unit = quantity == null ? null : Unit.of(quantity, symbol).orElse(unit);
        unknown = unit == null && quantity != null ? shown.get(i) : unknown;
      } else if (quantityOf(word) == null && !FILLERS.contains(word)) {
        rest.add(shown.get(i));
      }
    }
    return new ColumnWords(header, quantity, unit, unknown, String.join("-", rest), words);
  }

  /** A single letter is a unit only after another word: "C" in "Temp C", but not in "C1". */
  private static boolean isUnitAt(List<String> words, int index, @Nullable Quantity quantity) {
    String word = words.get(index);
    return word.length() > 1 || word.equals("%") || (index > 0 && quantity != null);
  }

  private static List<String> split(String header) {
    String text =
        Normalizer.normalize(header.replace('º', '°'), Normalizer.Form.NFKC)
            .replaceAll("[°](?=\\s)", "")
            .replaceAll("(?<=[\\p{L}\\p{N}])(?=[°%])", " ")
            .replaceAll("(?<=\\p{Ll}{2})(?=\\p{Lu})", " ")
            .replaceAll("(?<=\\p{L}{3})(?=\\p{N})", " ");
    return Arrays.stream(text.split("[^\\p{L}\\p{M}\\p{N}%°]+"))
        .filter(word -> !word.isEmpty())
        .toList();
  }

  private static String plain(String word) {
    return Normalizer.normalize(word.toLowerCase(Locale.ROOT), Normalizer.Form.NFD)
        .replaceAll("\\p{M}", "");
  }

  private static @Nullable Quantity quantity(List<String> words) {
    boolean soil =
        words.stream().anyMatch(Set.of("soil", "medium", "substrate", "boden")::contains);
    Quantity found = null;
    for (String word : words) {
      Quantity quantity = quantityOf(word);
      if (quantity == Quantity.HUMIDITY && soil) {
        quantity = Quantity.MEDIUM_MOISTURE;
      }
      // "Battery temperature" is not a temperature of the air: its unit does not fit a battery.
      found = found == null || quantity == Quantity.BATTERY ? orElse(quantity, found) : found;
    }
    return found == null && words.contains("dioxide") ? Quantity.CARBON_DIOXIDE : found;
  }

  private static @Nullable Quantity orElse(@Nullable Quantity one, @Nullable Quantity other) {
    return one == null ? other : one;
  }

  private static @Nullable Quantity quantityOf(String word) {
    if (word.contains("moisture") || word.equals("vwc") || word.startsWith("bodenfeucht")) {
      return Quantity.MEDIUM_MOISTURE;
    }
    if (word.contains("humid")
        || word.contains("humedad")
        || word.contains("feucht")
        || word.matches("(rh|hum|hr|rf|rh%|%rh)\\d*")) {
      return Quantity.HUMIDITY;
    }
    if (word.contains("temp") || word.matches("°[cf]|celsius|fahrenheit")) {
      return Quantity.TEMPERATURE;
    }
    if (word.equals("co2") || word.equals("ppm") || word.equals("kohlendioxid")) {
      return Quantity.CARBON_DIOXIDE;
    }
    if (word.matches("lux|lx|light|licht|luz|lumiere|brightness|helligkeit|klx|klux")
        || word.contains("illumin")) {
      return Quantity.LIGHT;
    }
    return word.contains("batt") || word.matches("vbat|akku|voltage|spannung")
        ? Quantity.BATTERY
        : null;
  }

  /** Whether the column holds a calculated value, a limit or a state. */
  boolean isDerived() {
    return words.stream().anyMatch(DERIVED::contains);
  }

  boolean namesTime() {
    return words.stream().anyMatch(TIME::contains);
  }

  boolean namesSensor() {
    return quantity == null && words.stream().anyMatch(SENSOR::contains);
  }

  /**
   * The name of the column in messages.
   *
   * @param index from 0
   */
  String name(int index, ImportTexts texts) {
    return texts.say("column", index + 1, header);
  }
}
