package tepidarium.app;

import java.net.InetAddress;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.function.Predicate;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import tepidarium.access.AnonymousSensors;
import tepidarium.access.SensorAccount;
import tepidarium.access.SensorAccountStore;
import tepidarium.access.SensorAccounts;
import tepidarium.ingest.mqtt.AnonymousRefusals;
import tepidarium.ingest.mqtt.BrokerClients;
import tepidarium.ingest.mqtt.EmbeddedBroker;
import tepidarium.tls.WatchedCertificate;
import tepidarium.web.sensors.BrokerLogins;

/**
 * Decides which sensors may log in to the embedded broker: accounts from the settings, accounts
 * made on the page Sensors, and sensors without an account.
 *
 * <p>Without the setting {@code anonymousSensors}, a new data folder accepts sensors without an
 * account from this machine only. A data folder that is older than the accounts keeps accepting
 * them from everywhere, because its sensors would otherwise stop at an update. With accounts in the
 * settings, all sensors need one.
 */
final class SensorLogins implements BrokerLogins {
  /** User name of the service itself. */
  static final String SERVICE = "tepidarium-service";

  private static final Logger LOG = LoggerFactory.getLogger(SensorLogins.class);

  private final Config config;
  private final @Nullable WatchedCertificate certificate;
  private volatile @Nullable SensorAccounts accounts;
  private volatile AnonymousSensors anonymous = AnonymousSensors.NEVER;
  private volatile boolean older;
  private volatile @Nullable EmbeddedBroker broker;

  /**
   * Creates the logins.
   *
   * @param certificate the certificate of the service; null for none
   */
  SensorLogins(Config config, @Nullable WatchedCertificate certificate) {
    this.config = config;
    this.certificate = certificate;
  }

  /**
   * Reads the accounts. Call this before the broker starts.
   *
   * @param usedBefore whether the service has used this data folder before
   */
  void read(SensorAccountStore store, boolean usedBefore) {
    Set<String> taken = new HashSet<>(config.accounts().keySet());
    taken.add(SERVICE);
    SensorAccounts read = new SensorAccounts(store, taken);
    read.onEnd(this::disconnect);
    accounts = read;
    AnonymousSensors kept =
        store.anonymous(() -> usedBefore ? AnonymousSensors.EVERYWHERE : AnonymousSensors.LOOPBACK);
    AnonymousSensors set = config.sensorPort().anonymous();
    older = set == null && config.accounts().isEmpty() && kept == AnonymousSensors.EVERYWHERE;
    anonymous = set != null ? set : config.accounts().isEmpty() ? kept : AnonymousSensors.NEVER;
    if (older && config.embedded()) {
      LOG.warn("{}", OLDER);
    }
  }

  private static final String OLDER =
      "sensors are accepted without an account from every address, because this data folder was"
          + " used before sensors had accounts. Make an account for each sensor on the page"
          + " Sensors, then set anonymousSensors: loopback";

  private void disconnect(String account) {
    EmbeddedBroker running = broker;
    if (running != null) {
      running.disconnect(account);
    }
  }

  void started(EmbeddedBroker running) {
    broker = running;
  }

  @Override
  public SensorAccounts accounts() {
    SensorAccounts read = accounts;
    if (read == null) {
      throw new IllegalStateException("the accounts of sensors are not read yet");
    }
    return read;
  }

  BrokerClients clients() {
    SensorAccounts made = accounts();
    AnonymousSensors accepted = anonymous;
    return new BrokerClients(
        this::account,
        () -> config.accounts().size() + made.count(),
        needNoAccount(accepted),
        accepted == AnonymousSensors.EVERYWHERE);
  }

  static Predicate<InetAddress> needNoAccount(AnonymousSensors accepted) {
    return switch (accepted) {
      case NEVER -> address -> false;
      case LOOPBACK -> InetAddress::isLoopbackAddress;
      case EVERYWHERE -> address -> true;
    };
  }

  private BrokerClients.@Nullable Account account(String name) {
    String password = config.accounts().get(name);
    if (password != null) {
      Config.Grant grant = config.mqttLimits().grants().get(name);
      return new BrokerClients.Account(
          given -> same(password, given),
          true,
          grant == null ? List.of() : grant.publish(),
          grant == null ? List.of() : grant.read());
    }
    SensorAccount made = accounts().named(name).orElse(null);
    return made == null
        ? null
        : new BrokerClients.Account(made::hasPassword, false, made.topics(), made.reads());
  }

  private static boolean same(String expected, String given) {
    return MessageDigest.isEqual(
        expected.getBytes(StandardCharsets.UTF_8), given.getBytes(StandardCharsets.UTF_8));
  }

  /** A text about sensors without an account. */
  String health() {
    String refused = refusals().words();
    if (!refused.isEmpty()) {
      return refused;
    }
    return older
        ? OLDER
        : switch (anonymous) {
          case NEVER -> "every sensor needs an account";
          case LOOPBACK -> "sensors on other machines need an account";
          case EVERYWHERE ->
              "sensors are accepted without an account from every address (anonymousSensors)";
        };
  }

  @Override
  public String anonymous() {
    return anonymous.key();
  }

  @Override
  public boolean embedded() {
    return config.embedded();
  }

  @Override
  public Set<String> connected() {
    EmbeddedBroker running = broker;
    return running == null ? Set.of() : running.connectedUsers();
  }

  private AnonymousRefusals.Summary refusals() {
    EmbeddedBroker running = broker;
    return running == null ? AnonymousRefusals.Summary.NONE : running.anonymousRefusals();
  }

  @Override
  public Refused refused() {
    AnonymousRefusals.Summary summary = refusals();
    return new Refused(summary.count(), summary.clientId(), summary.address());
  }

  @Override
  public SensorAddress address(@Nullable String pageHost) {
    Integer tlsPort = config.sensorPort().tlsPort();
    List<String> own = LocalHosts.of(config.mqttHost());
    if (certificate == null || tlsPort == null) {
      return address("mqtt", host(pageHost, own), config.mqttPort(), null);
    }
    // With TLS, the sensor checks that the host is in the certificate.
    List<String> named = certificate.hosts();
    String host = host(pageHost, named.isEmpty() ? own : named);
    return address("mqtts", host, tlsPort, certificate.authority());
  }

  private static String host(@Nullable String pageHost, List<String> hosts) {
    return pageHost != null && hosts.contains(pageHost) ? pageHost : hosts.get(0);
  }

  private SensorAddress address(String scheme, String host, int port, @Nullable String authority) {
    String name = host.contains(":") ? '[' + host + ']' : host;
    return new SensorAddress(
        URI.create(scheme + "://" + name + ':' + port), config.rootTopic(), authority);
  }
}
