package tepidarium.sqlite;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.BasicFileAttributes;
import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.List;
import java.util.Objects;
import org.flywaydb.core.Flyway;
import org.flywaydb.core.api.FlywayException;
import org.jspecify.annotations.Nullable;
import org.sqlite.SQLiteConfig;
import org.sqlite.SQLiteDataSource;
import org.sqlite.SQLiteErrorCode;

/**
 * Opens one SQLite file in write-ahead mode with a disk sync at each commit, and migrates its
 * schema. Creates one write connection and any number of read connections. Each connection serves
 * one thread at a time.
 */
public final class SqliteFile {
  private static final int BUSY_TIMEOUT_MS = 10_000;
  private static final long LOG_LIMIT_BYTES = 64L << 20;

  /** Files up to this size get a full integrity check when opened; it takes a few ms. */
  private static final long FULL_CHECK_MAX_BYTES = 8L << 20;

  private final Path path;
  private volatile @Nullable Object identity;

  private SqliteFile(Path path) {
    this.path = path;
  }

  /**
   * Opens or creates the file and migrates its schema to the newest version.
   *
   * @throws UnusableFile when the file is damaged or written by a later version; the message names
   *     the file
   * @throws IllegalStateException when the file cannot be used for another reason; the message
   *     names the file and the remedy
   */
  public static SqliteFile open(Path path, Schema schema) {
    SqliteFile file = new SqliteFile(path);
    try {
      Files.createDirectories(path.toAbsolutePath().getParent());
      try (Connection connection = file.writer()) {
        file.check(connection);
        file.migrate(connection, schema);
      }
      file.identity = identity(path);
    } catch (SQLException e) {
      throw failed(path, e);
    } catch (FlywayException e) {
      throw migrationFailed(path, schema, e);
    } catch (IOException e) {
      throw unusable(path, e.toString(), e);
    }
    return file;
  }

  /**
   * Reads the schema version of a file without changing it; 0 for a missing or empty file.
   *
   * @throws UnusableFile.Damaged when it is not an SQLite file or cannot be read
   */
  public static int version(Path path) {
    try {
      if (!Files.exists(path) || Files.size(path) == 0) {
        return 0;
      }
      try (Connection connection = new SqliteFile(path).reader()) {
        return version(connection);
      }
    } catch (SQLException e) {
      throw damaged(path, e);
    } catch (IOException e) {
      throw unusable(path, e.toString(), e);
    }
  }

  static IllegalStateException failed(Path path, SQLException e) {
    return isDamage(e) ? damaged(path, e) : unusable(path, message(e), e);
  }

  /** All scripts run in one transaction, so that a failure leaves the file as it was. */
  private static IllegalStateException migrationFailed(
      Path path, Schema schema, FlywayException e) {
    Throwable cause = e;
    while (cause.getCause() != null && !(cause instanceof SQLException)) {
      cause = cause.getCause();
    }
    if (cause instanceof SQLException sql && isDamage(sql)) {
      return damaged(path, sql);
    }
    String reason =
        cause instanceof SQLException sql ? message(sql) : String.valueOf(e.getMessage()).strip();
    return new IllegalStateException(
        path
            + " cannot be migrated to schema version "
            + schema.version()
            + ": "
            + reason
            + ". It is unchanged. If the disk is full, free some space and start again. Otherwise"
            + " go on with the version of Tepidarium that you used before, and report this message",
        e);
  }

  /** Removes SQLite's own message, which the driver repeats in brackets. */
  static UnusableFile damaged(Path path, SQLException e) {
    return new UnusableFile.Damaged(path, message(e).replaceFirst(" \\(.*\\)$", ""), e);
  }

  static boolean isDamage(SQLException e) {
    SQLiteErrorCode code = SQLiteErrorCode.getErrorCode(e.getErrorCode() & 0xFF);
    return code == SQLiteErrorCode.SQLITE_CORRUPT || code == SQLiteErrorCode.SQLITE_NOTADB;
  }

  static String message(SQLException e) {
    return String.valueOf(e.getMessage()).replaceFirst("^\\[\\w+] *", "");
  }

  private static IllegalStateException unusable(Path path, String reason, Exception cause) {
    return new IllegalStateException(
        "cannot use the data file "
            + path
            + ": "
            + reason
            + ". Is the folder on a local disk, writable and not full? Is another Tepidarium using it?",
        cause);
  }

