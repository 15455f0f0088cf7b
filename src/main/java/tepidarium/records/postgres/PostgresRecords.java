package tepidarium.records.postgres;

import java.sql.Connection;
import java.sql.SQLException;
import java.time.Duration;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Objects;
import java.util.UUID;
import java.util.concurrent.TimeUnit;
import java.util.function.Function;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.Jdbi;
import org.jdbi.v3.core.JdbiException;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import tepidarium.postgres.PostgresAddress;
import tepidarium.postgres.PostgresFailure;
import tepidarium.postgres.PostgresServer;
import tepidarium.records.Database;
import tepidarium.records.StoredTypes;
import tepidarium.records.TakeOver;
import tepidarium.records.TakeOverRecords;
import tepidarium.retry.Backoff;
import tepidarium.retry.Reconnect;
import tepidarium.series.StoreException;
import tepidarium.series.UnknownOutcome;

/**
 * Runs transactions of the records against PostgreSQL on one connection, one at a time, as in a
 * file. Thread-safe.
 *
 * <p>A lost connection is opened again at the next transaction, with a backoff in which
 * transactions fail at once. A change whose commit got no answer is looked up by its mark after the
 * reconnect, so that the caller learns whether it was stored.
 */
public final class PostgresRecords implements Database {
  private static final Logger LOG = LoggerFactory.getLogger(PostgresRecords.class);
  private static final Backoff START = new Backoff(Duration.ofMillis(500), Duration.ofSeconds(30));

  /** Shorter, so that the time of a take-over does not depend on it. */
  private static final Backoff WAITING = new Backoff(Duration.ofMillis(500), Duration.ofSeconds(2));

  /** How long a commit without an answer waits for the database to come back. */
  private static final Duration OUTCOME_LIMIT = Duration.ofSeconds(15);

  private static final long OUTCOME_PAUSE_MS = 200;
  private static final int ANSWER_SECONDS = 10;

  /**
   * How long a start that does not wait tries to get the lease: it may be that of a dead service.
   */
  private static final Duration LEASE_LIMIT = PostgresLease.LENGTH.plusSeconds(2);

  private static final long LEASE_PAUSE_MS = 500;

  private final PostgresServer server;
  private final PostgresSchema schema;
  private final PostgresLease lease;
  private final Reconnect reconnect;
  private @Nullable Connection connection;
  private @Nullable Handle handle;
  private boolean closed;

  private PostgresRecords(PostgresServer server, PostgresSchema schema, PostgresLease lease) {
    this.server = server;
    this.schema = schema;
    this.lease = lease;
    reconnect = PostgresServer.reconnect(server.address());
  }

  /**
   * Takes the database and migrates its schema. Waits while it does not answer, and tries again
   * after 0.5 s to 30 s, or to 2 s if other services may take it too.
   *
   * @throws IllegalStateException when waiting does not help: the login is refused, there is no
   *     such database, or a later version has written it. The message says what to do.
   */
  public static PostgresRecords open(PostgresAddress address, Tenancy tenancy) {
    PostgresServer server = new PostgresServer(address, ANSWER_SECONDS);
    PostgresSchema schema = new PostgresSchema(server, SCHEMA_VERSION);
    Owner owner = Owner.of(tenancy);
    Grace grace = new Grace(PostgresLease.LENGTH, System::nanoTime);
    for (int failures = 1; ; failures++) {
      PostgresLease lease = new PostgresLease(address, owner, tenancy, grace);
      try {
        if (schema.isMissing()) {
          schema.migrate();
        }
        awaitLease(address, lease, tenancy);
        schema.migrate();
        PostgresRecords records = new PostgresRecords(server, schema, lease);
        records.handle = records.connect();
        lease.list(Objects.requireNonNull(records.connection));
        records.noteTaking(owner);
        return records;
      } catch (IllegalStateException e) {
        lease.close();
        throw e;
      } catch (SQLException | StoreException e) {
        lease.close();
        String words = PostgresFailure.words(address, e);
        SQLException sql = PostgresFailure.sql(e);
        if (sql != null && PostgresFailure.isPermanent(sql)) {
          throw new IllegalStateException(words, e);
        }
        grace.away();
        tenancy.waiting().accept(new Waiting(null, null));
        Duration delay = (tenancy.waits() ? WAITING : START).delay(failures);
        LOG.warn("{}; the start waits and tries again in {} s", words, delay.toMillis() / 1000.0);
        pause(delay.toMillis());
      }
    }
  }

