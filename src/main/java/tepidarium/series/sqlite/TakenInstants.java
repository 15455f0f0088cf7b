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
import tepidarium.series.ReadingSink;
import tepidarium.series.ScaledValue;

/**
 * Caches the rows of a sensor from an instant on, as far as a reading may be moved. A sensor whose
 * clock stands still asks for the same rows with each of thousands of readings, and a query for
 * each of 100 milliseconds held up all other sensors for minutes. For one thread.
 */
final class TakenInstants implements AutoCloseable {
  private static final Quantity[] QUANTITIES = Quantity.values();

  /** Each takes about 10 KB. */
  private static final int MOST_CACHED = 100;

  /** How a reading and the row at an instant go together. */
  enum Fit {
    /** There is no row, or it lacks a quantity that the reading brings. */
    FREE,
    /** The row holds every value of the reading. */
    SAME,
    /** The row holds another value. */
    CONFLICT
  }

  private record Key(int sensorId, long fromMs) {}

  private final PreparedStatement select;
  private final Map<Key, @Nullable Long[][]> cached = new HashMap<>();

  TakenInstants(Connection connection, String table) throws SQLException {
    select =
        connection.prepareStatement(
            "SELECT at_ms, temperature, humidity, light, battery FROM "
                + table
                + " WHERE sensor_id = ? AND at_ms BETWEEN ? AND ?");
  }

  boolean isCached(int sensorId, long fromMs) {
    return cached.containsKey(new Key(sensorId, fromMs));
  }

  /** How the reading fits so many milliseconds after an instant. */
  Fit fit(int sensorId, long fromMs, int moved, Reading reading) throws SQLException {
    Key key = new Key(sensorId, fromMs);
    @Nullable Long[][] rows = cached.get(key);
    if (rows == null) {
      rows = read(key);
      if (cached.size() == MOST_CACHED) {
        cached.clear();
      }
      cached.put(key, rows);
    }
    return fit(rows[moved], reading);
  }

  private static Fit fit(@Nullable Long[] row, Reading reading) {
    if (row.length == 0) {
      return Fit.FREE;
    }
    Fit fit = Fit.SAME;
    for (int i = 0; i < QUANTITIES.length; i++) {
      Double value = reading.value(QUANTITIES[i]);
      Long there = row[i];
      if (value != null && there == null) {
        fit = Fit.FREE;
      } else if (value != null && there != null && there != ScaledValue.steps(value)) {
        return Fit.CONFLICT;
      }
    }
    return fit;
  }

  /** The values at each millisecond; an empty array where there is no row. */
  private @Nullable Long[][] read(Key key) throws SQLException {
    @Nullable Long[][] rows = new Long[ReadingSink.MAX_SHIFT_MS + 1][0];
    select.setInt(1, key.sensorId());
    select.setLong(2, key.fromMs());
    select.setLong(3, key.fromMs() + ReadingSink.MAX_SHIFT_MS);
    try (ResultSet found = select.executeQuery()) {
      while (found.next()) {
        @Nullable Long[] values = new Long[QUANTITIES.length];
        for (int i = 0; i < values.length; i++) {
          long value = found.getLong(2 + i);
          values[i] = found.wasNull() ? null : value;
        }
        rows[(int) (found.getLong(1) - key.fromMs())] = values;
      }
    }
    return rows;
  }

  /** To be called after each write. */
  void forget() {
    cached.clear();
  }

  @Override
  public void close() throws SQLException {
    select.close();
  }
}
