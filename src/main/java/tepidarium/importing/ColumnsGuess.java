package tepidarium.importing;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import tepidarium.importing.SettingNames.Setting;
import tepidarium.ingest.SensorNames;
import tepidarium.ingest.Unit;
import tepidarium.reading.InvalidInput;
import tepidarium.reading.Quantity;
import tepidarium.reading.SensorId;

/** Guesses the quantity, the unit and the sensor of each column. */
final class ColumnsGuess {
  /** No seeds are kept warmer than this, °C. Higher numbers are read as °F. */
  private static final double WARMEST_C = 45;

  private final LoggerTable table;
  private final List<ColumnWords> words;
  private final Map<Integer, ColumnSetting> settings;
  private final SettingNames names;
  private final List<Guess> guesses;

  ColumnsGuess(
      LoggerTable table,
      List<ColumnWords> words,
      Map<Integer, ColumnSetting> settings,
      SettingNames names,
      List<Guess> guesses) {
    this.table = table;
    this.words = words;
    this.settings = settings;
    this.names = names;
    this.guesses = guesses;
  }

  /** The column that names the sensor of each row; -1 if there is none. */
  int sensorColumn() {
    for (Map.Entry<Integer, ColumnSetting> each : settings.entrySet()) {
      if (each.getValue().role() == ColumnSetting.Role.SENSOR) {
        guesses.add(
            new Guess("sensor", "column " + (each.getKey() + 1), names.setBy(Setting.COLUMNS)));
        return each.getKey();
      }
    }
    for (int i = 0; i < words.size(); i++) {
      if (!settings.containsKey(i) && words.get(i).namesSensor() && holdsNames(i)) {
        guesses.add(
            new Guess(
                "sensor", "column " + (i + 1) + ' ' + words.get(i).quoted(), "its header says so"));
        return i;
      }
    }
    return -1;
  }

  /**
   * Row numbers and measured values are different in nearly every row; names are not. An export of
   * this service may have one row for each of many sensors; its column is named "sensor".
   */
  private boolean holdsNames(int column) {
    Set<String> different = new HashSet<>();
    boolean names = false;
    boolean ids = words.get(column).header().strip().equalsIgnoreCase("sensor");
    for (List<String> row : table.rows()) {
      String cell = row.get(column).strip();
      different.add(cell);
      names |= !cell.isEmpty() && !TableFinder.TIME.read(cell);
      ids &= SensorNames.isExact(cell);
    }
    return names
        && (ids || table.rows().size() <= 4 || different.size() * 2 <= table.rows().size());
  }

  /** Indexes of the columns that may hold values: those whose header names a quantity. */
  List<Integer> candidates(Set<Integer> taken) {
    List<Integer> found = new ArrayList<>();
    for (int i = 0; i < words.size(); i++) {
      ColumnSetting setting = settings.get(i);
      if (!taken.contains(i)
          && (setting == null
              ? words.get(i).quantity() != null && !words.get(i).isDerived()
              : setting.role() == ColumnSetting.Role.QUANTITY)) {
        found.add(i);
      } else if (!taken.contains(i)) {
        String reason =
            setting != null
                ? names.setBy(Setting.COLUMNS)
                : words.get(i).isDerived()
                    ? "a calculated value, a limit or a state"
                    : "its header names no known quantity";
        guesses.add(new Guess(name(i), "left out", reason));
      }
    }
    return found;
  }

  private String name(int column) {
    return "column " + (column + 1) + ' ' + words.get(column).quoted();
  }

  /**
   * The columns with values.
   *
   * @throws InvalidInput if there is none, or two hold the same quantity of one sensor
   */
  List<Column> columns(List<Integer> candidates, char decimal) {
    Map<Quantity, Integer> counts = new HashMap<>();
    candidates.forEach(i -> counts.merge(quantity(i), 1, Integer::sum));
    boolean several = counts.values().stream().anyMatch(count -> count > 1);
    List<Column> columns = new ArrayList<>();
    for (int index : candidates) {
      Unit unit = unit(index, decimal);
      if (unit != null) {
        columns.add(new Column(index, words.get(index).header(), unit, sensor(index, several)));
      }
    }
    if (columns.isEmpty()) {
      throw new InvalidInput(
          "no column's header names a temperature, humidity, light, CO2, moisture or battery. Name"
              + " the columns, such as "
              + names.of(Setting.COLUMNS, "2=temperature")
              + ". The columns are "
              + ColumnSetting.numbered(table.headers()));
    }
    refuseTwins(columns);
    return columns;
  }

  private Quantity quantity(int column) {
    ColumnSetting setting = settings.get(column);
    Quantity set = setting == null ? null : setting.quantity();
    Quantity named = words.get(column).quantity();
    return set != null ? set : Objects.requireNonNull(named);
  }

