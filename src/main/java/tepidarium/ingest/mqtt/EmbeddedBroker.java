package tepidarium.ingest.mqtt;

import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.ServerSocket;
import java.nio.file.Path;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicReference;
import java.util.stream.Collectors;
import javax.net.ssl.SSLContext;
import org.apache.activemq.artemis.api.core.ActiveMQDisconnectedException;
import org.apache.activemq.artemis.api.core.SimpleString;
import org.apache.activemq.artemis.core.remoting.server.RemotingService;
import org.apache.activemq.artemis.core.security.impl.SecurityStoreImpl;
import org.apache.activemq.artemis.core.server.ActiveMQServer;
import org.apache.activemq.artemis.core.server.Queue;
import org.apache.activemq.artemis.core.server.ServerSession;
import org.apache.activemq.artemis.spi.core.remoting.Acceptor;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import tepidarium.disk.DiskSpace;

/**
 * Runs an MQTT broker inside this process. It syncs its journal before it acknowledges a message,
 * so acknowledged messages survive a crash. Publishers wait while less than 8 MiB of the disk are
 * free. The broker stops when its journal cannot be written. A watchdog thread then tries once a
 * second to restart it, at first for this service only.
 */
public final class EmbeddedBroker implements AutoCloseable {
  private static final Logger LOG = LoggerFactory.getLogger(EmbeddedBroker.class);
  private static final String SENSORS = "sensors";
  private static final String TLS_SENSORS = "sensors-tls";
  private static final int CHECK_EVERY_MS = 1_000;

  /** Maximum time for a packet of up to 4 MB to arrive, enough for a slow wireless network. */
  private static final long PACKET_TIMEOUT_SECONDS = 60;

  private final SensorPorts ports;
  private final Path folder;
  private final BrokerConfiguration configuration;
  private final BrokerAccounts accounts;
  private final BrokerQuota quota;
  private final SessionLimit sessions;
  private final PacketMemory packets;
  private final LoginLimit logins;
  private final ClientRates rates;
  private final SensorConnections connections;
  private final AnonymousRefusals anonymous = new AnonymousRefusals(System::nanoTime);
  private final Thread watchdog;
  private ActiveMQServer server;
  private volatile int servicePort;
  private volatile @Nullable String trouble;
  private volatile boolean stopping;

  private EmbeddedBroker(
      SensorPorts ports, Path folder, BrokerAccounts accounts, BrokerLimits limits)
      throws Exception {
    this.ports = ports;
    this.folder = folder;
    this.configuration = new BrokerConfiguration(folder, limits);
    this.accounts = accounts;
    this.rates = new ClientRates(limits, System::nanoTime);
    this.connections = new SensorConnections(limits, System::nanoTime);
    this.logins = new LoginLimit(System::nanoTime, accounts::count);
    this.quota = new BrokerQuota(limits, accounts.serviceClientId(), System::nanoTime);
    this.packets =
        PacketMemory.of(limits.packetBytes(), why -> accounts.reportRefused("(not read)", why));
    this.sessions = new SessionLimit(limits, accounts.serviceClientId());
    accounts.setQuota(quota);
    this.server = startServer();
    this.watchdog = new Thread(this::runWatchdog, "broker-watchdog");
    watchdog.setDaemon(true);
    watchdog.start();
  }

  /**
   * Starts the broker for this service only. Call {@link #openSensorPort} after the service has
   * subscribed. Before that, the broker would acknowledge and drop the messages of sensors.
   *
   * @param ports where it listens for sensors
   * @param accounts decides who may log in and which topics each client may use
   * @param limits limits of topics, subscriptions and waiting messages
   * @throws IllegalStateException when it cannot start, for example because the port is in use
   */
  public static EmbeddedBroker start(
      SensorPorts ports, Path folder, BrokerAccounts accounts, BrokerLimits limits) {
    requireFreePort(ports.host(), ports.port());
    if (ports.tls() != null) {
      requireFreePort(ports.host(), ports.tls().port());
    }
    JournalFiles.requireIntact(folder);
    try {
      return new EmbeddedBroker(ports, folder, accounts, limits);
    } catch (IllegalStateException e) {
      throw e;
    } catch (Exception e) {
      throw JournalFiles.startFailure(folder, BrokerConfiguration.MIN_FREE_BYTES, e);
    }
  }

