package tepidarium.app;

import java.security.SecureRandom;
import java.time.Clock;
import java.time.Duration;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionException;
import java.util.function.LongSupplier;
import java.util.function.Supplier;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import tepidarium.ingest.Intake;
import tepidarium.ingest.Reject;
import tepidarium.ingest.RejectCode;
import tepidarium.ingest.mqtt.BrokerAccounts;
import tepidarium.ingest.mqtt.BrokerAccounts.ServiceLogin;
import tepidarium.ingest.mqtt.BrokerAddress;
import tepidarium.ingest.mqtt.BrokerLimits;
import tepidarium.ingest.mqtt.EmbeddedBroker;
import tepidarium.ingest.mqtt.SensorPorts;
import tepidarium.reading.SensorId;
import tepidarium.tls.ClientTls;
import tepidarium.tls.WatchedCertificate;
import tepidarium.web.system.ServiceInfo.Part;

/**
 * Starts the embedded broker on a background thread, or returns the address of the external broker
 * from the settings. The embedded broker starts only after the pages are ready, because its start
 * would delay them.
 */
final class BrokerStart implements AutoCloseable {
  private static final Logger LOG = LoggerFactory.getLogger(BrokerStart.class);

  /**
   * The broker that the service uses.
   *
   * @param address its current address; throws an IllegalStateException with the reason if it has
   *     none
   * @param openSensorPort makes the embedded broker accept sensors; run it after the service has
   *     subscribed
   * @param waiting number of messages that wait for this service; 0 if unknown
   * @param parts health of the broker's parts, by name
   */
  record Broker(
      Supplier<BrokerAddress> address,
      Runnable openSensorPort,
      LongSupplier waiting,
      Supplier<Map<String, Part>> parts) {}

  private final Config config;
  private final MessageReading messages;
  private final Clock clock;
  private final ServiceLogin login;
  private final SensorLogins logins;
  private final @Nullable WatchedCertificate certificate;
  private final CompletableFuture<Intake> pagesReady = new CompletableFuture<>();
  private final @Nullable CompletableFuture<EmbeddedBroker> embedded;
  private final CompletableFuture<Broker> broker;

  /**
   * Prepares the start of the broker.
   *
   * @param clientId MQTT client id of the service; the embedded broker refuses it to other clients
   */
  BrokerStart(
      Config config,
      DataParts parts,
      String clientId,
      MessageReading messages,
      SensorLogins logins,
      @Nullable WatchedCertificate certificate,
      Clock clock) {
    this.certificate = certificate;
    this.logins = logins;
    this.config = config;
    this.messages = messages;
    this.clock = clock;
    this.login = new ServiceLogin(clientId, SensorLogins.SERVICE, randomPassword());
    if (config.embedded()) {
      CompletableFuture<EmbeddedBroker> started =
          pagesReady.thenApplyAsync(intake -> startEmbedded(parts, intake));
      this.embedded = started;
      this.broker = started.thenApply(this::describe);
    } else {
      this.embedded = null;
      this.broker = CompletableFuture.completedFuture(external(config));
    }
  }

  /**
   * Starts the embedded broker, if the settings ask for it. Call this once the pages answer.
   *
   * @param intake logs the messages that the broker refuses
   */
  void pagesReady(Intake intake) {
    pagesReady.complete(intake);
  }

  /**
   * Waits until the broker has started.
   *
   * @throws IllegalStateException if it cannot start; the message has the reason
   */
  Broker await() {
    try {
      return broker.join();
    } catch (CompletionException e) {
      if (e.getCause() instanceof IllegalStateException cause) {
        throw cause;
      }
      throw e;
    }
  }

  private static Broker external(Config config) {
    return new Broker(() -> externalAddress(config), () -> {}, () -> 0, Map::of);
  }

  /** Reads the files for TLS again for each connection, because they may have been renewed. */
  private static BrokerAddress externalAddress(Config config) {
    ClientTls tls = config.brokerTls();
    try {
      return new BrokerAddress(
          config.broker(),
          config.brokerUser(),
          config.brokerPassword(),
          tls == null ? null : tls.socketFactory());
    } catch (IllegalArgumentException e) {
      throw new IllegalStateException("brokerTls: " + e.getMessage(), e);
    }
  }

