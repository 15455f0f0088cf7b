package tepidarium.sqlite;

import java.sql.Connection;
import java.sql.SQLException;
import java.util.concurrent.ArrayBlockingQueue;
import java.util.concurrent.BlockingQueue;
import tepidarium.series.StoreException;

/**
 * A pool of four long-lived read connections. Thread-safe; each connection serves one thread at a
 * time, and callers wait for a free one.
 */
public final class ReaderPool implements AutoCloseable {
  /** On a small machine, more parallel reads than four are not faster. */
  private static final int SIZE = 4;

  private final BlockingQueue<Connection> idle = new ArrayBlockingQueue<>(SIZE);

  /** A query to run on a pooled connection. */
  public interface Query<T> {
    T run(Connection connection) throws SQLException;
  }

  public ReaderPool(SqliteFile file) throws SQLException {
    for (int i = 0; i < SIZE; i++) {
      idle.add(file.reader());
    }
  }

  /**
   * Runs a query on a connection that no other thread uses at the same time.
   *
   * @throws StoreException when the query fails
   */
  public <T> T with(Query<T> query) {
    Connection connection;
    try {
      connection = idle.take();
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new StoreException("interrupted while waiting for a database connection", e);
    }
    try {
      return query.run(connection);
    } catch (SQLException e) {
      throw new StoreException("cannot read from the database: " + e.getMessage(), e);
    } finally {
      idle.add(connection);
    }
  }

  @Override
  public void close() {
    for (int i = 0; i < SIZE; i++) {
      with(
          connection -> {
            connection.close();
            return true;
          });
    }
  }
}
