package tepidarium.records.postgres;

import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Duration;
import java.time.Instant;
import java.util.UUID;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicBoolean;
import org.jdbi.v3.core.Handle;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import tepidarium.postgres.PostgresAddress;
import tepidarium.postgres.PostgresServer;
import tepidarium.records.TakeOver;
import tepidarium.records.TakeOver.Reason;
import tepidarium.thread.DaemonThreads;

/**
 * Holds the lease of the database: one row with owner, epoch and end. The owner renews it each
 * second. Another service takes it after its end, by the clock of the database, and raises the
 * epoch. Each transaction with changes checks its epoch just before it commits and locks the row
 * until then, so that no change with an old epoch can be committed. The owner is a new one at each
 * start: after a kill, the next start waits for the end of the lease.
 *
 * <p>A service that cannot renew the lease gives it up before its end, by the monotonic clock of
 * its own machine. Thread-safe.
 */
final class PostgresLease implements AutoCloseable {
  private static final Logger LOG = LoggerFactory.getLogger(PostgresLease.class);

  /** How long the lease lasts without being renewed. */
  static final Duration LENGTH = Duration.ofSeconds(8);

  /** How long before the end by its own clock the owner gives up. */
  private static final Duration MARGIN = Duration.ofSeconds(1);

  /**
   * Largest difference between the clocks of this machine and of the database with which this
   * service takes over. A reading may be this far ahead of the clock; with a clock further behind,
   * the service would refuse readings.
   */
  private static final Duration CLOCK_LIMIT = Duration.ofMinutes(5);

  private static final long RENEW_MS = 1_000;
  private static final long CHECK_MS = 100;
  private static final int ANSWER_SECONDS = 2;
  private static final String END = "clock_timestamp() + interval '8 s'";
  private static final String IS_OURS = " WHERE owner = ? AND epoch = ?";

  private final PostgresServer server;
  private final Owner owner;
  private final Tenancy tenancy;
  private final Grace grace;
  private final ScheduledExecutorService renewing =
      Executors.newSingleThreadScheduledExecutor(DaemonThreads.named("lease"));
  private final ScheduledExecutorService checking =
      Executors.newSingleThreadScheduledExecutor(DaemonThreads.named("lease-end"));
  private final AtomicBoolean lost = new AtomicBoolean();
  private @Nullable Connection connection;
  private volatile long epoch;
  private volatile long endNanos;
  private volatile Reason givesBack = Reason.STOPPED;
  private volatile Instant since = Instant.EPOCH;
  private @Nullable LeaseRow before;
  private @Nullable Long announcedNanos;
  private @Nullable Duration clockAhead;

  PostgresLease(PostgresAddress address, Owner owner, Tenancy tenancy, Grace grace) {
    // A connection of its own with a short limit: a long transaction must not delay the renewal.
    this.server = new PostgresServer(address, ANSWER_SECONDS);
    this.owner = owner;
    this.tenancy = tenancy;
    this.grace = grace;
  }

  /**
   * Takes the lease if nobody holds it, and begins to renew it.
   *
   * @return null if it was taken; otherwise the service that holds it
   */
  @Nullable Owner take() throws SQLException {
    // Kept for the renewals: to connect can take seconds while a server is frozen.
    Connection taking = connection == null ? server.connect() : connection;
    connection = taking;
    try {
      taking.setAutoCommit(false);
      LeaseRow found = LeaseRow.read(taking);
      grace.answers(found.server());
      compareClocks(found.readAt());
      announce(taking);
      long asked = System.nanoTime();
      if (clockAhead != null || !found.ended() || isLeftAlone(found) || !take(taking, found)) {
        taking.rollback();
        return found.owner();
      }
      taking.commit();
      taking.setAutoCommit(true);
      before = found;
      endNanos = asked + LENGTH.toNanos();
    } catch (SQLException e) {
      disconnect();
      throw e;
    }
    LOG.info("this service owns the database {}, epoch {}", server.address(), epoch);
    var unusedRenewal =
        renewing.scheduleAtFixedRate(this::renew, RENEW_MS, RENEW_MS, TimeUnit.MILLISECONDS);
    var unusedCheck =
        checking.scheduleAtFixedRate(this::checkEnd, CHECK_MS, CHECK_MS, TimeUnit.MILLISECONDS);
    return null;
  }

