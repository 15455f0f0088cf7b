package tepidarium.series.sqlite;

import java.nio.file.Path;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Instant;
import java.util.BitSet;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;
import tepidarium.reading.Quantity;
import tepidarium.reading.Reading;
import tepidarium.reading.Samples;
import tepidarium.reading.SensorId;
import tepidarium.reading.Span;
import tepidarium.series.ReadingSink;
import tepidarium.series.ReadingSource;
import tepidarium.series.ReadingTrimmer;
import tepidarium.series.Redeliveries;
import tepidarium.series.SensorSummary;
import tepidarium.series.StoreException;
import tepidarium.series.UncertainReadings;
import tepidarium.series.WriteResult;
import tepidarium.series.sql.ReadingQueries;
import tepidarium.sqlite.ReaderPool;
import tepidarium.sqlite.Schema;
import tepidarium.sqlite.SqliteFile;

/**
 * Stores readings in one SQLite file. One thread writes. Any number of threads read, each on its
 * own pooled connection. The queries are in {@link ReadingQueries}.
 */
public final class SqliteReadings
    implements ReadingSink, ReadingSource, ReadingTrimmer, AutoCloseable {
  /** The schema that this version reads and writes. */
  public static final Schema SCHEMA = new Schema("db/readings", 4);

  private final SqliteFile file;
  private final Connection writer;
  private final RowWriter rows;
  private final RowWriter uncertainRows;
  private final ReaderPool readers;
  private final Map<SensorId, Integer> sensorIds = new ConcurrentHashMap<>();
  private final Map<SensorId, UncertainReadings> uncertain = new ConcurrentHashMap<>();

  private SqliteReadings(SqliteFile file) throws SQLException {
    this.file = file;
    writer = file.writer();
    rows = new RowWriter(writer, "reading", false);
    uncertainRows = new RowWriter(writer, "uncertain_reading", true);
    readers = new ReaderPool(file);
    loadSensors();
    recountUncertain();
  }

  /**
   * Opens or creates the file.
   *
   * @throws IllegalStateException when the file cannot be used; the message names it
   */
  public static SqliteReadings open(Path path) {
    try {
      return new SqliteReadings(SqliteFile.open(path, SCHEMA));
    } catch (SQLException e) {
      throw new IllegalStateException("cannot open the readings in " + path, e);
    }
  }

  private void loadSensors() throws SQLException {
    try (Statement statement = writer.createStatement();
        ResultSet rows = statement.executeQuery("SELECT id, name FROM sensor")) {
      while (rows.next()) {
        sensorIds.put(new SensorId(rows.getString(2)), rows.getInt(1));
      }
    }
  }

  private void recountUncertain() {
    String sql =
        """
        SELECT name, count(*), max(at_ms) FROM uncertain_reading JOIN sensor ON id = sensor_id
        GROUP BY sensor_id
        """;
    readers.with(
        connection -> {
          Map<SensorId, UncertainReadings> counted = new HashMap<>();
          try (Statement statement = connection.createStatement();
              ResultSet found = statement.executeQuery(sql)) {
            while (found.next()) {
              Instant newest = Instant.ofEpochMilli(found.getLong(3));
              SensorId sensor = new SensorId(found.getString(1));
              counted.put(sensor, new UncertainReadings(found.getLong(2), newest));
            }
          }
          uncertain.keySet().retainAll(counted.keySet());
          uncertain.putAll(counted);
          return counted;
        });
  }

  @Override
  public Map<SensorId, UncertainReadings> uncertain() {
    return Map.copyOf(uncertain);
  }

  @Override
  public WriteResult write(List<Reading> batch) {
    Map<SensorId, Integer> added = new HashMap<>();
    RowWriter.Tally tally = new RowWriter.Tally();
    try {
      BitSet repeatedDeliveries = Redeliveries.repeated(batch, this::delivered);
      file.requireInPlace();
      execute("BEGIN IMMEDIATE");
      for (int i = 0; i < batch.size(); i++) {
        Reading reading = batch.get(i);
        if (!repeatedDeliveries.get(i)) {
          RowWriter target = reading.uncertain() ? uncertainRows : rows;
          target.add(idOf(reading.sensor(), added), reading);
        }
      }
      rows.flush(tally);
      uncertainRows.flush(tally);
      execute("COMMIT");
    } catch (SQLException e) {
      undo(e);
      throw new StoreException("cannot write readings: " + e.getMessage(), e);
    }
    sensorIds.putAll(added);
    tally.stored.stream().filter(Reading::uncertain).forEach(this::count);
    int stored = tally.stored.size();
    int repeated = batch.size() - stored - tally.refused.size();
    return new WriteResult(stored, repeated, tally.refused);
  }

  /** The newest stored readings of a sensor that have a packet identifier. */
  private List<Reading> delivered(SensorId sensor) {
    Integer id = sensorIds.get(sensor);
    if (id == null) {
      return List.of();
    }
    return readers.with(connection -> ReadingQueries.delivered(connection, sensor, id));
  }

  private void count(Reading reading) {
    uncertain.merge(
        reading.sensor(),
        new UncertainReadings(1, reading.at()),
        (old, one) -> old.with(one.newest()));
  }

  /**
   * Runs explicit transaction statements. With its own transaction mode, the driver would start the
   * next transaction at once and keep the write lock; after a failed start it would not start
   * another.
   */
  private void execute(String sql) throws SQLException {
    try (Statement statement = writer.createStatement()) {
      statement.execute(sql);
    }
  }

  private void undo(SQLException cause) {
    try {
      rows.clear();
      uncertainRows.clear();
      execute("ROLLBACK");
    } catch (SQLException e) {
      cause.addSuppressed(e);
    }
  }

  private int idOf(SensorId sensor, Map<SensorId, Integer> added) throws SQLException {
    Integer known = sensorIds.get(sensor);
    if (known == null) {
      known = added.get(sensor);
    }
    if (known != null) {
      return known;
    }
    try (PreparedStatement statement =
        writer.prepareStatement("INSERT INTO sensor (name) VALUES (?) RETURNING id")) {
      statement.setString(1, sensor.name());
      try (ResultSet row = statement.executeQuery()) {
        row.next();
        int id = row.getInt(1);
        added.put(sensor, id);
        return id;
      }
    }
  }

  @Override
  public Map<Quantity, Samples> read(SensorId sensor, Span span) {
    return read("reading", sensor, span);
  }

  @Override
  public Map<Quantity, Samples> readUncertain(SensorId sensor, Span span) {
    return read("uncertain_reading", sensor, span);
  }

  private Map<Quantity, Samples> read(String table, SensorId sensor, Span span) {
    Integer id = sensorIds.get(sensor);
    if (id == null) {
      return Map.of();
    }
    return readers.with(connection -> ReadingQueries.samples(connection, table, id, span));
  }

  @Override
  public Optional<Instant> firstAt(SensorId sensor, Span span) {
    Integer id = sensorIds.get(sensor);
    if (id == null) {
      return Optional.empty();
    }
    return readers.with(
        connection -> ReadingQueries.firstAt(connection, id, span.fromMs(), span.toMs()));
  }

  @Override
  public Map<SensorId, SensorSummary> summaries() {
    return readers.with(
        connection -> {
          Map<SensorId, SensorSummary> result = new LinkedHashMap<>();
          for (Map.Entry<SensorId, Integer> sensor : sensorIds.entrySet()) {
            SensorSummary summary = ReadingQueries.summary(connection, sensor.getValue());
            if (summary != null) {
              result.put(sensor.getKey(), summary);
            }
          }
          return result;
        });
  }

  @Override
  public Optional<Instant> oldest() {
    return readers.with(ReadingQueries::oldest);
  }

  /** Uses a separate connection. SQLite reuses the freed space for later readings. */
  @Override
  public int deleteBefore(Instant instant, int limit) {
    try (Connection connection = file.writer()) {
      int removed = deleteBefore(connection, "reading", instant, limit);
      if (removed < limit && !uncertain.isEmpty()) {
        int more = deleteBefore(connection, "uncertain_reading", instant, limit - removed);
        if (more > 0) {
          recountUncertain();
        }
        removed += more;
      }
      return removed;
    } catch (SQLException e) {
      throw new StoreException("cannot remove old readings: " + e.getMessage(), e);
    }
  }

  private int deleteBefore(Connection connection, String table, Instant instant, int limit)
      throws SQLException {
    String old =
        "SELECT sensor_id, at_ms FROM "
            + table
            + " WHERE sensor_id = ? AND at_ms < ? ORDER BY at_ms LIMIT ?";
    String sql = "DELETE FROM " + table + " WHERE (sensor_id, at_ms) IN (" + old + ")";
    int removed = 0;
    try (PreparedStatement statement = connection.prepareStatement(sql)) {
      for (int id : List.copyOf(sensorIds.values())) {
        statement.setInt(1, id);
        statement.setLong(2, instant.toEpochMilli());
        statement.setInt(3, limit - removed);
        removed += statement.executeUpdate();
        if (removed >= limit) {
          break;
        }
      }
      return removed;
    }
  }

  @Override
  public void close() {
    readers.close();
    try {
      rows.close();
      uncertainRows.close();
      writer.close();
    } catch (SQLException e) {
      throw new StoreException("cannot close the readings", e);
    }
  }
}
