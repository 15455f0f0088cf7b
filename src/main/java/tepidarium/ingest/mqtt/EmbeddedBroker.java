package tepidarium.ingest.mqtt;

import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.ServerSocket;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicReference;
import org.apache.activemq.artemis.api.core.SimpleString;
import org.apache.activemq.artemis.core.config.Configuration;
import org.apache.activemq.artemis.core.config.WildcardConfiguration;
import org.apache.activemq.artemis.core.config.impl.ConfigurationImpl;
import org.apache.activemq.artemis.core.remoting.server.RemotingService;
import org.apache.activemq.artemis.core.security.Role;
import org.apache.activemq.artemis.core.server.ActiveMQServer;
import org.apache.activemq.artemis.core.server.JournalType;
import org.apache.activemq.artemis.core.server.Queue;
import org.apache.activemq.artemis.core.settings.impl.AddressFullMessagePolicy;
import org.apache.activemq.artemis.core.settings.impl.AddressSettings;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * An MQTT broker inside this process, for those who have none. Its journal is synced before it
 * acknowledges, so a message it acknowledged survives the end of the process. It takes nothing more
 * while its disk is nearly full. Where its journal cannot be written it ends itself, and a keeping
 * thread starts it again, for this service alone at first, once that is possible.
 */
public final class EmbeddedBroker implements AutoCloseable {
  private static final Logger LOG = LoggerFactory.getLogger(EmbeddedBroker.class);
  private static final int JOURNAL_FILE_BYTES = 1 << 20;
  private static final long MEMORY_BYTES = 16L << 20;

  /** With less room on its disk, publishers wait; by default it would be a tenth of the disk. */
  private static final long LEAST_FREE_BYTES = 8L << 20;

  private static final String SENSORS = "sensors";
  private static final int LOOK_EVERY_MS = 1_000;

  /** A packet of 4 MB has this long to arrive, which a slow wireless network can meet. */
  private static final long PACKET_PATIENCE_SECONDS = 60;

  private final String host;
  private final int port;
  private final Path folder;
  private final BrokerAccounts accounts;
  private final BrokerLimits limits;
  private final BrokerQuota quota;
  private final SessionLimit sessions;
  private final PacketMemory packets;
  private final LoginLimit logins;
  private final Thread keeper;
  private ActiveMQServer server;
  private volatile int servicePort;
  private volatile @Nullable String trouble;
  private volatile boolean stopping;

  private EmbeddedBroker(
      String host, int port, Path folder, BrokerAccounts accounts, BrokerLimits limits)
      throws Exception {
    this.host = host;
    this.port = port;
    this.folder = folder;
    this.accounts = accounts;
    this.limits = limits;
    this.logins = new LoginLimit(System::nanoTime, accounts.count());
    this.quota = new BrokerQuota(limits, accounts.serviceClientId(), System::nanoTime);
    this.packets =
        PacketMemory.of(limits.packetBytes(), why -> accounts.refused("(not read)", why));
    this.sessions = new SessionLimit(limits, accounts.serviceClientId());
    accounts.limitBy(quota);
    this.server = started();
    this.keeper = new Thread(this::keepUp, "broker-keeper");
    keeper.setDaemon(true);
    keeper.start();
  }

  /**
   * Starts the broker, for this service alone: sensors come in with {@link #letSensorsIn}, once
   * somebody has subscribed, since what nobody has subscribed to is acknowledged and dropped.
   *
   * @param host the address to listen on; 0.0.0.0 for all
   * @param accounts who may log in, and the topics that others may use
   * @param limits against floods of topics, subscriptions and waiting messages
   * @throws IllegalStateException when it cannot start, for example since the port is in use
   */
  public static EmbeddedBroker start(
      String host, int port, Path folder, BrokerAccounts accounts, BrokerLimits limits) {
    refuseTakenPort(host, port);
    JournalFiles.refuseDamaged(folder);
    try {
      return new EmbeddedBroker(host, port, folder, accounts, limits);
    } catch (IllegalStateException e) {
      throw e;
    } catch (Exception e) {
      throw JournalFiles.failed(folder, LEAST_FREE_BYTES, e);
    }
  }

