package tepidarium.series.cassandra;

import com.datastax.oss.driver.api.core.ConsistencyLevel;
import com.datastax.oss.driver.api.core.CqlSession;
import com.datastax.oss.driver.api.core.CqlSessionBuilder;
import com.datastax.oss.driver.api.core.DefaultConsistencyLevel;
import com.datastax.oss.driver.api.core.DriverException;
import com.datastax.oss.driver.api.core.config.DefaultDriverOption;
import com.datastax.oss.driver.api.core.config.DriverConfigLoader;
import com.datastax.oss.driver.api.core.cql.Row;
import com.datastax.oss.driver.api.core.cql.SimpleStatement;
import com.datastax.oss.driver.api.core.metadata.Node;
import com.datastax.oss.driver.api.core.ssl.ProgrammaticSslEngineFactory;
import com.datastax.oss.driver.internal.core.specex.ConstantSpeculativeExecutionPolicy;
import java.net.InetSocketAddress;
import java.nio.file.Path;
import java.time.Duration;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Supplier;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import tepidarium.tls.ClientTls;

/**
 * Opens sessions. Every statement needs a quorum of the replicas, waits at most ten seconds, and is
 * sent to a second node if the first one has not answered after one second; all statements may run
 * twice.
 */
final class CassandraSession {
  private static final Logger LOG = LoggerFactory.getLogger(CassandraSession.class);
  private static final Duration CONNECT_LIMIT = Duration.ofSeconds(2);
  private static final Duration ANSWER_LIMIT = Duration.ofSeconds(10);
  private static final Duration SECOND_NODE_AFTER = Duration.ofSeconds(1);

  /** A frozen node is left after two of these. */
  private static final Duration HEARTBEAT = Duration.ofSeconds(2);

  private static final int PAGE = 2_000;

  private CassandraSession() {}

  /**
   * Connects.
   *
   * @throws DriverException when no node answers or the login is refused
   * @throws IllegalStateException when no node is in the data centre
   */
  static CqlSession open(CassandraAddress address) {
    CqlSessionBuilder builder =
        CqlSession.builder()
            .withConfigLoader(options(address))
            .withLocalDatacenter(address.dataCentre());
    for (CassandraAddress.Node node : address.nodes()) {
      builder.addContactPoint(InetSocketAddress.createUnresolved(node.host(), node.port()));
    }
    if (address.user() != null) {
      builder.withAuthCredentials(
          address.user(), Objects.requireNonNullElse(address.password(), ""));
    }
    if (!address.sslMode().equals(CassandraAddress.NO_TLS)) {
      String authority = address.authority();
      ClientTls tls = new ClientTls(authority == null ? null : Path.of(authority), null, null);
      boolean withName = address.sslMode().equals(CassandraAddress.FULL_TLS);
      builder.withSslEngineFactory(new ProgrammaticSslEngineFactory(tls.context(), null, withName));
    }
    CqlSession session = builder.build();
    Set<String> centres =
        session.getMetadata().getNodes().values().stream()
            .map(Node::getDatacenter)
            .filter(Objects::nonNull)
            .collect(Collectors.toCollection(TreeSet::new));
    if (!centres.contains(address.dataCentre())) {
      session.forceCloseAsync();
      throw new IllegalStateException(
          "the cluster of the keyspace "
              + address
              + " has no data centre "
              + address.dataCentre()
              + ", but "
              + String.join(", ", centres)
              + ". Correct dc in readingsUrl");
    }
    return session;
  }

  private static DriverConfigLoader options(CassandraAddress address) {
    return DriverConfigLoader.programmaticBuilder()
        .withString(DefaultDriverOption.SESSION_NAME, "readings")
        .withString(DefaultDriverOption.REQUEST_CONSISTENCY, DefaultConsistencyLevel.QUORUM.name())
        .withBoolean(DefaultDriverOption.REQUEST_DEFAULT_IDEMPOTENCE, true)
        .withDuration(DefaultDriverOption.REQUEST_TIMEOUT, ANSWER_LIMIT)
        .withInt(DefaultDriverOption.REQUEST_PAGE_SIZE, PAGE)
        .withClass(
            DefaultDriverOption.SPECULATIVE_EXECUTION_POLICY_CLASS,
            ConstantSpeculativeExecutionPolicy.class)
        .withInt(DefaultDriverOption.SPECULATIVE_EXECUTION_MAX, 2)
        .withDuration(DefaultDriverOption.SPECULATIVE_EXECUTION_DELAY, SECOND_NODE_AFTER)
        .withDuration(DefaultDriverOption.CONNECTION_CONNECT_TIMEOUT, CONNECT_LIMIT)
        .withDuration(DefaultDriverOption.CONNECTION_INIT_QUERY_TIMEOUT, ANSWER_LIMIT)
        .withDuration(DefaultDriverOption.CONNECTION_SET_KEYSPACE_TIMEOUT, ANSWER_LIMIT)
        .withDuration(DefaultDriverOption.CONTROL_CONNECTION_TIMEOUT, ANSWER_LIMIT)
        .withDuration(DefaultDriverOption.METADATA_SCHEMA_REQUEST_TIMEOUT, ANSWER_LIMIT)
        // Told once, by the words of the failure.
        .withBoolean(DefaultDriverOption.CONNECTION_WARN_INIT_ERROR, false)
        .withDuration(DefaultDriverOption.HEARTBEAT_INTERVAL, HEARTBEAT)
        .withDuration(DefaultDriverOption.HEARTBEAT_TIMEOUT, HEARTBEAT.minusMillis(100))
        .withDuration(DefaultDriverOption.RECONNECTION_BASE_DELAY, Duration.ofMillis(250))
        .withDuration(DefaultDriverOption.RECONNECTION_MAX_DELAY, Duration.ofSeconds(5))
        // Each change of the tables waits for it.
        .withDuration(DefaultDriverOption.METADATA_SCHEMA_WINDOW, Duration.ofMillis(10))
        .withStringList(
            DefaultDriverOption.METADATA_SCHEMA_REFRESHED_KEYSPACES, List.of(address.keyspace()))
        .withInt(DefaultDriverOption.NETTY_IO_SIZE, 2)
        .withInt(DefaultDriverOption.NETTY_ADMIN_SIZE, 1)
        .withBoolean(DefaultDriverOption.NETTY_DAEMON, true)
        .withInt(DefaultDriverOption.NETTY_IO_SHUTDOWN_QUIET_PERIOD, 0)
        .withInt(DefaultDriverOption.NETTY_ADMIN_SHUTDOWN_QUIET_PERIOD, 0)
        .build();
  }

  /** The setting {@code commitlog_sync} of each node, which is asked when the value is needed. */
  static Map<String, Supplier<@Nullable String>> commitlogSyncs(CqlSession session) {
    Map<String, Supplier<@Nullable String>> syncs = new HashMap<>();
    for (Node node : session.getMetadata().getNodes().values()) {
      syncs.put(String.valueOf(node.getEndPoint()), () -> commitlogSync(session, node));
    }
    return syncs;
  }

  private static @Nullable String commitlogSync(CqlSession session, Node node) {
    SimpleStatement ask =
        SimpleStatement.newInstance(
                "SELECT value FROM system_views.settings WHERE name = 'commitlog_sync'")
            .setConsistencyLevel(ConsistencyLevel.ONE)
            .setTimeout(CONNECT_LIMIT)
            .setNode(node);
    try {
      Row row = session.execute(ask).one();
      return row == null ? null : row.getString(0);
    } catch (DriverException e) {
      LOG.debug("{} does not tell commitlog_sync", node.getEndPoint(), e);
      return null;
    }
  }
}
