package tepidarium.postgres;

import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Duration;
import java.util.Objects;
import javax.sql.DataSource;
import org.postgresql.ds.PGSimpleDataSource;
import tepidarium.retry.Reconnect;

/**
 * Opens connections to the server that takes changes. Every commit on them is durable before it
 * returns.
 */
public final class PostgresServer {
  private static final int CONNECT_SECONDS = 2;

  /** How much earlier the server gives a statement up than this program the connection. */
  private static final int EARLIER_MS = 500;

  /** Rows of an answer that are in memory at a time, inside a transaction. */
  private static final int FETCHED_ROWS = 5_000;

  /**
   * Waits for the disk at each commit, whatever the default of the server. Does not lower a
   * stricter default ({@code remote_apply}). Ends a transaction whose service has stopped, so that
   * its locks do not stay, and a statement before its connection is given up.
   */
  private static final String SESSION =
      """
      SELECT set_config('synchronous_commit',
          CASE WHEN current_setting('synchronous_commit') = 'remote_apply' THEN 'remote_apply'
            ELSE 'on' END, false),
        set_config('lock_timeout', '5s', false),
        set_config('statement_timeout', '%d', false),
        set_config('idle_in_transaction_session_timeout', '5s', false),
        current_setting('fsync') = 'on' AS synced
      """;

  private final PostgresAddress address;
  private final Duration answerLimit;

  /**
   * Prepares the connections.
   *
   * @param answerSeconds how long an answer may take; the connection is given up then
   */
  public PostgresServer(PostgresAddress address, int answerSeconds) {
    this.address = address;
    answerLimit = Duration.ofSeconds(answerSeconds);
  }

  private PGSimpleDataSource source(PostgresAddress.Server server) {
    PGSimpleDataSource source = new PGSimpleDataSource();
    source.setServerNames(new String[] {server.host()});
    source.setPortNumbers(new int[] {server.port()});
    source.setDatabaseName(address.database());
    source.setCurrentSchema(address.schema());
    source.setUser(address.user());
    source.setPassword(address.password());
    source.setTargetServerType("primary");
    // Asks each server again: after a failover, what was known of the servers is wrong.
    source.setHostRecheckSeconds(0);
    source.setConnectTimeout(CONNECT_SECONDS);
    // A frozen server takes the connection and does not answer; the next server is tried then.
    source.setSocketTimeout(CONNECT_SECONDS);
    source.setSslResponseTimeout(CONNECT_SECONDS * 1_000);
    source.setTcpKeepAlive(true);
    source.setDefaultRowFetchSize(FETCHED_ROWS);
    source.setApplicationName("tepidarium");
    source.setSslmode(address.sslMode());
    source.setSslRootCert(address.authority());
    // The messages of the server may contain values, such as names.
    source.setLogServerErrorDetail(false);
    return source;
  }

  /** Limits the attempts to connect to a database that fails; servers of one database share it. */
  public static Reconnect reconnect(PostgresAddress address) {
    return new Reconnect("the database " + address, e -> PostgresFailure.words(address, e));
  }

  public PostgresAddress address() {
    return address;
  }

  /** How long an answer may take. */
  Duration answerLimit() {
    return answerLimit;
  }

  /** Returns the source of connections without these session settings, for the migration. */
  public DataSource source() {
    return new PGSimpleDataSource() {
      @Override
      public Connection getConnection() throws SQLException {
        return toPrimary();
      }
    };
  }

  /** Connects to the server that takes changes; the one that did so last is asked first. */
  private Connection toPrimary() throws SQLException {
    ServerOrder order = ServerOrder.of(address.servers());
    SQLException failure = null;
    for (PostgresAddress.Server server : order.servers()) {
      try {
        Connection connection = source(server).getConnection();
        order.first(server);
        connection.setNetworkTimeout(Runnable::run, Math.toIntExact(answerLimit.toMillis()));
        return connection;
      } catch (SQLException e) {
        order.last(server);
        failure = PostgresFailure.moreTelling(failure, e);
      }
    }
    throw Objects.requireNonNull(failure);
  }

  /**
   * Opens a connection.
   *
   * @throws SQLException when the database cannot be used
   * @throws IllegalStateException when its server does not sync its files
   */
  public Connection connect() throws SQLException {
    Connection connection = toPrimary();
    try (Statement statement = connection.createStatement();
        ResultSet row =
            statement.executeQuery(SESSION.formatted(answerLimit.toMillis() - EARLIER_MS))) {
      row.next();
      if (!row.getBoolean("synced")) {
        throw new IllegalStateException(
            "the server of the database "
                + address
                + " runs with fsync off: a power cut would damage the "
                + address.settings()
                + ". Set fsync = on in postgresql.conf");
      }
      return connection;
    } catch (SQLException | IllegalStateException e) {
      close(connection);
      throw e;
    }
  }

  /** Closes a connection that may be broken. */
  public static void close(Connection connection) {
    try {
      connection.close();
    } catch (SQLException e) {
      // It is given up in any case.
    }
  }
}
