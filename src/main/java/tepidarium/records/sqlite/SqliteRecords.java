package tepidarium.records.sqlite;

import java.nio.file.Path;
import java.sql.Connection;
import java.sql.SQLException;
import java.util.function.Function;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.Jdbi;
import org.jdbi.v3.core.JdbiException;
import tepidarium.records.Database;
import tepidarium.records.StoredTypes;
import tepidarium.series.StoreException;
import tepidarium.sqlite.Schema;
import tepidarium.sqlite.SqliteFile;

/**
 * Opens the records store in one SQLite file and runs transactions on one connection, one at a
 * time. Thread-safe.
 */
public final class SqliteRecords implements Database {
  /** The schema that this version reads and writes. */
  public static final Schema SCHEMA = new Schema("db/records", SCHEMA_VERSION);

  private final SqliteFile file;
  private final Connection connection;
  private final Jdbi jdbi;

  private SqliteRecords(SqliteFile file) throws SQLException {
    this.file = file;
    this.connection = file.writer();
    this.jdbi = Jdbi.create(connection);
    StoredTypes.register(jdbi);
  }

  /**
   * Opens or creates the file.
   *
   * @throws IllegalStateException when the file cannot be used; the message names it
   */
  public static SqliteRecords open(Path path) {
    try {
      return new SqliteRecords(SqliteFile.open(path, SCHEMA));
    } catch (SQLException e) {
      throw new IllegalStateException("cannot open the records store " + path, e);
    }
  }

  @Override
  public synchronized <T> T transaction(Function<Handle, T> work) {
    try {
      file.requireInPlace();
      return jdbi.inTransaction(work::apply);
    } catch (JdbiException | SQLException e) {
      throw new StoreException("the records store failed: " + e.getMessage(), e);
    }
  }

  @Override
  public synchronized void close() {
    try {
      connection.close();
    } catch (SQLException e) {
      throw new StoreException("cannot close the records store", e);
    }
  }
}