  /** On a port of its own each time: somebody else may have taken the last one meanwhile. */
  private ActiveMQServer started() throws Exception {
    servicePort = freePort();
    ActiveMQServer fresh = new SmallBroker(configuration(), accounts);
    fresh.addProtocolManagerFactory(
        new LimitedMqtt(
            () -> new PacketLimit(packets, PACKET_PATIENCE_SECONDS),
            server -> new SubscriptionLimit(server, accounts, quota)));
    AtomicReference<@Nullable Exception> failure = new AtomicReference<>();
    fresh.registerActivationFailureListener(failure::set);
    try {
      fresh.start();
      if (!fresh.isActive()) {
        throw JournalFiles.failed(folder, LEAST_FREE_BYTES, failure.get());
      }
      NoLateAcknowledgements.over(fresh);
      fresh
          .getRemotingService()
          .addIncomingInterceptor(new BrokerGate(fresh, accounts, logins, quota));
    } catch (Exception e) {
      fresh.stop();
      throw e;
    }
    return fresh;
  }

  private void keepUp() {
    while (!stopping) {
      try {
        TimeUnit.MILLISECONDS.sleep(LOOK_EVERY_MS);
        if (!isRunning()) {
          if (trouble == null) {
            say("the embedded broker ended, its disk may be full; starting it again");
          }
          startAgain();
          trouble = null;
          LOG.info("the embedded broker runs again");
        }
        applyLimits();
      } catch (InterruptedException e) {
        return;
      } catch (Exception | Error e) {
        // Nobody else would start it again.
        LOG.debug("the embedded broker cannot start yet", e);
        say("the embedded broker ended and cannot start yet: " + e.getMessage());
      }
    }
  }

