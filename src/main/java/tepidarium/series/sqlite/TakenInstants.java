package tepidarium.series.sqlite;

import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.HashMap;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import tepidarium.reading.Quantity;
import tepidarium.reading.Reading;
import tepidarium.series.ScaledValue;
import tepidarium.series.sql.QuantityColumns;

/**
 * Caches stored rows in blocks of 256 ms and compares new readings with the rows near their
 * instants. The cache is for a sensor whose clock stands still: thousands of its readings need the
 * same rows. Without the cache, one query for each of 100 ms blocked all other sensors for minutes.
 * Not thread-safe.
 */
final class TakenInstants implements AutoCloseable {
  private static final Quantity[] QUANTITIES = Quantity.values();

  private static final int BLOCK_MS = 256;

  /** Maximum number of blocks. Each takes up to 40 KB. */
  private static final int MAX_CACHED_BLOCKS = 50;

  /** How a reading compares with the row at an instant. */
  enum Occupancy {
    /** There is no row, or it lacks a quantity that the reading brings. */
    FREE,
    /** The row holds every value of the reading. */
    SAME,
    /** The row holds another value. */
    CONFLICT
  }

  private record Key(int sensorId, long block) {}

  private final PreparedStatement select;
  private final Map<Key, @Nullable Long[][]> cached = new HashMap<>();

  TakenInstants(Connection connection, String table) throws SQLException {
    select =
        connection.prepareStatement(
            "SELECT at_ms, "
                + QuantityColumns.NAMES
                + " FROM "
                + table
                + " WHERE sensor_id = ? AND at_ms BETWEEN ? AND ?");
  }

  boolean isCached(int sensorId, long atMs) {
    return cached.containsKey(new Key(sensorId, Math.floorDiv(atMs, BLOCK_MS)));
  }

  /** How the reading fits at an instant. */
  Occupancy fit(int sensorId, long atMs, Reading reading) throws SQLException {
    return fit(block(sensorId, atMs)[Math.floorMod(atMs, BLOCK_MS)], reading);
  }

  private @Nullable Long[][] block(int sensorId, long atMs) throws SQLException {
    Key key = new Key(sensorId, Math.floorDiv(atMs, BLOCK_MS));
    @Nullable Long[][] rows = cached.get(key);
    if (rows == null) {
      rows = read(key);
      if (cached.size() == MAX_CACHED_BLOCKS) {
        cached.clear();
      }
      cached.put(key, rows);
    }
    return rows;
  }

  /** The reading, which fitted, has been written at an instant. */
  void written(int sensorId, long atMs, Reading reading) throws SQLException {
    @Nullable Long[][] rows = block(sensorId, atMs);
    int index = Math.floorMod(atMs, BLOCK_MS);
    @Nullable Long[] row = rows[index].length == 0 ? new Long[QUANTITIES.length] : rows[index];
    for (int i = 0; i < QUANTITIES.length; i++) {
      Double value = reading.value(QUANTITIES[i]);
      if (value != null) {
        row[i] = ScaledValue.steps(value);
      }
    }
    rows[index] = row;
  }

  private static Occupancy fit(@Nullable Long[] row, Reading reading) {
    if (row.length == 0) {
      return Occupancy.FREE;
    }
    Occupancy fit = Occupancy.SAME;
    for (int i = 0; i < QUANTITIES.length; i++) {
      Double value = reading.value(QUANTITIES[i]);
      Long there = row[i];
      if (value != null && there == null) {
        fit = Occupancy.FREE;
      } else if (value != null && there != null && there != ScaledValue.steps(value)) {
        return Occupancy.CONFLICT;
      }
    }
    return fit;
  }

  /** The values at each millisecond; an empty array where there is no row. */
  private @Nullable Long[][] read(Key key) throws SQLException {
    @Nullable Long[][] rows = new Long[BLOCK_MS][0];
    long fromMs = key.block() * BLOCK_MS;
    select.setInt(1, key.sensorId());
    select.setLong(2, fromMs);
    select.setLong(3, fromMs + BLOCK_MS - 1);
    try (ResultSet found = select.executeQuery()) {
      while (found.next()) {
        @Nullable Long[] values = new Long[QUANTITIES.length];
        for (int i = 0; i < values.length; i++) {
          long value = found.getLong(2 + i);
          values[i] = found.wasNull() ? null : value;
        }
        rows[(int) (found.getLong(1) - fromMs)] = values;
      }
    }
    return rows;
  }

  /** To be called when the table may have changed otherwise. */
  void forget() {
    cached.clear();
  }

  @Override
  public void close() throws SQLException {
    select.close();
  }
}
