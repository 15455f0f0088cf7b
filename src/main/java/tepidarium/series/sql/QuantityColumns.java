package tepidarium.series.sql;

import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Types;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import tepidarium.reading.Quantity;
import tepidarium.reading.Reading;
import tepidarium.series.ScaledValue;

/**
 * The columns of SQL tables that hold the values of readings: one for each quantity, named by its
 * key, in steps of {@link ScaledValue}; NULL where the quantity is absent.
 */
public final class QuantityColumns {
  private static final List<Quantity> ALL = List.of(Quantity.values());

  /** Number of columns. */
  public static final int COUNT = ALL.size();

  /** The names of the columns, separated by commas. */
  public static final String NAMES = each(name -> name, ", ");

  private QuantityColumns() {}

  /** Builds SQL from each column name, and joins the parts with the separator. */
  public static String each(Function<String, String> sql, String separator) {
    return names().map(sql).collect(Collectors.joining(separator));
  }

  /** Builds SQL from each column name, for {@code %1$s} in the form, and joins the parts. */
  public static String each(String form, String separator) {
    return each(name -> String.format(Locale.ROOT, form, name), separator);
  }

  private static Stream<String> names() {
    return ALL.stream().map(Quantity::key);
  }

  /** Binds the values of a reading to consecutive parameters, starting at {@code first}. */
  public static void bind(PreparedStatement statement, int first, Reading reading)
      throws SQLException {
    for (int i = 0; i < COUNT; i++) {
      bindOne(statement, first + i, reading.value(ALL.get(i)));
    }
  }

  /** Binds each value of a reading to two consecutive parameters, starting at {@code first}. */
  public static void bindTwice(PreparedStatement statement, int first, Reading reading)
      throws SQLException {
    for (int i = 0; i < COUNT; i++) {
      Double value = reading.value(ALL.get(i));
      bindOne(statement, first + 2 * i, value);
      bindOne(statement, first + 2 * i + 1, value);
    }
  }

  private static void bindOne(PreparedStatement statement, int index, @Nullable Double value)
      throws SQLException {
    if (value == null) {
      statement.setNull(index, Types.INTEGER);
    } else {
      statement.setLong(index, ScaledValue.steps(value));
    }
  }

  /** Reads the values of a row; {@code first} is the index of the first quantity's column. */
  public static Map<Quantity, Double> values(ResultSet row, int first) throws SQLException {
    Map<Quantity, Double> values = new EnumMap<>(Quantity.class);
    for (int i = 0; i < COUNT; i++) {
      long steps = row.getLong(first + i);
      if (!row.wasNull()) {
        values.put(ALL.get(i), ScaledValue.value(steps));
      }
    }
    return values;
  }
}
