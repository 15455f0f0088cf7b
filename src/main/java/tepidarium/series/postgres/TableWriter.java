package tepidarium.series.postgres;

import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeSet;
import tepidarium.reading.Arrival;
import tepidarium.reading.Quantity;
import tepidarium.reading.Reading;
import tepidarium.reading.SensorId;
import tepidarium.series.InstantAssignment;
import tepidarium.series.Ranges;
import tepidarium.series.ReadingSink;
import tepidarium.series.ScaledValue;
import tepidarium.series.StoredInstant;
import tepidarium.series.WriteResult;
import tepidarium.series.sql.QuantityColumns;

/**
 * Writes batches into one table, within the caller's transaction. One statement writes the first
 * reading of each sensor and instant. What is left (further readings of an instant, and other
 * values at an occupied one) is compared with the rows near it and written with a second one.
 * Thread-safe.
 */
final class TableWriter {
  /** Another program that writes the same readings meanwhile can take an instant. */
  private static final int ATTEMPTS = 5;

  private static final String UNIQUE_VIOLATION = "23505";

  private final String table;
  private final boolean uncertain;
  private final RowUpsert upsert;

  /** A reading and the row id of its sensor. */
  private record Given(int sensorId, long atMs, Reading reading, int place) {
    boolean isSameInstant(Given other) {
      return sensorId == other.sensorId && atMs == other.atMs;
    }
  }

  TableWriter(String table, boolean uncertain) {
    this.table = table;
    this.uncertain = uncertain;
    upsert = new RowUpsert(table);
  }

  /**
   * Writes readings.
   *
   * @param ids the row id of each sensor of the batch
   */
  WriteResult write(Connection connection, List<Reading> batch, Map<SensorId, Integer> ids)
      throws SQLException {
    if (batch.isEmpty()) {
      return WriteResult.NOTHING;
    }
    List<Given> sorted = new ArrayList<>(batch.size());
    for (Reading reading : batch) {
      int id = idOf(reading.sensor(), ids);
      sorted.add(new Given(id, reading.at().toEpochMilli(), reading, sorted.size()));
    }
    // Every writer locks rows in the same order.
    sorted.sort(Comparator.comparingInt(Given::sensorId).thenComparingLong(Given::atMs));
    List<Given> first = new ArrayList<>(batch.size());
    List<Given> left = new ArrayList<>(0);
    for (Given given : sorted) {
      boolean further = !first.isEmpty() && first.get(first.size() - 1).isSameInstant(given);
      (further ? left : first).add(given);
    }
    RowUpsert.Unchanged unchanged = upsert.write(connection, rows(first));
    unchanged.conflicting().stream().mapToObj(first::get).forEach(left::add);
    int repeated = unchanged.same().cardinality();
    WriteResult result =
        new WriteResult(first.size() - unchanged.conflicting().cardinality() - repeated, repeated);
    if (left.isEmpty()) {
      return result;
    }
    left.sort(Comparator.comparingInt(Given::place));
    return result.plus(place(connection, left.stream().map(Given::reading).toList(), ids));
  }

  private static int idOf(SensorId sensor, Map<SensorId, Integer> ids) {
    Integer id = ids.get(sensor);
    if (id == null) {
      throw new IllegalStateException("no row of the sensor " + sensor.name());
    }
    return id;
  }

  private static RowUpsert.Rows rows(List<Given> readings) {
    RowUpsert.Rows rows = new RowUpsert.Rows(readings.size());
    for (int row = 0; row < readings.size(); row++) {
      Given given = readings.get(row);
      Arrival arrival = given.reading().arrival();
      rows.set(row, given.sensorId(), given.atMs(), arrival == null ? 0 : arrival.delivery());
      for (Map.Entry<Quantity, Double> value : given.reading().values().entrySet()) {
        rows.set(row, value.getKey(), ScaledValue.steps(value.getValue()));
      }
    }
    return rows;
  }

  /** Writes readings, each at its own instant or at the next free one. */
  private WriteResult place(
      Connection connection, List<Reading> readings, Map<SensorId, Integer> ids)
      throws SQLException {
    for (int attempt = 0; attempt < ATTEMPTS; attempt++) {
      InstantAssignment assignment = assignment(connection, readings, ids);
      readings.forEach(assignment::add);
      List<StoredInstant> changed = new ArrayList<>(assignment.changed());
      changed.sort(
          Comparator.<StoredInstant>comparingInt(one -> idOf(one.key().sensor(), ids))
              .thenComparingLong(one -> one.key().atMs()));
      if (upsert.write(connection, rows(changed, ids)).conflicting().isEmpty()) {
        int stored = readings.size() - assignment.repeated() - assignment.refused().size();
        return new WriteResult(stored, assignment.repeated(), assignment.refused());
      }
    }
    throw new SQLException("another program writes the same readings", UNIQUE_VIOLATION);
  }

  private static RowUpsert.Rows rows(List<StoredInstant> changed, Map<SensorId, Integer> ids) {
    RowUpsert.Rows rows = new RowUpsert.Rows(changed.size());
    for (int row = 0; row < changed.size(); row++) {
      StoredInstant instant = changed.get(row);
      StoredInstant.Key key = instant.key();
      rows.set(row, idOf(key.sensor(), ids), key.atMs(), instant.delivery());
      for (Map.Entry<Quantity, Long> value : instant.addedSteps().entrySet()) {
        rows.set(row, value.getKey(), value.getValue());
      }
    }
    return rows;
  }

  private InstantAssignment assignment(
      Connection connection, List<Reading> readings, Map<SensorId, Integer> ids)
      throws SQLException {
    Map<SensorId, TreeSet<Long>> instants = new LinkedHashMap<>();
    for (Reading reading : readings) {
      instants
          .computeIfAbsent(reading.sensor(), sensor -> new TreeSet<>())
          .add(reading.at().toEpochMilli());
    }
    InstantAssignment assignment =
        new InstantAssignment(
            uncertain,
            uncertain ? newest(connection, instants.keySet(), ids) : Collections.emptyMap());
    String sql =
        "SELECT at_ms, "
            + QuantityColumns.NAMES
            + " FROM "
            + table
            + " WHERE sensor_id = ? AND at_ms BETWEEN ? AND ?";
    try (PreparedStatement statement = connection.prepareStatement(sql)) {
      for (Map.Entry<SensorId, TreeSet<Long>> of : instants.entrySet()) {
        for (Ranges.Range range : Ranges.over(of.getValue(), ReadingSink.MAX_SHIFT_MS)) {
          statement.setInt(1, idOf(of.getKey(), ids));
          statement.setLong(2, range.fromMs());
          statement.setLong(3, range.toMs() + ReadingSink.MAX_SHIFT_MS);
          try (ResultSet rows = statement.executeQuery()) {
            while (rows.next()) {
              assignment.known(of.getKey(), rows.getLong(1), QuantityColumns.values(rows, 2));
            }
          }
        }
      }
    }
    return assignment;
  }

  private Map<SensorId, Long> newest(
      Connection connection, Iterable<SensorId> sensors, Map<SensorId, Integer> ids)
      throws SQLException {
    Map<SensorId, Long> newest = new HashMap<>();
    try (PreparedStatement statement =
        connection.prepareStatement("SELECT max(at_ms) FROM " + table + " WHERE sensor_id = ?")) {
      for (SensorId sensor : sensors) {
        statement.setInt(1, idOf(sensor, ids));
        try (ResultSet row = statement.executeQuery()) {
          row.next();
          newest.put(sensor, row.getLong(1));
        }
      }
    }
    return newest;
  }
}
