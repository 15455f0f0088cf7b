package tepidarium.sqlite;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import org.flywaydb.core.Flyway;
import org.flywaydb.core.api.FlywayException;
import org.sqlite.SQLiteConfig;
import org.sqlite.SQLiteDataSource;

/**
 * One SQLite file: write-ahead log, synced at every commit, migrated by version when opened. Give
 * out one writing connection, and reading ones apart. Each connection is for one thread at a time.
 */
public final class SqliteFile {
  private static final int BUSY_TIMEOUT_MS = 10_000;
  private static final long LOG_LIMIT_BYTES = 64L << 20;

  private final Path path;

  private SqliteFile(Path path) {
    this.path = path;
  }

  /**
   * Opens or creates the file and brings its schema up to date.
   *
   * @param migrations the folder of the numbered scripts on the class path
   * @throws IllegalStateException when the file cannot be used; the message names it and the remedy
   */
  public static SqliteFile open(Path path, String migrations) {
    SqliteFile file = new SqliteFile(path);
    try {
      Files.createDirectories(path.toAbsolutePath().getParent());
      file.migrate(migrations);
      try (Connection connection = file.writer()) {
        file.expect(connection, "PRAGMA journal_mode", "wal");
        file.expect(connection, "PRAGMA synchronous", "2");
        file.expect(connection, "PRAGMA foreign_keys", "1");
        file.expect(connection, "PRAGMA busy_timeout", String.valueOf(BUSY_TIMEOUT_MS));
      }
    } catch (IOException | SQLException | FlywayException e) {
      throw new IllegalStateException(
          "cannot use the data file "
              + path
              + ": "
              + e.getMessage()
              + ". Is the folder on a local disk, writable and not full? Is another Tepidarium using it?",
          e);
    }
    return file;
  }

  private void migrate(String migrations) {
    SQLiteDataSource source = new SQLiteDataSource(config(false));
    source.setUrl(url());
    Flyway.configure()
        .dataSource(source)
        .locations("classpath:" + migrations)
        .loggers("slf4j")
        .load()
        .migrate();
  }

  private void expect(Connection connection, String pragma, String expected) throws SQLException {
    try (Statement statement = connection.createStatement();
        ResultSet row = statement.executeQuery(pragma)) {
      String found = row.next() ? row.getString(1) : "nothing";
      if (!expected.equals(found)) {
        throw new SQLException(pragma + " is " + found + " where " + expected + " is needed");
      }
    }
  }

  private String url() {
    return "jdbc:sqlite:" + path;
  }

  private static SQLiteConfig config(boolean readOnly) {
    SQLiteConfig config = new SQLiteConfig();
    config.setJournalMode(SQLiteConfig.JournalMode.WAL);
    config.setSynchronous(SQLiteConfig.SynchronousMode.FULL);
    config.setJournalSizeLimit((int) LOG_LIMIT_BYTES);
    config.setBusyTimeout(BUSY_TIMEOUT_MS);
    config.enforceForeignKeys(true);
    if (readOnly) {
      // Not the read-only open mode: that cannot take part in a write-ahead log it finds empty.
      config.setPragma(SQLiteConfig.Pragma.TRANSACTION_MODE, "DEFERRED");
    } else {
      config.setTransactionMode(SQLiteConfig.TransactionMode.IMMEDIATE);
    }
    return config;
  }

  /** A connection for the one thread that writes; its transactions are immediate. */
  public Connection writer() throws SQLException {
    Connection connection = config(false).createConnection(url());
    return connection;
  }

  /** A connection that refuses to write. */
  public Connection reader() throws SQLException {
    Connection connection = config(true).createConnection(url());
    try (Statement statement = connection.createStatement()) {
      statement.execute("PRAGMA query_only = ON");
    }
    return connection;
  }

  public Path path() {
    return path;
  }
}