  /**
   * Starts a broker for the service. Uses a new free port each time, because another program may
   * have taken the previous one.
   */
  private ActiveMQServer startServer() throws Exception {
    servicePort = freePort();
    ActiveMQServer fresh = new LazyPagingBroker(configuration.broker(servicePort), accounts);
    fresh.addProtocolManagerFactory(
        new LimitedMqttFactory(
            () -> new PacketLimit(packets, rates, PACKET_TIMEOUT_SECONDS),
            server -> new SubscriptionLimit(server, accounts, quota)));
    AtomicReference<@Nullable Exception> failure = new AtomicReference<>();
    fresh.registerActivationFailureListener(failure::set);
    try {
      fresh.start();
      if (!fresh.isActive()) {
        throw JournalFiles.startFailure(folder, BrokerConfiguration.MIN_FREE_BYTES, failure.get());
      }
      AcknowledgementGuard.install(fresh);
      fresh
          .getRemotingService()
          .addIncomingInterceptor(
              new PacketInterceptor(fresh, accounts, logins, anonymous, quota, connections));
    } catch (Exception e) {
      fresh.stop();
      throw e;
    }
    return fresh;
  }

  private void runWatchdog() {
    while (!stopping) {
      try {
        TimeUnit.MILLISECONDS.sleep(CHECK_EVERY_MS);
        if (!isRunning()) {
          if (trouble == null) {
            report("the embedded broker has stopped, its disk may be full; restarting it");
          }
          restart();
          trouble = null;
          LOG.info("the embedded broker has restarted");
        }
        applyLimits();
      } catch (InterruptedException e) {
        return;
      } catch (Exception | Error e) {
        // This thread must not end, because only it restarts the broker.
        LOG.debug("cannot restart the embedded broker yet", e);
        report("the embedded broker has stopped and cannot be restarted yet: " + e.getMessage());
      }
    }
  }

  private void report(String problem) {
    if (!problem.equals(trouble)) {
      LOG.warn("{}", problem);
    }
    trouble = problem;
  }

  private void applyLimits() {
    ActiveMQServer running;
    synchronized (this) {
      running = server;
    }
    try {
      quota.count(running);
      sessions.check(running);
    } catch (Exception e) {
      // The broker may be stopping; the next check follows within 1 s.
      LOG.debug("cannot apply the limits of the broker now", e);
    }
  }

  private synchronized boolean isRunning() {
    return server.isStarted() && server.isActive();
  }

  private synchronized void restart() throws Exception {
    if (stopping) {
      return;
    }
    server.stop();
    if (DiskSpace.isShort(folder, BrokerConfiguration.MIN_FREE_BYTES)) {
      throw new IOException(
          "less than 8 MiB are free on the disk of " + folder + ": free some space");
    }
    server = startServer();
  }

  private static void requireFreePort(String host, int port) {
    try (ServerSocket probe = new ServerSocket()) {
      probe.setReuseAddress(true);
      probe.bind(new InetSocketAddress(InetAddress.getByName(host), port));
    } catch (IOException e) {
      throw new IllegalStateException(
          "MQTT port "
              + port
              + " on "
              + host
              + " cannot be used ("
              + e.getMessage()
              + "). If another broker runs there, set broker: tcp://127.0.0.1:"
              + port
              + " in the configuration; else choose another port with --mqtt-port.",
          e);
    }
  }

  private static int freePort() throws IOException {
    try (ServerSocket probe = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
      return probe.getLocalPort();
    }
  }