  private EmbeddedBroker startEmbedded(DataParts parts, Intake intake) {
    BrokerAccounts accounts = brokerAccounts(intake);
    EmbeddedBroker started =
        parts.open(
            DataPart.BROKER,
            folder -> EmbeddedBroker.start(ports(), folder, accounts, brokerLimits()));
    logins.started(started);
    return started;
  }

  private SensorPorts ports() {
    Integer tlsPort = config.sensorPort().tlsPort();
    SensorPorts.Tls tls =
        tlsPort == null || certificate == null
            ? null
            : new SensorPorts.Tls(tlsPort, certificate.context());
    return new SensorPorts(config.mqttHost(), config.mqttPort(), tls);
  }

  private Broker describe(EmbeddedBroker started) {
    return new Broker(
        () -> new BrokerAddress(started.serviceUri(), login.user(), login.password(), null),
        started::openSensorPort,
        () -> started.waiting(login.clientId(), messages.decoder().topicFilters()),
        () -> health(started));
  }

  private Map<String, Part> health(EmbeddedBroker started) {
    String problem = started.topicTrouble();
    return Map.of(
        "topics", problem == null ? Part.up(started.topics()) : Part.down(problem),
        "logins", Part.up(started.logins()),
        "sensorAccounts", Part.up(logins.health()),
        "clients", Part.up(started.rates()),
        "connections", Part.up(started.connections()),
        "sessions", Part.up(started.sessions()));
  }

  /** The intake logs each message that the broker refused, so that a mistyped topic is visible. */
  private BrokerAccounts brokerAccounts(Intake intake) {
    return new BrokerAccounts(
        login,
        logins.clients(),
        new BrokerAccounts.Topics(
            config.rootTopic(),
            this::mappedTopics,
            messages.decoder()::sensorOf,
            (topic, payload) -> messages.heard().add(topic, payload, clock.instant())),
        (topic, reason) ->
            intake.refuse(
                Reject.of(clock.instant(), topic, RejectCode.FORBIDDEN_TOPIC, reason, "")));
  }

  private BrokerLimits brokerLimits() {
    Config.MqttLimits limits = config.mqttLimits();
    BrokerLimits all =
        BrokerLimits.of(
            config.maxPayloadBytes(),
            limits.maxSensors(),
            Duration.ofHours(limits.sessionHours()),
            (long) limits.sessionMegabytes() << 20,
            topic -> {
              String sensor = messages.decoder().sensorOf(topic);
              return sensor == null
                  ? null
                  : messages.sensorLimit().whyNot(new SensorId(sensor), clock.instant());
            });
    if (all.isShortOfFiles(limits.maxSensors())) {
      LOG.warn(
          "the system allows this process few open files, so at most {} connections of sensors are"
              + " accepted. Allow more: LimitNOFILE in the unit of systemd, or ulimit -n",
          all.connections());
    }
    return all.withClientRate(limits.messagesPerSecond(), (long) limits.kilobytesPerSecond() << 10);
  }

  /** The first levels without wildcards of the topics that the mapping rules read. */
  private List<String> mappedTopics() {
    return messages.decoder().mappedTopics().stream().map(BrokerStart::fixedLevels).toList();
  }

  private static String fixedLevels(String filter) {
    return Arrays.stream(filter.split("/"))
        .takeWhile(level -> !level.contains("{") && !level.equals("+") && !level.equals("#"))
        .collect(Collectors.joining("/"));
  }

  private static String randomPassword() {
    byte[] random = new byte[24];
    new SecureRandom().nextBytes(random);
    return HexFormat.of().formatHex(random);
  }

  /** Stops the embedded broker, or cancels its start. */
  @Override
  public void close() {
    pagesReady.cancel(false);
    if (embedded != null) {
      embedded.thenAccept(EmbeddedBroker::close).exceptionally(e -> null).join();
    }
  }
}
