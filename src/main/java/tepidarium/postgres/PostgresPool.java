package tepidarium.postgres;

import java.sql.Connection;
import java.sql.SQLException;
import java.util.Queue;
import java.util.concurrent.ConcurrentLinkedQueue;
import java.util.concurrent.Semaphore;
import java.util.concurrent.TimeUnit;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import tepidarium.retry.Reconnect;
import tepidarium.series.StoreException;

/**
 * A pool of connections that are opened when they are needed. Each serves one thread at a time, and
 * callers wait for a free one, in turn and no longer than an answer may take. Thread-safe.
 *
 * <p>Work on a connection that breaks is done again on a new one, so it must change nothing when it
 * is done twice.
 */
public final class PostgresPool implements AutoCloseable {
  private static final Logger LOG = LoggerFactory.getLogger(PostgresPool.class);

  /** The class of failures of a connection. */
  private static final String NO_ANSWER = "08000";

  private final PostgresServer server;
  private final Reconnect reconnect;
  private final Preparation preparation;
  private final Semaphore free;
  private final Queue<Connection> idle = new ConcurrentLinkedQueue<>();
  private volatile boolean closed;

  /** One transaction on a connection. */
  public interface Work<T> {
    T run(Connection connection) throws SQLException;
  }

  /** One transaction on a connection that has no result. */
  public interface Change {
    void run(Connection connection) throws SQLException;
  }

  /** Prepares a new connection, in a transaction of its own. */
  public interface Preparation {
    void prepare(Connection connection) throws SQLException;
  }

  /**
   * Prepares a pool without connections.
   *
   * @param size most connections
   */
  public PostgresPool(
      PostgresServer server, Reconnect reconnect, int size, Preparation preparation) {
    this.server = server;
    this.reconnect = reconnect;
    this.preparation = preparation;
    free = new Semaphore(size, true);
  }

  /**
   * Runs work in one transaction and commits it; its changes are durable when this returns.
   *
   * @throws StoreException when the database cannot do it now
   */
  public <T> T with(Work<T> work) {
    awaitFree();
    try {
      Connection used = idle.poll();
      if (used != null) {
        try {
          return run(used, work);
        } catch (SQLException e) {
          if (!PostgresFailure.needsNewConnection(e)) {
            throw failed(e);
          }
          LOG.debug("a connection broke; the others are given up too", e);
          closeIdle();
        }
      }
      if (closed) {
        throw new StoreException("the store is closed", new IllegalStateException());
      }
      try {
        return run(reconnect.attempt(this::open), work);
      } catch (SQLException e) {
        throw failed(e);
      }
    } finally {
      free.release();
    }
  }

  /**
   * The same for work without a result.
   *
   * @throws StoreException when the database cannot do it now
   */
  public void change(Change change) {
    boolean unused =
        with(
            connection -> {
              change.run(connection);
              return true;
            });
  }

  /** Goes on waiting when it is interrupted, so that a stop does not look like an outage. */
  private void awaitFree() {
    long end = System.nanoTime() + server.answerLimit().toNanos();
    boolean interrupted = false;
    try {
      while (true) {
        try {
          if (free.tryAcquire(end - System.nanoTime(), TimeUnit.NANOSECONDS)) {
            return;
          }
          String busy = "all connections were busy for " + server.answerLimit().toSeconds() + " s";
          throw failed(new SQLException(busy, NO_ANSWER));
        } catch (InterruptedException e) {
          interrupted = true;
        }
      }
    } finally {
      if (interrupted) {
        Thread.currentThread().interrupt();
      }
    }
  }

  private StoreException failed(SQLException failure) {
    return new StoreException(PostgresFailure.words(server.address(), failure), failure);
  }

  private Connection open() throws SQLException {
    Connection connection = server.connect();
    try {
      connection.setAutoCommit(false);
      preparation.prepare(connection);
      connection.commit();
      return connection;
    } catch (SQLException | RuntimeException e) {
      PostgresServer.close(connection);
      throw e;
    }
  }

  private <T> T run(Connection connection, Work<T> work) throws SQLException {
    boolean done = false;
    try {
      T result = work.run(connection);
      connection.commit();
      done = true;
      return result;
    } finally {
      if (done || isUsable(connection)) {
        idle.add(connection);
      }
    }
  }

  /** Rolls back after a failure; closes the connection where that fails. */
  private static boolean isUsable(Connection connection) {
    try {
      connection.rollback();
      return true;
    } catch (SQLException e) {
      PostgresServer.close(connection);
      return false;
    }
  }

  private void closeIdle() {
    for (Connection each = idle.poll(); each != null; each = idle.poll()) {
      PostgresServer.close(each);
    }
  }

  /** Closes the connections that nobody uses; call it when nobody uses one. */
  @Override
  public void close() {
    closed = true;
    closeIdle();
  }
}
