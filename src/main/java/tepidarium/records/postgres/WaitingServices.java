package tepidarium.records.postgres;

import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.List;
import org.jdbi.v3.core.Handle;

/** The table of the services that wait for the lease. Each renews its row every 2 s. */
final class WaitingServices {
  /** How often a service that waits says so, s. */
  static final int INTERVAL_SECONDS = 2;

  private WaitingServices() {}

  /**
   * Inserts or renews the row of a waiting service. Does nothing if the table does not exist,
   * because a service of an earlier version owns the database.
   */
  static void announce(Connection connection, Owner owner, boolean reachesBroker)
      throws SQLException {
    try (Statement statement = connection.createStatement();
        ResultSet row =
            statement.executeQuery("SELECT to_regclass('waiting_service') IS NOT NULL")) {
      if (!row.next() || !row.getBoolean(1)) {
        return;
      }
    }
    try (PreparedStatement insert =
        connection.prepareStatement(
            "INSERT INTO waiting_service VALUES (?, clock_timestamp(), ?) ON CONFLICT (owner)"
                + " DO UPDATE SET seen_at = excluded.seen_at,"
                + " reaches_broker = excluded.reaches_broker")) {
      insert.setString(1, owner.text());
      insert.setBoolean(2, reachesBroker);
      insert.executeUpdate();
    }
  }

  /** Removes one that no longer waits, and those that were lost long ago. */
  static void remove(Handle handle, Owner owner) {
    handle.execute(
        "DELETE FROM waiting_service WHERE owner = ?"
            + " OR seen_at < clock_timestamp() - interval '1 day'",
        owner.text());
  }

  /** Returns those that wait now. */
  static List<WaitingService> list(Handle handle) {
    return handle
        .createQuery(
            "SELECT owner, reaches_broker FROM waiting_service"
                + " WHERE seen_at > clock_timestamp() - interval '6 s' ORDER BY owner")
        .map(
            (row, context) ->
                new WaitingService(new Owner(row.getString(1)).machine(), row.getBoolean(2)))
        .list();
  }
}