  private void compareClocks(Instant ofDatabase) {
    Duration ahead = Duration.between(ofDatabase, tenancy.clock().instant());
    clockAhead = tenancy.waits() && ahead.abs().compareTo(CLOCK_LIMIT) > 0 ? ahead : null;
  }

  /**
   * How far the clock of this machine was ahead of the database's when {@link #take} refused to
   * take the lease for that, negative if behind; null if it did not.
   */
  @Nullable Duration clockAhead() {
    return clockAhead;
  }

  /** Says every 2 s that this service waits, unless its clock keeps it from taking over. */
  private void announce(Connection taking) throws SQLException {
    long now = System.nanoTime();
    Long last = announcedNanos;
    if (tenancy.waits()
        && clockAhead == null
        && (last == null
            || now - last >= TimeUnit.SECONDS.toNanos(WaitingServices.INTERVAL_SECONDS))) {
      announcedNanos = now;
      WaitingServices.announce(taking, owner, tenancy.reachesBroker().getAsBoolean());
      taking.commit();
    }
  }

  /** Whether another service has the first claim to a lease that has ended. */
  private boolean isLeftAlone(LeaseRow ended) {
    if (!tenancy.waits() || !ended.hadOwner()) {
      return false;
    }
    boolean ours = owner.isSameService(ended.owner());
    return switch (ended.reason()) {
      case STOPPED -> false;
      case ENDED -> !ours && grace.isRunning();
      case BROKER -> {
        // A service that reaches the broker takes the lease. If none does, any other one takes it.
        if (ours || !tenancy.reachesBroker().getAsBoolean()) {
          grace.beginOnce(ended.epoch());
          yield grace.isRunning();
        }
        yield false;
      }
    };
  }

  /** Returns whether the lease was taken; somebody else may have been faster. */
  private boolean take(Connection taking, LeaseRow found) throws SQLException {
    // Waits for the transactions that the owner is committing.
    try (PreparedStatement lock =
        taking.prepareStatement(
            "SELECT 1 FROM lease WHERE owner = ? OR ends_at < clock_timestamp() FOR UPDATE")) {
      lock.setString(1, owner.text());
      try (ResultSet row = lock.executeQuery()) {
        if (!row.next()) {
          return false;
        }
      }
    }
    try (PreparedStatement update =
        taking.prepareStatement(
            "UPDATE lease SET owner = ?, epoch = epoch + 1, ends_at = "
                + END
                + (found.hasReason() ? ", given_back = NULL" : "")
                + " RETURNING epoch, clock_timestamp()")) {
      update.setString(1, owner.text());
      try (ResultSet row = update.executeQuery()) {
        row.next();
        epoch = row.getLong(1);
        since = row.getTimestamp(2).toInstant();
        return true;
      }
    }
  }

  private void renew() {
    try {
      Connection current = connection;
      if (current == null) {
        current = server.connect();
        connection = current;
      }
      // Taken just before the update: an earlier time would include the wait for a frozen server.
      long asked = System.nanoTime();
      if (update(current, "UPDATE lease SET ends_at = " + END + IS_OURS) == 1) {
        endNanos = asked + LENGTH.toNanos();
      } else {
        lose("another service has taken over the database " + server.address());
      }
    } catch (SQLException | IllegalStateException e) {
      LOG.debug("cannot renew the lease", e);
      disconnect();
    }
  }

  private int update(Connection current, String sql) throws SQLException {
    try (PreparedStatement statement = current.prepareStatement(sql)) {
      statement.setString(1, owner.text());
      statement.setLong(2, epoch);
      return statement.executeUpdate();
    }
  }

  private void checkEnd() {
    if (tenancy.waits() && System.nanoTime() - (endNanos - MARGIN.toNanos()) >= 0) {
      lose(
          "the lease of the database "
              + server.address()
              + " could not be renewed for "
              + LENGTH.minus(MARGIN).toSeconds()
              + " s; another service may take over");
    }
  }