  private void say(String words) {
    if (!words.equals(trouble)) {
      LOG.warn("{}", words);
    }
    trouble = words;
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
      // It may be stopping; the next look tells.
      LOG.debug("cannot apply the limits of the broker now", e);
    }
  }

  private synchronized boolean isRunning() {
    return server.isStarted() && server.isActive();
  }

  private synchronized void startAgain() throws Exception {
    if (stopping) {
      return;
    }
    server.stop();
    if (folder.toFile().getUsableSpace() < LEAST_FREE_BYTES) {
      throw new IOException("there is no room on the disk of " + folder);
    }
    server = started();
  }

  private static void refuseTakenPort(String host, int port) {
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

  private Configuration configuration() throws Exception {
    ConfigurationImpl configuration = new ConfigurationImpl();
    configuration.setName("tepidarium");
    configuration.setPersistenceEnabled(true);
    configuration.setJournalType(JournalType.NIO);
    configuration.setJournalFileSize(JOURNAL_FILE_BYTES);
    configuration.setJournalMinFiles(2);
    configuration.setJournalPoolFiles(4);
    configuration.setJournalSyncNonTransactional(true);
    configuration.setJournalSyncTransactional(true);
    configuration.setJournalDirectory(folder.resolve("journal").toString());
    configuration.setBindingsDirectory(folder.resolve("bindings").toString());
    configuration.setPagingDirectory(folder.resolve("paging").toString());
    configuration.setLargeMessagesDirectory(folder.resolve("large").toString());
    configuration.setGlobalMaxSize(MEMORY_BYTES);
    configuration.setMaxDiskUsage(-1);
    configuration.setMinDiskFree(LEAST_FREE_BYTES);
    configuration.setDiskScanPeriod(LOOK_EVERY_MS);
    configuration.setJMXManagementEnabled(false);
    configuration.setSecurityEnabled(true);
    configuration.setThreadPoolMaxSize(8);
    configuration.setScheduledThreadPoolMaxSize(1);
    configuration.setCriticalAnalyzer(false);
    // MQTT's own signs, so that topics need no translation and a dot in a topic stays a dot.
    configuration.setWildCardConfiguration(
        new WildcardConfiguration().setDelimiter('/').setSingleWord('+').setAnyWords('#'));
    configuration.setSecurityRoles(Map.of("#", Set.of(everything())));
    configuration.setAddressSettings(Map.of("#", addressSettings()));
    configuration.setAddressQueueScanPeriod(
        Math.min(configuration.getAddressQueueScanPeriod(), limits.topicIdle().toMillis()));
    configuration.addAcceptorConfiguration("service", acceptor("127.0.0.1", servicePort));
    return configuration;
  }

  private String acceptor(String host, int port) {
    return "tcp://"
        + host
        + ":"
        + port
        + "?protocols=MQTT&tcpNoDelay=true&useEpoll=false&remotingThreads=2"
        + "&closeMqttConnectionOnPublishAuthorizationFailure=false&topicAliasMaximum=0"
        + "&maximumPacketSize="
        + limits.packetBytes();
  }

  /**
   * Opens the port for sensors; asked again, does nothing. To be called each time that the service
   * has subscribed, since the broker may have started again.
   *
   * @throws IllegalStateException when the port has been taken meanwhile; may be asked again
   */
  public synchronized void letSensorsIn() {
    RemotingService doors = server.getRemotingService();
    if (doors.getAcceptor(SENSORS) != null) {
      return;
    }
    try {
      String acceptor = acceptor(host, port) + "&connectionsAllowed=" + limits.connections();
      doors.createAcceptor(SENSORS, acceptor).start();
      LOG.info("sensors can publish to {}:{}", host, port);
    } catch (Exception e) {
      forget(doors);
      throw new IllegalStateException(
          "sensors cannot publish, since port %d on %s is taken: %s"
              .formatted(port, host, e.getMessage()),
          e);
    }
  }

  private static void forget(RemotingService doors) {
    try {
      doors.destroyAcceptor(SENSORS);
    } catch (Exception e) {
      LOG.debug("while letting go of a port that could not be opened", e);
    }
  }

  /** The broker asks {@link BrokerAccounts}, which decides by topic; roles carry nothing. */
  private static Role everything() {
    return new Role(
        "any", true, true, true, true, true, true, true, true, true, true, false, false);
  }

  private AddressSettings addressSettings() {
    AddressSettings settings = new AddressSettings();
    settings.setAddressFullMessagePolicy(AddressFullMessagePolicy.PAGE);
    settings.setMaxSizeBytes(MEMORY_BYTES / 2);
    settings.setPageSizeBytes(1 << 20);
    // Never given up: a reading may be delivered as often as the service is killed.
    settings.setMaxDeliveryAttempts(-1);
    settings.setRedeliveryDelay(0);
    // Never used, but the broker warns at every queue that has none.
    settings.setDeadLetterAddress(SimpleString.of("$undelivered"));
    settings.setExpiryAddress(SimpleString.of("$expired"));
    // A reading is stored however late it comes. The broker also computes an expiry of 25 days or
    // more with too few bits, and would drop the message at once.
    settings.setNoExpiry(true);
    // A topic takes memory and has no queue of its own, so the broker would keep it for ever.
    settings.setAutoDeleteAddressesSkipUsageCheck(true);
    settings.setAutoDeleteAddressesDelay(limits.topicIdle().toMillis());
    return settings;
  }

  /** How many logins were refused lately, in words. */
  public String logins() {
    return logins.summary();
  }

  /** Why new topics were refused within the last hour; null when none were. */
  public @Nullable String topicTrouble() {
    return quota.trouble();
  }

  /** How many topics and subscriptions there are, in words. */
  public String topics() {
    return quota.summary();
  }

  /** Which clients let messages wait, in words. */
  public String sessions() {
    return sessions.summary();
  }

  synchronized boolean hasQueue(String clientId, String filter) {
    return server.locateQueue(SimpleString.of(clientId + '.' + filter)) != null;
  }

  /** How many messages wait in a queue of this client for one of its topic filters. */
  public synchronized long waiting(String clientId, List<String> filters) {
    long waiting = 0;
    for (String filter : filters) {
      Queue queue = server.locateQueue(SimpleString.of(clientId + '.' + filter));
      waiting += queue == null ? 0 : queue.getMessageCount();
    }
    return waiting;
  }

  /**
   * Where this service itself connects; elsewhere after each start.
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
    keeper.interrupt();
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
