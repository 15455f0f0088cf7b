package tepidarium.series.cassandra;

import com.datastax.oss.driver.api.core.CqlSession;
import com.datastax.oss.driver.api.core.DriverException;
import com.datastax.oss.driver.api.core.cql.AsyncResultSet;
import com.datastax.oss.driver.api.core.cql.PreparedStatement;
import com.datastax.oss.driver.api.core.cql.Row;
import com.datastax.oss.driver.api.core.cql.Statement;
import java.time.Clock;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.List;
import java.util.Map;
import java.util.concurrent.CompletionStage;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.ExecutionException;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import tepidarium.retry.Reconnect;
import tepidarium.series.StoreException;

/**
 * A client for one Cassandra cluster. It connects at the first call and prepares the tables. While
 * that fails, callers fail at once with the words of the last failure until it is time for another
 * attempt. Once connected, the driver itself reconnects. Thread-safe.
 */
final class CassandraServer implements AutoCloseable {
  /** Statements that wait for their answers at a time. */
  private static final int WINDOW = 128;

  /** The same for statements with many rows: a day of a sensor takes about half a megabyte. */
  private static final int LARGE_WINDOW = 16;

  private final CassandraAddress address;
  private final Reconnect reconnect;
  private final DurabilityCheck durability;
  private final Map<String, PreparedStatement> prepared = new ConcurrentHashMap<>();
  private volatile @Nullable CqlSession session;

  /** Receives the rows of several statements. */
  interface Visitor {
    /**
     * Receives a row.
     *
     * @param statement index of its statement
     */
    void row(int statement, Row row);
  }

  CassandraServer(CassandraAddress address, Clock clock) {
    this.address = address;
    reconnect = new Reconnect("the keyspace " + address, e -> CassandraFailure.words(address, e));
    durability = new DurabilityCheck(address, clock);
  }

  /** The name of a table with its keyspace. */
  String table(String name) {
    return address.keyspace() + '.' + name;
  }

  /** What the nodes do not keep through a power cut; empty if they keep all or cannot tell. */
  String durabilityWarning() {
    return durability.warning();
  }

  /** Asks the nodes again what they keep through a power cut, at most once a minute. */
  void checkDurability() {
    durability.check(CassandraSession.commitlogSyncs(session()));
  }

  private CqlSession session() {
    CqlSession open = session;
    return open == null ? opened() : open;
  }

  private synchronized CqlSession opened() {
    if (session != null) {
      return session;
    }
    CqlSession opened = reconnect.attempt(this::open);
    session = opened;
    return opened;
  }

  private CqlSession open() {
    CqlSession opening = CassandraSession.open(address);
    try {
      CassandraTables.prepare(opening, address);
      durability.check(CassandraSession.commitlogSyncs(opening));
      return opening;
    } catch (RuntimeException e) {
      opening.forceCloseAsync();
      throw e;
    }
  }

  /**
   * Prepares a statement, once for all callers.
   *
   * @throws StoreException when the cluster cannot do it now
   */
  PreparedStatement prepare(String cql) {
    CqlSession open = session();
    PreparedStatement known = prepared.get(cql);
    if (known == null) {
      known = described(() -> open.prepare(cql));
      prepared.put(cql, known);
    }
    return known;
  }

  /**
   * Runs statements side by side and passes the rows of each one in order.
   *
   * @throws StoreException when one fails; no statement runs any more then
   */
  void run(List<? extends Statement<?>> statements, Visitor visitor) {
    run(statements, WINDOW, visitor);
  }

  /** Runs statements that may give many rows each, so that few answers wait in memory. */
  void runLarge(List<? extends Statement<?>> statements, Visitor visitor) {
    run(statements, LARGE_WINDOW, visitor);
  }

  private void run(List<? extends Statement<?>> statements, int window, Visitor visitor) {
    CqlSession open = session();
    Deque<CompletionStage<AsyncResultSet>> running = new ArrayDeque<>();
    int next = 0;
    try {
      for (int i = 0; i < statements.size(); i++) {
        while (next < statements.size() && running.size() < window) {
          Statement<?> statement = statements.get(next++);
          running.add(described(() -> open.executeAsync(statement)));
        }
        AsyncResultSet page = answer(running.remove());
        while (true) {
          int statement = i;
          page.currentPage().forEach(row -> visitor.row(statement, row));
          if (!page.hasMorePages()) {
            break;
          }
          page = answer(page.fetchNextPage());
        }
      }
    } finally {
      running.forEach(one -> one.toCompletableFuture().handle((page, failure) -> page).join());
    }
  }

  /** Runs statements that give no rows. */
  void run(List<? extends Statement<?>> statements) {
    run(statements, (statement, row) -> {});
  }

  private AsyncResultSet answer(CompletionStage<AsyncResultSet> running) {
    try {
      return running.toCompletableFuture().get();
    } catch (ExecutionException e) {
      Throwable cause = e.getCause() == null ? e : e.getCause();
      throw new StoreException(CassandraFailure.words(address, cause), cause);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new StoreException("interrupted while waiting for the keyspace " + address, e);
    }
  }

  private <T> T described(Supplier<T> call) {
    try {
      return call.get();
    } catch (DriverException | IllegalStateException e) {
      throw new StoreException(CassandraFailure.words(address, e), e);
    }
  }

  /**
   * Disconnects. Statements under way fail: the driver would wait for them, and a node that is cut
   * off never answers.
   */
  @Override
  public synchronized void close() {
    CqlSession open = session;
    if (open != null) {
      open.forceCloseAsync().toCompletableFuture().join();
    }
  }
}