  private static void awaitLease(PostgresAddress address, PostgresLease lease, Tenancy tenancy)
      throws SQLException {
    long end = System.nanoTime() + LEASE_LIMIT.toNanos();
    Waiting shown = new Waiting(null, null);
    for (Owner holder = lease.take(); holder != null; holder = lease.take()) {
      if (!tenancy.waits() && System.nanoTime() - end >= 0) {
        throw new IllegalStateException(
            "another service ("
                + holder.machine()
                + ") uses the database "
                + address
                + ". Stop it, name another database in recordsUrl, or set standby to true");
      }
      Waiting waiting = new Waiting(holder.machine(), minutes(lease.clockAhead()));
      if (!waiting.equals(shown)) {
        shown = waiting;
        tell(waiting, address);
        tenancy.waiting().accept(waiting);
      }
      pause(LEASE_PAUSE_MS);
    }
  }

  private static @Nullable Duration minutes(@Nullable Duration ahead) {
    return ahead == null ? null : ahead.truncatedTo(ChronoUnit.MINUTES);
  }

  private static void tell(Waiting waiting, PostgresAddress address) {
    if (waiting.clockAhead() == null) {
      LOG.info(
          "the service on {} owns the database {}; waiting to take over",
          waiting.working(),
          address);
    } else {
      LOG.error(
          "the clock of this machine differs by {} min from the one of the database {}; this service"
              + " does not take over until the wrong one is set",
          waiting.clockAhead().abs().toMinutes(),
          address);
    }
  }

  /** Stores that this service took over from another one, once the table for it is there. */
  private void noteTaking(Owner owner) {
    boolean unused =
        transaction(
            handle -> {
              WaitingServices.remove(handle, owner);
              TakeOver takeOver = lease.takeOver();
              if (takeOver != null) {
                new TakeOverRecords(this).add(takeOver);
              }
              return true;
            });
  }

  /** The number of this taking of the database; each service that takes it raises it by one. */
  public long epoch() {
    return lease.epoch();
  }

  public LeaseState lease() {
    return lease.state();
  }

  /**
   * Returns the services that wait to take over.
   *
   * @throws StoreException when the database does not answer
   */
  public List<WaitingService> waiting() {
    return transaction(WaitingServices::list);
  }

  /**
   * Whether a service has given the lease back within a time because it did not reach the broker.
   *
   * @throws StoreException when the database does not answer
   */
  public boolean wasGivenBackForBroker(Duration within) {
    return transaction(
        handle ->
            handle
                .createQuery(
                    "SELECT count(*) > 0 FROM take_over WHERE reason = :reason"
                        + " AND at_ms > extract(epoch FROM clock_timestamp()) * 1000 - :ms")
                .bind("reason", TakeOver.Reason.BROKER.key())
                .bind("ms", within.toMillis())
                .mapTo(Boolean.class)
                .one());
  }

  /** Whether this service owns the database because another one had lost the broker. */
  public boolean tookOverForBroker() {
    TakeOver takeOver = lease.takeOver();
    return takeOver != null && takeOver.reason() == TakeOver.Reason.BROKER;
  }

  /** Makes {@link #close} say that the lease was given back because the broker is away. */
  public void giveBackForBroker() {
    lease.giveBackFor(TakeOver.Reason.BROKER);
  }

  private static void pause(long ms) {
    try {
      TimeUnit.MILLISECONDS.sleep(ms);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException("interrupted while waiting for the database", e);
    }
  }

