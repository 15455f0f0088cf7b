package tepidarium.importing;

import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import tepidarium.importing.ImportTexts.Setting;
import tepidarium.ingest.SensorNames;
import tepidarium.ingest.Unit;
import tepidarium.reading.InvalidInput;
import tepidarium.reading.Quantity;
import tepidarium.reading.SensorId;

/**
 * The meaning of a column as set by a person, such as {@code 3=temperature:F} or {@code "Probe
 * A=humidity@jar-1"}.
 *
 * @param role quantity, time, clock, sensor or ignore
 * @param quantity the quantity; null for another role
 * @param unit the unit; null if it is not set
 * @param sensor the sensor; null if it is not set
 */
record ColumnSetting(
    Role role, @Nullable Quantity quantity, @Nullable Unit unit, @Nullable SensorId sensor) {
  enum Role {
    QUANTITY,
    TIME,
    CLOCK,
    SENSOR,
    IGNORE
  }

  private static final Pattern FORM = Pattern.compile("(\\w+)(?::([^@]+))?(?:@(.+))?");

  /**
   * Reads the settings of the columns of a table, by index.
   *
   * @throws InvalidInput if a setting is wrong or names a column that the table does not have
   */
  static Map<Integer, ColumnSetting> of(
      Map<String, String> settings, List<String> headers, ImportTexts texts) {
    Map<Integer, ColumnSetting> byIndex = new HashMap<>();
    settings.forEach((key, text) -> byIndex.put(index(key, headers, texts), of(text, texts)));
    return byIndex;
  }

  private static int index(String key, List<String> headers, ImportTexts texts) {
    for (int i = 0; i < headers.size(); i++) {
      if (headers.get(i).equalsIgnoreCase(key.strip())) {
        return i;
      }
    }
    if (key.matches("\\d{1,4}")
        && Integer.parseInt(key) >= 1
        && Integer.parseInt(key) <= headers.size()) {
      return Integer.parseInt(key) - 1;
    }
    throw texts.refusal("no-column", texts.of(Setting.COLUMNS, key), numbered(headers));
  }

  static String numbered(List<String> headers) {
    StringBuilder text = new StringBuilder();
    for (int i = 0; i < headers.size(); i++) {
      text.append(i == 0 ? "" : ", ")
          .append(i + 1)
          .append(" \"")
          .append(headers.get(i))
          .append('"');
    }
    return text.toString();
  }

  static ColumnSetting of(String text, ImportTexts texts) {
    Matcher form = FORM.matcher(text.strip());
    if (!form.matches()) {
      throw wrong(text, texts);
    }
    String name = form.group(1);
    for (Role role : Role.values()) {
      if (role != Role.QUANTITY && role.name().equalsIgnoreCase(name)) {
        return new ColumnSetting(role, null, null, null);
      }
    }
    for (Quantity quantity : Quantity.values()) {
      if (quantity.key().toLowerCase(Locale.ROOT).equals(name.toLowerCase(Locale.ROOT))) {
        return new ColumnSetting(
            Role.QUANTITY, quantity, unit(quantity, form.group(2), texts), sensor(form.group(3)));
      }
    }
    throw wrong(text, texts);
  }

  private static InvalidInput wrong(String text, ImportTexts texts) {
    return texts.refusal("meaning", texts.of(Setting.COLUMNS), text);
  }

  private static @Nullable Unit unit(Quantity quantity, @Nullable String name, ImportTexts texts) {
    if (name == null) {
      return null;
    }
    return Unit.of(quantity, name.strip())
        .orElseThrow(
            () ->
                texts.refusal(
                    "unit",
                    texts.of(Setting.COLUMNS),
                    texts.say("quantity." + quantity.key()),
                    String.join(", ", Unit.symbols(quantity)),
                    name));
  }

  private static @Nullable SensorId sensor(@Nullable String name) {
    return name == null ? null : SensorNames.adapted(name.strip()).orElse(null);
  }
}