  /**
   * Opens the ports for sensors; does nothing if they are open. Call it each time the service has
   * subscribed, because the broker may have restarted.
   *
   * @throws IllegalStateException when a port cannot be opened, for example because another program
   *     uses it; the caller may try again
   */
  public synchronized void openSensorPort() {
    open(SENSORS, ports.port(), null);
    if (ports.tls() != null) {
      open(TLS_SENSORS, ports.tls().port(), ports.tls().context());
    }
  }

  private void open(String name, int port, @Nullable SSLContext tls) {
    RemotingService remoting = server.getRemotingService();
    if (remoting.getAcceptor(name) != null) {
      return;
    }
    try {
      Acceptor acceptor =
          remoting.createAcceptor(configuration.sensorPort(name, ports.host(), port, tls));
      acceptor.start();
      connections.install(acceptor);
      LOG.info(
          "sensors can publish to {}:{}{}", ports.host(), port, tls == null ? "" : " with TLS");
    } catch (Exception e) {
      removeAcceptor(remoting, name);
      throw new IllegalStateException(
          "sensors cannot publish, because port %d on %s cannot be opened: %s"
              .formatted(port, ports.host(), e.getMessage()),
          e);
    }
  }

  private static void removeAcceptor(RemotingService remoting, String name) {
    try {
      remoting.destroyAcceptor(name);
    } catch (Exception e) {
      LOG.debug("cannot remove the acceptor of a port that could not be opened", e);
    }
  }

  /** A text with the number of refused logins within the last hour. */
  public String logins() {
    return logins.summary();
  }

  /** The connections that were refused within the last hour because the client has no account. */
  public AnonymousRefusals.Summary anonymousRefusals() {
    return anonymous.summary();
  }

  /** User names of the clients that are connected now. */
  public synchronized Set<String> connectedUsers() {
    return server.getSessions().stream()
        .map(ServerSession::getUsername)
        .filter(Objects::nonNull)
        .collect(Collectors.toSet());
  }

  /** Closes all connections of a user, and forgets which topics it was allowed to use. */
  public synchronized void disconnect(String user) {
    if (server.getSecurityStore() instanceof SecurityStoreImpl security) {
      security.invalidateAuthorizationCache();
      security.invalidateAuthenticationCache();
    }
    for (ServerSession session : server.getSessions()) {
      if (user.equals(session.getUsername())) {
        session.getRemotingConnection().fail(new ActiveMQDisconnectedException());
      }
    }
  }

  /** Why new topics were refused within the last hour; null if none were. */
  public @Nullable String topicTrouble() {
    return quota.trouble();
  }

  /** A text with the number of topics and subscriptions. */
  public String topics() {
    return quota.summary();
  }

  /** A text about clients that send too fast. */
  public String rates() {
    return rates.summary();
  }

  /** A text about the connections to the ports for sensors. */
  public String connections() {
    return connections.summary();
  }

  /** A text about messages that wait for clients. */
  public String sessions() {
    return sessions.summary();
  }

  synchronized boolean hasQueue(String clientId, String filter) {
    return server.locateQueue(SimpleString.of(clientId + '.' + filter)) != null;
  }

  /** Number of messages that wait for this client under these topic filters. */
  public synchronized long waiting(String clientId, List<String> filters) {
    long waiting = 0;
    for (String filter : filters) {
      Queue queue = server.locateQueue(SimpleString.of(clientId + '.' + filter));
      waiting += queue == null ? 0 : queue.getMessageCount();
    }
    return waiting;
  }

  /**
   * The address for the service itself; a different port after each start.
   *
   * @throws IllegalStateException while the broker does not run; the message says why
   */
  public String serviceUri() {
    String why = trouble;
    if (why != null) {
      throw new IllegalStateException(why);
    }
    return "tcp://127.0.0.1:" + servicePort;
  }

  @Override
  public void close() {
    stopping = true;
    watchdog.interrupt();
    try {
      stop();
    } catch (Exception e) {
      LOG.warn("the embedded broker did not stop cleanly: {}", e.getMessage());
    }
  }

  synchronized void stop() throws Exception {
    server.stop();
  }
}