  @Override
  public synchronized <T> T transaction(Function<Handle, T> work) {
    Handle current = handle;
    if (current != null && current.isInTransaction()) {
      return work.apply(current);
    }
    Handle begun = begin();
    T result;
    try {
      result = work.apply(begun);
    } catch (JdbiException e) {
      throw failed(begun, e);
    } catch (RuntimeException | Error e) {
      rollback(begun);
      throw e;
    }
    commit(begun);
    return result;
  }

  /** Begins a transaction; opens the connection again if the server has closed it. */
  private Handle begin() {
    Handle current = handle;
    if (current != null) {
      try {
        return begin(current);
      } catch (JdbiException e) {
        drop();
      }
    }
    connectOrFail();
    Handle fresh = Objects.requireNonNull(handle);
    try {
      return begin(fresh);
    } catch (JdbiException e) {
      throw failed(fresh, e);
    }
  }

  /** Asks the server for an answer before the work begins, while nothing depends on it. */
  private Handle begin(Handle handle) {
    handle.begin();
    if (!lease.isOurs(handle)) {
      throw notOurs(handle);
    }
    return handle;
  }

  private StoreException notOurs(Handle handle) {
    rollback(handle);
    return new StoreException(
        "another service has taken over the database " + server.address(),
        new IllegalStateException());
  }

  private void connectOrFail() {
    if (closed) {
      throw new StoreException("the records store is closed", new IllegalStateException());
    }
    handle = reconnect.attempt(this::connect);
  }

  private Handle connect() throws SQLException {
    Connection opened = server.connect();
    try {
      schema.require(opened);
    } catch (SQLException | IllegalStateException e) {
      PostgresServer.close(opened);
      throw e;
    }
    Jdbi jdbi = Jdbi.create(opened);
    StoredTypes.register(jdbi);
    PostgresText.register(jdbi);
    connection = opened;
    return jdbi.open();
  }

  private void drop() {
    Connection old = connection;
    connection = null;
    handle = null;
    if (old != null) {
      PostgresServer.close(old);
    }
  }

  private StoreException failed(Handle begun, JdbiException failure) {
    String words = PostgresFailure.words(server.address(), failure);
    if (PostgresFailure.needsNewConnection(failure)) {
      drop();
      LOG.warn("{}; connecting again", words);
    } else {
      rollback(begun);
    }
    return new StoreException("the records store failed: " + words, failure);
  }

  private void rollback(Handle begun) {
    try {
      begun.rollback();
    } catch (JdbiException e) {
      drop();
    }
  }

  private void commit(Handle begun) {
    UUID mark = UUID.randomUUID();
    boolean changes;
    try {
      changes =
          begun
              .createQuery("SELECT pg_current_xact_id_if_assigned() IS NOT NULL")
              .mapTo(Boolean.class)
              .one();
      if (changes && !lease.mark(begun, mark)) {
        throw notOurs(begun);
      }
    } catch (JdbiException e) {
      throw failed(begun, e);
    }
    try {
      begun.commit();
    } catch (JdbiException e) {
      boolean lost = PostgresFailure.needsNewConnection(e);
      StoreException failure = failed(begun, e);
      if (!changes || (lost && wasCommitted(mark, failure))) {
        return;
      }
      throw failure;
    }
  }

  /**
   * Finds out whether a change was committed whose commit got no answer.
   *
   * @throws UnknownOutcome when the database does not tell within 15 s
   */
  private boolean wasCommitted(UUID mark, StoreException failure) {
    long end = System.nanoTime() + OUTCOME_LIMIT.toNanos();
    while (System.nanoTime() - end < 0) {
      try {
        if (handle == null) {
          connectOrFail();
        }
        return lease.isLastChange(Objects.requireNonNull(connection), mark);
      } catch (SQLException e) {
        drop();
      } catch (StoreException e) {
        LOG.debug("the database is still away", e);
      }
      pause(OUTCOME_PAUSE_MS);
    }
    String words =
        "the database "
            + server.address()
            + " did not confirm a change. It is not known whether the change was stored. Restart"
            + " the service when the database answers again, and look";
    LOG.error(words);
    throw new UnknownOutcome(words, failure);
  }

  @Override
  public synchronized void close() {
    closed = true;
    drop();
    lease.close();
  }
}