  private void check(Connection connection) throws SQLException, IOException {
    expect(connection, "PRAGMA journal_mode", "wal");
    expect(connection, "PRAGMA synchronous", "2");
    expect(connection, "PRAGMA foreign_keys", "1");
    expect(connection, "PRAGMA busy_timeout", String.valueOf(BUSY_TIMEOUT_MS));
    if (Files.size(path) <= FULL_CHECK_MAX_BYTES) {
      String found = text(connection, "PRAGMA quick_check(1)");
      if (!found.equals("ok")) {
        throw new UnusableFile.Damaged(path, found.lines().findFirst().orElse(found));
      }
    }
  }

  /**
   * Runs Flyway only if the schema is out of date, because starting Flyway is the slowest part of
   * opening.
   */
  private void migrate(Connection connection, Schema schema) throws SQLException {
    int found = version(connection);
    if (found > schema.version()) {
      throw new UnusableFile.NewerVersion(path, found, schema.version());
    }
    if (found == schema.version()) {
      return;
    }
    if (found == 0 && !text(connection, "SELECT count(*) FROM sqlite_master").equals("0")) {
      throw new UnusableFile.Damaged(path, "it has tables that Tepidarium did not create");
    }
    SQLiteDataSource source = new SQLiteDataSource(config(false));
    source.setUrl(url());
    Flyway.configure()
        .dataSource(source)
        .locations("classpath:" + schema.scripts())
        // All migrations are SQL scripts; a search for Java classes takes half of Flyway's time.
        .callbackLocations(new String[0])
        .javaMigrationClassProvider(List::of)
        .group(true)
        .loggers("slf4j")
        .load()
        .migrate();
    int reached = version(connection);
    if (reached != schema.version()) {
      throw new IllegalStateException(
          "the migration scripts in %s end at schema version %d instead of %d"
              .formatted(schema.scripts(), reached, schema.version()));
    }
  }

  static int version(Connection connection) throws SQLException {
    String history = "SELECT count(*) FROM sqlite_master WHERE name = 'flyway_schema_history'";
    if (text(connection, history).equals("0")) {
      return 0;
    }
    return Integer.parseInt(
        text(
            connection,
            "SELECT coalesce(max(CAST(version AS INTEGER)), 0) FROM flyway_schema_history"
                + " WHERE success"));
  }

  private static String text(Connection connection, String sql) throws SQLException {
    try (Statement statement = connection.createStatement();
        ResultSet row = statement.executeQuery(sql)) {
      return row.next() ? String.valueOf(row.getString(1)) : "no row";
    }
  }

  private static void expect(Connection connection, String pragma, String expected)
      throws SQLException {
    String found = text(connection, pragma);
    if (!expected.equals(found)) {
      throw new SQLException(pragma + " is " + found + " but must be " + expected);
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
      // The connection is not opened read-only, because it could then not use an empty write-ahead
      // log.
      config.setPragma(SQLiteConfig.Pragma.TRANSACTION_MODE, "DEFERRED");
    } else {
      config.setTransactionMode(SQLiteConfig.TransactionMode.IMMEDIATE);
    }
    return config;
  }

  /** Opens the connection for the writer thread; its transactions take the write lock at once. */
  public Connection writer() throws SQLException {
    Connection connection = config(false).createConnection(url());
    return connection;
  }

  /** Opens a connection that rejects writes. */
  public Connection reader() throws SQLException {
    Connection connection = config(true).createConnection(url());
    try (Statement statement = connection.createStatement()) {
      statement.execute("PRAGMA query_only = ON");
    }
    return connection;
  }

  /** Opens a connection for one long read of a data file, such as a copy. */
  static Connection plainReader(Path path) throws SQLException {
    SQLiteConfig config = new SQLiteConfig();
    config.setBusyTimeout(BUSY_TIMEOUT_MS);
    return config.createConnection("jdbc:sqlite:" + path);
  }

  public Path path() {
    return path;
  }

  /**
   * Checks that the file was not deleted or replaced since it was opened. Call it before each
   * write: SQLite would continue to write to the old file, and these writes would be lost.
   *
   * @throws SQLException when the file at this path is not the one that was opened
   */
  public void requireInPlace() throws SQLException {
    try {
      if (Objects.equals(identity, identity(path))) {
        return;
      }
    } catch (IOException e) {
      throw new SQLException(
          path + " was removed while the service was running; restart the service", e);
    }
    throw new SQLException(
        path + " was replaced while the service was running; restart the service");
  }

  /**
   * Identifies the file within its file system, such as by its inode; null if it has no such key.
   */
  private static @Nullable Object identity(Path path) throws IOException {
    return Files.readAttributes(path, BasicFileAttributes.class).fileKey();
  }
}
