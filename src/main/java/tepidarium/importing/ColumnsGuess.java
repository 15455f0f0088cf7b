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
import tepidarium.importing.ImportTexts.Setting;
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
  private final ImportTexts texts;
  private final List<Guess> guesses;

  ColumnsGuess(
      LoggerTable table,
      List<ColumnWords> words,
      Map<Integer, ColumnSetting> settings,
      ImportTexts texts,
      List<Guess> guesses) {
    this.table = table;
    this.words = words;
    this.settings = settings;
    this.texts = texts;
    this.guesses = guesses;
  }

  /** The column that names the sensor of each row; -1 if there is none. */
  int sensorColumn() {
    for (Map.Entry<Integer, ColumnSetting> each : settings.entrySet()) {
      if (each.getValue().role() == ColumnSetting.Role.SENSOR) {
        guesses.add(
            texts.guess(
                "sensor",
                texts.say("column.number", each.getKey() + 1),
                texts.setBy(Setting.COLUMNS)));
        return each.getKey();
      }
    }
    for (int i = 0; i < words.size(); i++) {
      if (!settings.containsKey(i) && words.get(i).namesSensor() && holdsNames(i)) {
        guesses.add(texts.guess("sensor", name(i), texts.say("why.header-names-it")));
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
                ? texts.setBy(Setting.COLUMNS)
                : texts.say(words.get(i).isDerived() ? "why.derived" : "why.no-quantity");
        guesses.add(leftOut(i, reason));
      }
    }
    return found;
  }

  private String name(int column) {
    return words.get(column).name(column, texts);
  }

  private Guess leftOut(int column, String reason) {
    return new Guess(name(column), texts.say("left-out"), reason);
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
      throw texts.refusal(
          "no-quantity",
          texts.of(Setting.COLUMNS, "2=temperature"),
          ColumnSetting.numbered(table.headers()));
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
        String quantity = column.unit().quantity().key();
        String number = column.index() + 1 + "=";
        throw texts.refusal(
            "twins",
            name(twin.index()),
            name(column.index()),
            texts.say("quantity." + quantity),
            texts.of(Setting.COLUMNS, number + quantity + "@jar-1"),
            texts.of(Setting.COLUMNS, number + "ignore"));
      }
    }
  }

  /** The unit of a column; null, with the reason in the guesses, if its values cannot be used. */
  private @Nullable Unit unit(int index, char decimal) {
    Quantity quantity = quantity(index);
    ColumnSetting setting = settings.get(index);
    ColumnWords header = words.get(index);
    if (setting != null && setting.unit() != null) {
      return found(index, setting.unit(), texts.setBy(Setting.COLUMNS));
    }
    if (header.unit() != null) {
      return found(index, header.unit(), texts.say("why.header-unit"));
    }
    String unknown = header.unknownUnit();
    if (unknown != null) {
      guesses.add(leftOut(index, texts.say("why.unit-unknown", unknown)));
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
          return found(index, unit, texts.say("why.cell-unit"));
        }
      }
    }
    if (values.isEmpty()) {
      guesses.add(leftOut(index, texts.say("why.no-numbers")));
      return null;
    }
    values.sort(Comparator.naturalOrder());
    return unitOfSize(
        index, quantity, values.get(values.size() / 2), values.get(values.size() - 1));
  }

  private Unit unitOfSize(int index, Quantity quantity, double median, double largest) {
    if (quantity == Quantity.TEMPERATURE && median > WARMEST_C) {
      return found(index, Unit.FAHRENHEIT, texts.say("why.fahrenheit", Math.round(median)));
    }
    boolean percent = quantity == Quantity.HUMIDITY || quantity == Quantity.MEDIUM_MOISTURE;
    if (percent && largest <= 1) {
      return found(
          index,
          quantity == Quantity.HUMIDITY ? Unit.FRACTION : Unit.FRACTION_OF_MEDIUM,
          texts.say("why.fraction"));
    }
    return found(index, Unit.stored(quantity), texts.say("why.unit-fits"));
  }

  private Unit found(int index, Unit unit, String reason) {
    String quantity = texts.say("quantity." + unit.quantity().key());
    guesses.add(new Guess(name(index), texts.say("quantity", quantity, unit.symbol()), reason));
    return unit;
  }

  /** The sensor of rows and columns that name none. */
  static SensorId defaultSensor(
      LoggerTable table, ImportOptions options, boolean isUsed, List<Guess> guesses) {
    ImportTexts texts = options.texts();
    SensorId set = options.sensor();
    Guess guess;
    if (set != null) {
      guess = texts.guess("sensor", set.name(), texts.setBy(Setting.SENSOR));
    } else {
      guess = SensorLine.find(table, texts);
      if (guess == null) {
        String plain = options.fileName().replaceFirst("\\.[A-Za-z]{2,4}$", "");
        guess = texts.guess("sensor", plain, texts.say("why.file-name", texts.of(Setting.SENSOR)));
      }
    }
    String shown = guess.value();
    SensorId sensor =
        SensorNames.adapted(shown)
            .orElseThrow(() -> texts.refusal("name-sensor", texts.of(Setting.SENSOR)));
    if (isUsed) {
      guesses.add(texts.guess("sensor", sensor.name(), guess.reason()));
    }
    return sensor;
  }

  static boolean usesDefault(int sensorColumn, Column... columns) {
    return sensorColumn < 0 && Arrays.stream(columns).anyMatch(column -> column.sensor() == null);
  }
}
