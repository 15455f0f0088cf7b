package tepidarium.records.postgres;

import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.List;
import org.flywaydb.core.Flyway;
import org.flywaydb.core.api.FlywayException;
import tepidarium.postgres.PostgresFailure;
import tepidarium.postgres.PostgresServer;

/**
 * Checks and migrates the schema of the records in PostgreSQL. All scripts run in one transaction.
 */
final class PostgresSchema {
  private static final String SCRIPTS = "db/records-postgres";

  private final PostgresServer server;
  private final int newest;

  /**
   * Creates the check.
   *
   * @param newest the schema version that this program reads and writes
   */
  PostgresSchema(PostgresServer server, int newest) {
    this.server = server;
    this.newest = newest;
  }

  /** Whether the database has no tables of this program yet. */
  boolean isMissing() throws SQLException {
    try (Connection connection = server.connect()) {
      return version(connection) == 0;
    }
  }

  /**
   * Migrates the schema to the newest version.
   *
   * @throws SQLException when the database does not answer
   * @throws IllegalStateException when it has a later version, or cannot be migrated
   */
  void migrate() throws SQLException {
    try (Connection connection = server.connect()) {
      int found = version(connection);
      if (found > newest) {
        throw later(found);
      }
      if (found == newest) {
        return;
      }
    }
    try {
      String schema = server.address().schema();
      Flyway.configure()
          .dataSource(server.source())
          // Creates a schema that is missing; none stands for that of the connection.
          .schemas(schema == null ? new String[0] : new String[] {schema})
          .locations("classpath:" + SCRIPTS)
          .callbackLocations(new String[0])
          .javaMigrationClassProvider(List::of)
          .group(true)
          .loggers("slf4j")
          .load()
          .migrate();
    } catch (FlywayException e) {
      SQLException cause = PostgresFailure.sql(e);
      if (cause != null) {
        throw cause;
      }
      throw new IllegalStateException(
          "the database "
              + server.address()
              + " cannot be migrated to schema version "
              + newest
              + ": "
              + String.valueOf(e.getMessage()).lines().findFirst().orElse("")
              + ". It is unchanged. Name an empty database in recordsUrl, or one of Tepidarium",
          e);
    }
  }

  /**
   * Checks that the connection leads to a database of this version.
   *
   * @throws IllegalStateException if it has another version, or no tables
   */
  void require(Connection connection) throws SQLException {
    int found = version(connection);
    if (found > newest) {
      throw later(found);
    }
    if (found < newest) {
      throw new IllegalStateException(
          "the database "
              + server.address()
              + " was replaced while the service was running: it has schema version "
              + found
              + ". Restart the service");
    }
  }

  private IllegalStateException later(int found) {
    return new IllegalStateException(
        "the database "
            + server.address()
            + " was written by a later version of Tepidarium: it has schema version "
            + found
            + ", and this version supports versions up to "
            + newest
            + ". Start the later version again, or restore a dump from before the upgrade");
  }

  /** The schema version; 0 for a database without tables of this program. */
  private static int version(Connection connection) throws SQLException {
    try (Statement statement = connection.createStatement()) {
      try (ResultSet row =
          statement.executeQuery("SELECT to_regclass('flyway_schema_history') IS NOT NULL")) {
        if (!row.next() || !row.getBoolean(1)) {
          return 0;
        }
      }
      try (ResultSet row =
          statement.executeQuery(
              "SELECT coalesce(max(version::int), 0) FROM flyway_schema_history WHERE success")) {
        return row.next() ? row.getInt(1) : 0;
      }
    }
  }
}
