package tepidarium.sqlite;

import java.sql.Connection;
import java.sql.SQLException;
import java.util.concurrent.ArrayBlockingQueue;
import java.util.concurrent.BlockingQueue;
import tepidarium.series.StoreException;

/** A few long-lived reading connections, each used by one thread at a time. */
public final class ReaderPool implements AutoCloseable {
  /** As many as can read at once with profit on a small machine. */
  private static final int SIZE = 4;

  private final BlockingQueue<Connection> idle = new ArrayBlockingQueue<>(SIZE);

  /** Something to read. */
  public interface Query<T> {
    T run(Connection connection) throws SQLException;
  }

  public ReaderPool(SqliteFile file) throws SQLException {
    for (int i = 0; i < SIZE; i++) {
      idle.add(file.reader());
    }
  }

  /**
   * Runs a query on a connection that nobody else uses meanwhile.
   *
   * @throws StoreException when it cannot be answered
   */
  public <T> T with(Query<T> query) {
    Connection connection;
    try {
      connection = idle.take();
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new StoreException("interrupted while waiting to read", e);
    }
    try {
      return query.run(connection);
    } catch (SQLException e) {
      throw new StoreException("cannot read: " + e.getMessage(), e);
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
