package tepidarium.series.sqlite;

import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Types;
import java.util.ArrayList;
import java.util.List;
import tepidarium.reading.Arrival;
import tepidarium.reading.Reading;
import tepidarium.series.ReadingSink;
import tepidarium.series.RefusedReading;
import tepidarium.series.sql.QuantityColumns;

/**
 * Inserts readings into one table, within the caller's transaction. A reading whose instant already
 * holds another value moves to the next free millisecond. Not thread-safe.
 */
final class RowWriter implements AutoCloseable {
  /** The stored and refused readings of one transaction; all others were duplicates. */
  static final class Tally {
    final List<Reading> stored = new ArrayList<>();
    final List<RefusedReading> refused = new ArrayList<>();
  }

  private record Row(int sensorId, Reading reading) {}

  private final boolean uncertain;
  private final PreparedStatement insert;
  private final PreparedStatement sameValues;
  private final PreparedStatement newest;
  private final TakenInstants taken;
  private final List<Row> batch = new ArrayList<>();

  /**
   * Prepares the statements.
   *
   * @param uncertain whether the table holds readings of uncertain time
   */
  RowWriter(Connection connection, String table, boolean uncertain) throws SQLException {
    this.uncertain = uncertain;
    insert = connection.prepareStatement(insertOrFill(table));
    sameValues = connection.prepareStatement(selectSameValues(table));
    newest =
        connection.prepareStatement("SELECT max(at_ms) FROM " + table + " WHERE sensor_id = ?");
    taken = new TakenInstants(connection, table);
  }

  /**
   * Inserts a row, or fills the empty columns of the existing row unless one of its values differs.
   */
  private static String insertOrFill(String table) {
    return "INSERT INTO "
        + table
        + " AS old (sensor_id, at_ms, delivery, "
        + QuantityColumns.NAMES
        + ") VALUES (?, ?, ?, "
        + QuantityColumns.each(name -> "?", ", ")
        + ") ON CONFLICT (sensor_id, at_ms) DO UPDATE SET"
        + " delivery = coalesce(old.delivery, excluded.delivery), "
        + QuantityColumns.each("%1$s = coalesce(old.%1$s, excluded.%1$s)"::formatted, ", ")
        + " WHERE "
        + QuantityColumns.each("ifnull(old.%1$s = excluded.%1$s, 1)"::formatted, " AND ")
        + " AND ("
        + QuantityColumns.each(
            "(old.%1$s IS NULL AND excluded.%1$s IS NOT NULL)"::formatted, " OR ")
        + ")";
  }

  /** Finds a row that has every value of a reading; each value is bound twice. */
  private static String selectSameValues(String table) {
    return "SELECT 1 FROM "
        + table
        + " WHERE sensor_id = ? AND at_ms = ? AND "
        + QuantityColumns.each("(? IS NULL OR %s = ?)"::formatted, " AND ");
  }

  /** Adds a reading to those that {@link #flush} writes. */
  void add(int sensorId, Reading reading) throws SQLException {
    bind(sensorId, reading.at().toEpochMilli(), reading);
    insert.addBatch();
    batch.add(new Row(sensorId, reading));
  }

  /** Writes the added readings. */
  void flush(Tally tally) throws SQLException {
    if (batch.isEmpty()) {
      return;
    }
    int[] changed = insert.executeBatch();
    taken.forget();
    for (int i = 0; i < changed.length; i++) {
      Row row = batch.get(i);
      if (changed[i] > 0) {
        tally.stored.add(row.reading());
      } else {
        resolveConflict(row.sensorId(), row.reading(), tally);
      }
    }
    batch.clear();
  }

  /** Discards the added readings without writing them. */
  void clear() throws SQLException {
    batch.clear();
    insert.clearBatch();
    taken.forget();
  }

  /**
   * Handles a reading whose insert changed nothing: skips a duplicate, else stores the reading at
   * the next free millisecond.
   */
  private void resolveConflict(int sensorId, Reading reading, Tally tally) throws SQLException {
    long atMs = reading.at().toEpochMilli();
    if (!taken.isCached(sensorId, atMs) && isStored(sensorId, atMs, reading)) {
      return;
    }
    if (uncertain) {
      insertAt(sensorId, newestMs(sensorId) + 1, reading);
      tally.stored.add(reading);
      return;
    }
    for (int moved = 0; moved <= ReadingSink.MAX_SHIFT_MS; moved++) {
      TakenInstants.Occupancy fit = taken.fit(sensorId, atMs + moved, reading);
      if (fit == TakenInstants.Occupancy.SAME) {
        return;
      }
      if (fit == TakenInstants.Occupancy.FREE) {
        insertAt(sensorId, atMs + moved, reading);
        taken.written(sensorId, atMs + moved, reading);
        tally.stored.add(reading);
        return;
      }
    }
    tally.refused.add(new RefusedReading(reading, ReadingSink.noFreeInstant(reading)));
  }

  private void insertAt(int sensorId, long atMs, Reading reading) throws SQLException {
    bind(sensorId, atMs, reading);
    insert.executeUpdate();
  }

  private boolean isStored(int sensorId, long atMs, Reading reading) throws SQLException {
    sameValues.setInt(1, sensorId);
    sameValues.setLong(2, atMs);
    QuantityColumns.bindTwice(sameValues, 3, reading);
    return any(sameValues);
  }

  private long newestMs(int sensorId) throws SQLException {
    newest.setInt(1, sensorId);
    try (ResultSet row = newest.executeQuery()) {
      row.next();
      return row.getLong(1);
    }
  }

  private static boolean any(PreparedStatement statement) throws SQLException {
    try (ResultSet row = statement.executeQuery()) {
      return row.next();
    }
  }

  private void bind(int sensorId, long atMs, Reading reading) throws SQLException {
    insert.setInt(1, sensorId);
    insert.setLong(2, atMs);
    Arrival arrival = reading.arrival();
    int delivery = arrival == null ? 0 : arrival.delivery();
    if (delivery == 0) {
      insert.setNull(3, Types.INTEGER);
    } else {
      insert.setInt(3, delivery);
    }
    QuantityColumns.bind(insert, 4, reading);
  }

  @Override
  public void close() throws SQLException {
    insert.close();
    sameValues.close();
    newest.close();
    taken.close();
  }
}