  private void lose(String reason) {
    if (lost.compareAndSet(false, true)) {
      LOG.error("{}", reason);
      tenancy.lost().accept(reason);
    }
  }

  long epoch() {
    return epoch;
  }

  /** Adds this taking to the list of those who owned the database. */
  void list(Connection connection) throws SQLException {
    try (PreparedStatement insert =
        connection.prepareStatement("INSERT INTO ownership (epoch, owner) VALUES (?, ?)")) {
      insert.setLong(1, epoch);
      insert.setString(2, owner.text());
      insert.executeUpdate();
    }
  }

  LeaseState state() {
    long renewedNanos = endNanos - LENGTH.toNanos();
    return new LeaseState(
        owner.machine(), epoch, since, Duration.ofNanos(System.nanoTime() - renewedNanos));
  }

  /**
   * The take-over of the lease from another service; null if nobody or this service held it before,
   * or if this service shares the database with no other. A lease that this service itself gave
   * back because of the broker counts as a take-over. Otherwise it would be given back again soon.
   */
  @Nullable TakeOver takeOver() {
    LeaseRow previous = before;
    if (previous == null || !tenancy.waits() || !previous.hadOwner()) {
      return null;
    }
    boolean again = owner.isSameService(previous.owner()) && previous.reason() != Reason.BROKER;
    return again
        ? null
        : new TakeOver(since, owner.machine(), previous.owner().machine(), previous.reason());
  }

  /** Sets why {@link #close} gives the lease back. */
  void giveBackFor(Reason reason) {
    givesBack = reason;
  }

  /** Whether this service still owns the database, as far as a transaction sees it. */
  boolean isOurs(Handle handle) {
    return handle
        .createQuery("SELECT 1 FROM lease" + IS_OURS)
        .bind(0, owner.text())
        .bind(1, epoch)
        .mapTo(Integer.class)
        .findOne()
        .isPresent();
  }

  /**
   * Marks the change of a transaction, if this service still owns the database. Nobody can take the
   * database until the transaction ends.
   *
   * @return whether this service owns the database
   */
  boolean mark(Handle handle, UUID mark) {
    return handle
            .createUpdate(
                "WITH ours AS (SELECT epoch FROM lease"
                    + IS_OURS
                    + " FOR KEY SHARE) UPDATE ownership SET last_change = ?::uuid FROM ours"
                    + " WHERE ownership.epoch = ours.epoch")
            .bind(0, owner.text())
            .bind(1, epoch)
            .bind(2, mark)
            .execute()
        == 1;
  }

  /**
   * Whether the change with this mark was the last one of this service to be committed. Waits while
   * its transaction is still open.
   */
  boolean isLastChange(Connection connection, UUID mark) throws SQLException {
    try (PreparedStatement query =
        connection.prepareStatement(
            "SELECT last_change = ? FROM ownership WHERE epoch = ? FOR SHARE")) {
      query.setObject(1, mark);
      query.setLong(2, epoch);
      try (ResultSet row = query.executeQuery()) {
        return row.next() && row.getBoolean(1);
      }
    }
  }

  private void disconnect() {
    Connection old = connection;
    connection = null;
    if (old != null) {
      PostgresServer.close(old);
    }
  }

  /** Gives the lease back, so that another service can take it at once. */
  @Override
  public void close() {
    checking.shutdownNow();
    renewing.shutdown();
    try {
      boolean stopped = renewing.awaitTermination(2L * ANSWER_SECONDS, TimeUnit.SECONDS);
      if (stopped && epoch > 0 && !lost.get()) {
        Connection current = connection == null ? server.connect() : connection;
        connection = current;
        update(
            current,
            "UPDATE lease SET ends_at = clock_timestamp(), given_back = '"
                + givesBack.key()
                + '\''
                + IS_OURS);
      }
    } catch (SQLException | IllegalStateException e) {
      LOG.debug("the lease ends by itself", e);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
    disconnect();
  }
}
