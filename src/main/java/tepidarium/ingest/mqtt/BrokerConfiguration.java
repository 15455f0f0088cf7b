package tepidarium.ingest.mqtt;

import java.nio.file.Path;
import java.util.HashMap;
import java.util.Map;
import java.util.Set;
import javax.net.ssl.SSLContext;
import org.apache.activemq.artemis.api.core.SimpleString;
import org.apache.activemq.artemis.api.core.TransportConfiguration;
import org.apache.activemq.artemis.core.config.Configuration;
import org.apache.activemq.artemis.core.config.ConfigurationUtils;
import org.apache.activemq.artemis.core.config.WildcardConfiguration;
import org.apache.activemq.artemis.core.config.impl.ConfigurationImpl;
import org.apache.activemq.artemis.core.remoting.impl.netty.TransportConstants;
import org.apache.activemq.artemis.core.security.Role;
import org.apache.activemq.artemis.core.server.JournalType;
import org.apache.activemq.artemis.core.settings.impl.AddressFullMessagePolicy;
import org.apache.activemq.artemis.core.settings.impl.AddressSettings;
import org.jspecify.annotations.Nullable;

/** Configures the broker in this process and the ports on which it listens. */
final class BrokerConfiguration {
  /**
   * Minimum free disk space, 8 MiB; below it, publishers wait. The library's default is 10 % of the
   * disk.
   */
  static final long MIN_FREE_BYTES = 8L << 20;

  private static final int JOURNAL_FILE_BYTES = 1 << 20;
  private static final long MEMORY_BYTES = 16L << 20;
  private static final int DISK_CHECK_MS = 1_000;

  /**
   * How long the broker tries to lock its files, 5 s. No other process holds the lock, because the
   * service has locked the data folder. The library's default has no limit, and with it a stop hung
   * for ever: it waited for the broker's own monitor, which held the lock. The stop interrupts the
   * monitor, Java closes a file whose reader is interrupted, and a closed file cannot be locked.
   */
  private static final long LOCK_TIMEOUT_MS = 5_000;

  private final Path folder;
  private final BrokerLimits limits;

  BrokerConfiguration(Path folder, BrokerLimits limits) {
    this.folder = folder;
    this.limits = limits;
  }

  /**
   * Configures a broker that listens for the service only.
   *
   * @param servicePort port on loopback
   */
  Configuration broker(int servicePort) throws Exception {
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
    configuration.setMinDiskFree(MIN_FREE_BYTES);
    configuration.setDiskScanPeriod(DISK_CHECK_MS);
    configuration.setJournalLockAcquisitionTimeout(LOCK_TIMEOUT_MS);
    configuration.setJMXManagementEnabled(false);
    configuration.setSecurityEnabled(true);
    configuration.setThreadPoolMaxSize(8);
    configuration.setScheduledThreadPoolMaxSize(1);
    configuration.setCriticalAnalyzer(false);
    // Uses the wildcards and the separator of MQTT. The broker's own separator is the dot, so
    // topics with dots would have to be translated.
    configuration.setWildCardConfiguration(
        new WildcardConfiguration().setDelimiter('/').setSingleWord('+').setAnyWords('#'));
    configuration.setSecurityRoles(Map.of("#", Set.of(allPermissions())));
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

  /** Configures a port for sensors, with TLS if there is a context for it. */
  TransportConfiguration sensorPort(String name, String host, int port, @Nullable SSLContext tls)
      throws Exception {
    String uri = acceptor(host, port);
    TransportConfiguration plain =
        ConfigurationUtils.parseAcceptorURI(name, uri).stream().findFirst().orElseThrow();
    if (tls == null) {
      return plain;
    }
    Map<String, Object> params = new HashMap<>(plain.getParams());
    params.put(TransportConstants.SSL_ENABLED_PROP_NAME, true);
    params.put(TransportConstants.SSL_CONTEXT_PROP_NAME, tls);
    return new TransportConfiguration(
        plain.getFactoryClassName(), params, name, plain.getExtraParams());
  }

  /** A role with all permissions; {@link BrokerAccounts} decides by topic instead of by role. */
  private static Role allPermissions() {
    return new Role(
        "any", true, true, true, true, true, true, true, true, true, true, false, false);
  }

  private AddressSettings addressSettings() {
    AddressSettings settings = new AddressSettings();
    settings.setAddressFullMessagePolicy(AddressFullMessagePolicy.PAGE);
    settings.setMaxSizeBytes(MEMORY_BYTES / 2);
    settings.setPageSizeBytes(1 << 20);
    // No limit, because the broker delivers a message again each time the service is killed.
    settings.setMaxDeliveryAttempts(-1);
    settings.setRedeliveryDelay(0);
    // Never used, but the broker logs a warning for each queue without one.
    settings.setDeadLetterAddress(SimpleString.of("$undelivered"));
    settings.setExpiryAddress(SimpleString.of("$expired"));
    // Messages never expire, because late readings are stored too. Also, an expiry of 25 days or
    // more overflows an integer in the broker, which then drops the message at once.
    settings.setNoExpiry(true);
    // Without this, the broker would never delete a topic that has had no queue of its own.
    settings.setAutoDeleteAddressesSkipUsageCheck(true);
    settings.setAutoDeleteAddressesDelay(limits.topicIdle().toMillis());
    return settings;
  }
}
