package tepidarium.rollup.sqlite;

import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;

/**
 * Deletes hourly sums and fault searches after another service has owned the shared database: it
 * may have stored readings that change them. Keeps those whose raw readings were deleted.
 */
final class SharedReadings {
  private static final String DROP_HOURS =
      "DELETE FROM hour WHERE hour_ms >= (SELECT at_ms FROM raw_from)";
  private static final String DROP_DAYS =
      "DELETE FROM sensor_day WHERE day * 86400000 >= (SELECT at_ms FROM raw_from)";

  private SharedReadings() {}

  /**
   * Compares the epoch with the one before.
   *
   * @param epoch raised by one by each service that takes the shared database
   * @throws SQLException when the file cannot be read or written
   */
  static void follow(Connection writer, long epoch) throws SQLException {
    try (Statement statement = writer.createStatement()) {
      long before;
      try (ResultSet row = statement.executeQuery("SELECT epoch FROM records_epoch")) {
        before = row.next() ? row.getLong(1) : -1;
      }
      if (before != epoch - 1) {
        statement.executeUpdate(DROP_HOURS);
        statement.executeUpdate(DROP_DAYS);
      }
    }
    try (PreparedStatement update = writer.prepareStatement("UPDATE records_epoch SET epoch = ?")) {
      update.setLong(1, epoch);
      update.executeUpdate();
    }
  }
}
