package tepidarium.series.postgres;

import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Instant;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;
import tepidarium.reading.Quantity;
import tepidarium.reading.SensorId;
import tepidarium.series.ScaledValue;
import tepidarium.series.SensorSummary;
import tepidarium.series.UncertainReadings;
import tepidarium.series.sql.QuantityColumns;
import tepidarium.series.sql.ReadingQueries;

/** Queries all sensors at once, because each statement takes a round trip to the server. */
final class TableQueries {
  private static final Quantity[] QUANTITIES = Quantity.values();

  private static final String SUMMARIES =
      "SELECT name, (SELECT min(at_ms) FROM reading WHERE sensor_id = id), newest.*"
          + " FROM sensor CROSS JOIN LATERAL (SELECT max(at_ms) AS last, "
          + QuantityColumns.each(
              "max(at_ms) FILTER (WHERE %1$s IS NOT NULL),"
                  + " (array_agg(%1$s ORDER BY at_ms DESC) FILTER (WHERE %1$s IS NOT NULL))[1]",
              ", ")
          + " FROM (SELECT * FROM reading WHERE sensor_id = id ORDER BY at_ms DESC LIMIT "
          + ReadingQueries.LOOK_BACK
          + ") AS latest) AS newest WHERE last IS NOT NULL";

  private TableQueries() {}

  static Map<SensorId, SensorSummary> summaries(Connection connection) throws SQLException {
    Map<SensorId, SensorSummary> summaries = new LinkedHashMap<>();
    try (Statement statement = connection.createStatement();
        ResultSet row = statement.executeQuery(SUMMARIES)) {
      while (row.next()) {
        Map<Quantity, SensorSummary.Value> latest = new EnumMap<>(Quantity.class);
        for (int i = 0; i < QUANTITIES.length; i++) {
          Instant at = Instant.ofEpochMilli(row.getLong(4 + 2 * i));
          if (!row.wasNull()) {
            double value = ScaledValue.value(row.getLong(5 + 2 * i));
            latest.put(QUANTITIES[i], new SensorSummary.Value(value, at));
          }
        }
        summaries.put(
            new SensorId(row.getString(1)),
            new SensorSummary(
                Instant.ofEpochMilli(row.getLong(2)),
                Instant.ofEpochMilli(row.getLong(3)),
                latest));
      }
    }
    return summaries;
  }

  /** Counts the readings of uncertain time. */
  static Map<SensorId, UncertainReadings> uncertain(Connection connection) throws SQLException {
    Map<SensorId, UncertainReadings> counted = new HashMap<>();
    try (Statement statement = connection.createStatement();
        ResultSet row =
            statement.executeQuery(
                "SELECT name, count(*), max(at_ms) FROM uncertain_reading"
                    + " JOIN sensor ON id = sensor_id GROUP BY name")) {
      while (row.next()) {
        counted.put(
            new SensorId(row.getString(1)),
            new UncertainReadings(row.getLong(2), Instant.ofEpochMilli(row.getLong(3))));
      }
    }
    return counted;
  }

  /** Deletes up to {@code limit} rows from before an instant; the number of deleted rows. */
  static int deleteBefore(Connection connection, String table, Instant instant, int limit)
      throws SQLException {
    String sql =
        "DELETE FROM %1$s WHERE (sensor_id, at_ms) IN (SELECT sensor_id, at_ms FROM sensor"
            + " CROSS JOIN LATERAL (SELECT sensor_id, at_ms FROM %1$s WHERE sensor_id = id"
            + " AND at_ms < ? LIMIT ?) AS old LIMIT ?) AND at_ms < ?";
    try (PreparedStatement statement =
        connection.prepareStatement(String.format(Locale.ROOT, sql, table))) {
      statement.setLong(1, instant.toEpochMilli());
      statement.setInt(2, limit);
      statement.setInt(3, limit);
      statement.setLong(4, instant.toEpochMilli());
      return statement.executeUpdate();
    }
  }
}
