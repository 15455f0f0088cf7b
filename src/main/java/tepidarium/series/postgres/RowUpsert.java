package tepidarium.series.postgres;

import java.sql.Array;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.Arrays;
import java.util.BitSet;
import java.util.EnumMap;
import java.util.Map;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import tepidarium.reading.Quantity;
import tepidarium.series.sql.QuantityColumns;

/**
 * Inserts rows into a table of readings, or fills the empty columns of existing rows, with one
 * statement for all. Values that are stored are never changed. Thread-safe.
 */
final class RowUpsert {
  private static final Quantity[] QUANTITIES = Quantity.values();

  private final String sql;

  /** Values by column; the rows are in the order of their keys, and no key is twice. */
  static final class Rows {
    private final int count;
    private final Integer[] sensorIds;
    private final Long[] atMs;
    private final @Nullable Integer[] deliveries;
    private final Map<Quantity, @Nullable Number[]> values = new EnumMap<>(Quantity.class);
    private boolean delivered;

    Rows(int count) {
      this.count = count;
      sensorIds = new Integer[count];
      atMs = new Long[count];
      deliveries = new Integer[count];
    }

    /** Sets sensor, instant and packet identifier (0 for none) of a row. */
    void set(int row, int sensorId, long at, int delivery) {
      sensorIds[row] = sensorId;
      atMs[row] = at;
      if (delivery > 0) {
        deliveries[row] = delivery;
        delivered = true;
      }
    }

    /** Sets a value of a row, in steps. */
    void set(int row, Quantity quantity, long steps) {
      boolean wide = isWide(quantity);
      @Nullable Number[] column =
          values.computeIfAbsent(quantity, absent -> wide ? new Long[count] : new Integer[count]);
      if (wide) {
        column[row] = steps;
      } else {
        column[row] = (int) steps;
      }
    }

    private Array column(Connection connection, Quantity quantity) throws SQLException {
      @Nullable Number @Nullable [] column = values.get(quantity);
      // The database fills the end of a shorter column with NULL.
      return connection.createArrayOf(
          isWide(quantity) ? "int8" : "int4", column == null ? new Object[0] : column);
    }
  }

  private static boolean isWide(Quantity quantity) {
    return ReadingTables.type(quantity).equals(ReadingTables.WIDE);
  }

  /**
   * The rows that changed nothing.
   *
   * @param same rows whose values are all stored already
   * @param conflicting rows with another value at the same instant, or not compared
   */
  record Unchanged(BitSet same, BitSet conflicting) {}

  RowUpsert(String table) {
    String columns = "sensor_id, at_ms, delivery, " + QuantityColumns.NAMES;
    sql =
        "WITH given AS (SELECT * FROM unnest(?::int[], ?::bigint[], ?::int[], "
            + Arrays.stream(QUANTITIES)
                .map(quantity -> "?::" + ReadingTables.type(quantity) + "[]")
                .collect(Collectors.joining(", "))
            + ") WITH ORDINALITY AS given ("
            + columns
            + ", place)), written AS (INSERT INTO "
            + table
            + " AS old ("
            + columns
            + ") SELECT "
            + columns
            + " FROM given ON CONFLICT (sensor_id, at_ms) DO UPDATE SET"
            + " delivery = coalesce(old.delivery, excluded.delivery), "
            + QuantityColumns.each("%1$s = coalesce(old.%1$s, excluded.%1$s)", ", ")
            + " WHERE "
            + QuantityColumns.each("coalesce(old.%1$s = excluded.%1$s, true)", " AND ")
            + " AND ("
            + QuantityColumns.each("(old.%1$s IS NULL AND excluded.%1$s IS NOT NULL)", " OR ")
            + ") RETURNING sensor_id, at_ms)"
            // The table as it was before the statement.
            + " SELECT place, (SELECT "
            + QuantityColumns.each("coalesce(old.%1$s = given.%1$s, given.%1$s IS NULL)", " AND ")
            + " FROM "
            + table
            + " AS old WHERE old.sensor_id = given.sensor_id AND old.at_ms = given.at_ms)"
            + " FROM given LEFT JOIN written USING (sensor_id, at_ms)"
            + " WHERE written.at_ms IS NULL";
  }

  /** Writes the rows; all others than the returned ones were stored or completed. */
  Unchanged write(Connection connection, Rows rows) throws SQLException {
    try (PreparedStatement statement = connection.prepareStatement(sql)) {
      statement.setArray(1, array(connection, "int4", rows.sensorIds));
      statement.setArray(2, array(connection, "int8", rows.atMs));
      @Nullable Integer[] deliveries = rows.delivered ? rows.deliveries : new Integer[0];
      statement.setArray(3, array(connection, "int4", deliveries));
      for (int i = 0; i < QUANTITIES.length; i++) {
        statement.setArray(4 + i, rows.column(connection, QUANTITIES[i]));
      }
      Unchanged unchanged = new Unchanged(new BitSet(rows.count), new BitSet(rows.count));
      try (ResultSet result = statement.executeQuery()) {
        while (result.next()) {
          (result.getBoolean(2) ? unchanged.same() : unchanged.conflicting())
              .set(result.getInt(1) - 1);
        }
      }
      return unchanged;
    }
  }

  private static Array array(Connection connection, String type, @Nullable Object[] values)
      throws SQLException {
    return connection.createArrayOf(type, values);
  }
}