  private @Nullable SensorId sensor(int column, boolean several) {
    ColumnSetting setting = settings.get(column);
    if (setting != null && setting.sensor() != null) {
      return setting.sensor();
    }
    return several ? SensorNames.adapted(words.get(column).rest()).orElse(null) : null;
  }

  private void refuseTwins(List<Column> columns) {
    Map<List<Object>, Column> seen = new HashMap<>();
    for (Column column : columns) {
      String sensor = column.sensor() == null ? "" : column.sensor().name();
      Column twin = seen.put(List.of(column.unit().quantity(), sensor), column);
      if (twin != null) {
        throw new InvalidInput(
            "%s and %s are both %s of one sensor. Name the sensor of one, such as %s, or leave it out with %s"
                .formatted(
                    name(twin.index()),
                    name(column.index()),
                    column.unit().quantity().key(),
                    names.of(
                        Setting.COLUMNS,
                        column.index() + 1 + "=" + column.unit().quantity().key() + "@jar-1"),
                    names.of(Setting.COLUMNS, column.index() + 1 + "=ignore")));
      }
    }
  }

  /** The unit of a column; null, with the reason in the guesses, if its values cannot be used. */
  private @Nullable Unit unit(int index, char decimal) {
    Quantity quantity = quantity(index);
    ColumnSetting setting = settings.get(index);
    ColumnWords header = words.get(index);
    if (setting != null && setting.unit() != null) {
      return found(index, setting.unit(), names.setBy(Setting.COLUMNS));
    }
    if (header.unit() != null) {
      return found(index, header.unit(), "the header names the unit");
    }
    String unknown = header.unknownUnit();
    if (unknown != null) {
      guesses.add(
          new Guess(
              name(index),
              "left out",
              "its unit " + unknown + " cannot be converted to a known one"));
      return null;
    }
    return unitOfCells(index, quantity, decimal);
  }

  private @Nullable Unit unitOfCells(int index, Quantity quantity, char decimal) {
    List<Double> values = new ArrayList<>();
    for (List<String> row : table.rows()) {
      String cell = row.get(index).strip();
      int end = NumberText.end(cell);
      double value = NumberText.parse(cell.substring(0, end), decimal);
      if (!Double.isNaN(value)) {
        values.add(value);
        String suffix = cell.substring(end).strip();
        Unit unit = suffix.isEmpty() ? null : CellUnit.of(quantity, suffix);
        if (unit != null) {
          return found(index, unit, "the cells name the unit");
        }
      }
    }
    if (values.isEmpty()) {
      guesses.add(new Guess(name(index), "left out", "the first rows hold no numbers"));
      return null;
    }
    values.sort(Comparator.naturalOrder());
    return unitOfSize(
        index, quantity, values.get(values.size() / 2), values.get(values.size() - 1));
  }

  private Unit unitOfSize(int index, Quantity quantity, double median, double largest) {
    if (quantity == Quantity.TEMPERATURE && median > WARMEST_C) {
      return found(
          index,
          Unit.FAHRENHEIT,
          "no unit is named, and half of the values are above %.0f".formatted(median));
    }
    boolean percent = quantity == Quantity.HUMIDITY || quantity == Quantity.MEDIUM_MOISTURE;
    if (percent && largest <= 1) {
      return found(
          index,
          quantity == Quantity.HUMIDITY ? Unit.FRACTION : Unit.FRACTION_OF_MEDIUM,
          "no unit is named, and no value is above 1");
    }
    return found(index, Unit.stored(quantity), "no unit is named, and the values fit");
  }

  private Unit found(int index, Unit unit, String reason) {
    guesses.add(new Guess(name(index), unit.quantity().key() + " in " + unit.symbol(), reason));
    return unit;
  }

  /** The sensor of rows and columns that name none. */
  static SensorId defaultSensor(
      LoggerTable table, ImportOptions options, boolean isUsed, List<Guess> guesses) {
    SensorId set = options.sensor();
    Guess guess;
    if (set != null) {
      guess = new Guess("sensor", set.name(), options.names().setBy(Setting.SENSOR));
    } else {
      guess = SensorLine.find(table);
      if (guess == null) {
        String plain = options.fileName().replaceFirst("\\.[A-Za-z]{2,4}$", "");
        guess =
            new Guess(
                "sensor",
                plain,
                "the name of the file; " + options.names().of(Setting.SENSOR) + " sets another");
      }
    }
    String shown = guess.value();
    SensorId sensor =
        SensorNames.adapted(shown)
            .orElseThrow(
                () ->
                    new InvalidInput("name the sensor with " + options.names().of(Setting.SENSOR)));
    if (isUsed) {
      guesses.add(new Guess("sensor", sensor.name(), guess.reason()));
    }
    return sensor;
  }

  static boolean usesDefault(int sensorColumn, Column... columns) {
    return sensorColumn < 0 && Arrays.stream(columns).anyMatch(column -> column.sensor() == null);
  }
}
