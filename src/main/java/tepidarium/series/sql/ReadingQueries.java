package tepidarium.series.sql;

import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Instant;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import tepidarium.reading.Arrival;
import tepidarium.reading.Quantity;
import tepidarium.reading.Reading;
import tepidarium.reading.Samples;
import tepidarium.reading.SensorId;
import tepidarium.reading.Span;
import tepidarium.series.Redeliveries;
import tepidarium.series.ScaledValue;
import tepidarium.series.SensorSummary;

/**
 * Queries the tables of readings on a given connection, in SQL that SQLite and PostgreSQL
 * understand. Each sensor is given by its row id.
 */
public final class ReadingQueries {
  /**
   * Number of newest readings in which {@link #summary} searches for the latest value of each
   * quantity.
   */
  public static final int LOOK_BACK = 200;

  private static final Quantity[] QUANTITIES = Quantity.values();

  private static final String COLUMNS = "at_ms, " + QuantityColumns.NAMES;

  private ReadingQueries() {}

  /** The samples of each quantity in a span of a table, both ends included. */
  public static Map<Quantity, Samples> samples(
      Connection connection, String table, int id, Span span) throws SQLException {
    String sql =
        "SELECT "
            + COLUMNS
            + " FROM "
            + table
            + " WHERE sensor_id = ? AND at_ms BETWEEN ? AND ? ORDER BY at_ms";
    try (PreparedStatement statement = connection.prepareStatement(sql)) {
      statement.setInt(1, id);
      statement.setLong(2, span.fromMs());
      statement.setLong(3, span.toMs());
      try (ResultSet rows = statement.executeQuery()) {
        return samples(rows);
      }
    }
  }

  private static Map<Quantity, Samples> samples(ResultSet rows) throws SQLException {
    Samples.@Nullable Builder[] builders = new Samples.Builder[QUANTITIES.length];
    while (rows.next()) {
      long at = rows.getLong(1);
      for (int i = 0; i < QUANTITIES.length; i++) {
        long scaled = rows.getLong(2 + i);
        if (scaled != 0 || !rows.wasNull()) {
          Samples.Builder builder = builders[i];
          if (builder == null) {
            builder = new Samples.Builder(1024);
            builders[i] = builder;
          }
          builder.add(at, ScaledValue.value(scaled));
        }
      }
    }
    Map<Quantity, Samples> result = new EnumMap<>(Quantity.class);
    for (int i = 0; i < QUANTITIES.length; i++) {
      Samples.Builder builder = builders[i];
      if (builder != null) {
        result.put(QUANTITIES[i], builder.build());
      }
    }
    return result;
  }

  /** The time of the first reading in a span, both ends included. */
  public static Optional<Instant> firstAt(Connection connection, int id, long fromMs, long toMs)
      throws SQLException {
    String sql = "SELECT min(at_ms) FROM reading WHERE sensor_id = ? AND at_ms BETWEEN ? AND ?";
    try (PreparedStatement statement = connection.prepareStatement(sql)) {
      statement.setInt(1, id);
      statement.setLong(2, fromMs);
      statement.setLong(3, toMs);
      try (ResultSet row = statement.executeQuery()) {
        long firstMs = row.next() ? row.getLong(1) : 0;
        return row.wasNull() ? Optional.empty() : Optional.of(Instant.ofEpochMilli(firstMs));
      }
    }
  }

  /** The summary of a sensor; null if it has no readings. */
  public static @Nullable SensorSummary summary(Connection connection, int id) throws SQLException {
    Optional<Instant> first = firstAt(connection, id, Long.MIN_VALUE, Long.MAX_VALUE);
    if (first.isEmpty()) {
      return null;
    }
    String sql =
        "SELECT " + COLUMNS + " FROM reading WHERE sensor_id = ? ORDER BY at_ms DESC LIMIT ?";
    try (PreparedStatement statement = connection.prepareStatement(sql)) {
      statement.setInt(1, id);
      statement.setInt(2, LOOK_BACK);
      try (ResultSet rows = statement.executeQuery()) {
        return newest(rows, first.get());
      }
    }
  }

  private static SensorSummary newest(ResultSet rows, Instant first) throws SQLException {
    Map<Quantity, SensorSummary.Value> latest = new EnumMap<>(Quantity.class);
    Instant last = first;
    while (rows.next()) {
      Instant at = Instant.ofEpochMilli(rows.getLong(1));
      last = at.isAfter(last) ? at : last;
      for (int i = 0; i < QUANTITIES.length; i++) {
        long scaled = rows.getLong(2 + i);
        if (!rows.wasNull()) {
          latest.putIfAbsent(QUANTITIES[i], new SensorSummary.Value(ScaledValue.value(scaled), at));
        }
      }
    }
    return new SensorSummary(first, last, latest);
  }

  /** The time of the oldest reading of all sensors. */
  public static Optional<Instant> oldest(Connection connection) throws SQLException {
    String sql =
        """
        SELECT min(at_ms) FROM (
          SELECT (SELECT min(at_ms) FROM reading WHERE sensor_id = id) AS at_ms FROM sensor
          UNION ALL
          SELECT (SELECT min(at_ms) FROM uncertain_reading WHERE sensor_id = id) FROM sensor)
        AS oldest_of_each
        """;
    try (Statement statement = connection.createStatement();
        ResultSet row = statement.executeQuery(sql)) {
      long atMs = row.next() ? row.getLong(1) : 0;
      return row.wasNull() ? Optional.empty() : Optional.of(Instant.ofEpochMilli(atMs));
    }
  }

  /** The newest stored readings of a sensor that have a packet identifier. */
  public static List<Reading> delivered(Connection connection, SensorId sensor, int id)
      throws SQLException {
    List<Reading> found = new ArrayList<>();
    addDelivered(connection, "reading", sensor, id, found);
    addDelivered(connection, "uncertain_reading", sensor, id, found);
    return found;
  }

  private static void addDelivered(
      Connection connection, String table, SensorId sensor, int id, List<Reading> found)
      throws SQLException {
    String newest = "SELECT * FROM " + table + " WHERE sensor_id = ? ORDER BY at_ms DESC LIMIT ?";
    String sql =
        "SELECT "
            + COLUMNS
            + ", delivery FROM ("
            + newest
            + ") AS newest WHERE delivery IS NOT NULL";
    try (PreparedStatement statement = connection.prepareStatement(sql)) {
      statement.setInt(1, id);
      statement.setInt(2, Redeliveries.LOOK_BACK);
      try (ResultSet row = statement.executeQuery()) {
        while (row.next()) {
          found.add(
              new Reading(
                  sensor,
                  Instant.ofEpochMilli(row.getLong(1)),
                  QuantityColumns.values(row, 2),
                  new Arrival(row.getInt(2 + QuantityColumns.COUNT), false, false)));
        }
      }
    }
  }
}
