package tepidarium.importing;

import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import tepidarium.importing.SettingNames.Setting;
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
      Map<String, String> settings, List<String> headers, SettingNames names) {
    Map<Integer, ColumnSetting> byIndex = new HashMap<>();
    settings.forEach((key, text) -> byIndex.put(index(key, headers, names), of(text, names)));
    return byIndex;
  }

  private static int index(String key, List<String> headers, SettingNames names) {
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
    throw new InvalidInput(
        names.of(Setting.COLUMNS, key)
            + ": the table has no such column. Its columns are "
            + numbered(headers));
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

  static ColumnSetting of(String text, SettingNames names) {
    Matcher form = FORM.matcher(text.strip());
    if (!form.matches()) {
      throw wrong(text, names);
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
            Role.QUANTITY, quantity, unit(quantity, form.group(2), names), sensor(form.group(3)));
      }
    }
    throw wrong(text, names);
  }

  private static InvalidInput wrong(String text, SettingNames names) {
    return new InvalidInput(
        names.of(Setting.COLUMNS)
            + ": \""
            + text
            + "\" is not a meaning. Use time, clock, sensor, ignore, or a quantity"
            + " with its unit and sensor, such as temperature:F@jar-1");
  }

  private static @Nullable Unit unit(Quantity quantity, @Nullable String name, SettingNames names) {
    if (name == null) {
      return null;
    }
    return Unit.of(quantity, name.strip())
        .orElseThrow(
            () ->
                new InvalidInput(
                    names.of(Setting.COLUMNS)
                        + ": "
                        + quantity.key()
                        + " has the units "
                        + String.join(", ", Unit.symbols(quantity))
                        + ", not \""
                        + name
                        + '"'));
  }

  private static @Nullable SensorId sensor(@Nullable String name) {
    return name == null ? null : SensorNames.adapted(name.strip()).orElse(null);
  }
}
