package tepidarium.series.sqlite;

import java.sql.Connection;
import java.sql.SQLException;
import java.util.concurrent.ArrayBlockingQueue;
import java.util.concurrent.BlockingQueue;
import tepidarium.series.StoreException;
import tepidarium.sqlite.SqliteFile;

/** A few long-lived reading connections, each used by one thread at a time. */
final class ReaderPool implements AutoCloseable {
  /** As many as can read at once with profit on a small machine. */
  private static final int SIZE = 4;

  private final BlockingQueue<Connection> idle = new ArrayBlockingQueue<>(SIZE);

  interface Query<T> {
    T run(Connection connection) throws SQLException;
  }

  ReaderPool(SqliteFile file) throws SQLException {
    for (int i = 0; i < SIZE; i++) {
      idle.add(file.reader());
    }
  }

  <T> T with(Query<T> query) {
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
      throw new StoreException("cannot read readings: " + e.getMessage(), e);
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
