package tepidarium.app;

import java.security.SecureRandom;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayDeque;
import java.util.Arrays;
import java.util.Deque;
import java.util.HashMap;
import java.util.HexFormat;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionException;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.function.LongSupplier;
import java.util.function.Supplier;
import java.util.stream.Collectors;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import tepidarium.alert.AlertRules;
import tepidarium.alert.AlertStore;
import tepidarium.container.Register;
import tepidarium.germination.SeedJournal;
import tepidarium.history.CalibratedReadings;
import tepidarium.ingest.Decoder;
import tepidarium.ingest.Intake;
import tepidarium.ingest.Reject;
import tepidarium.ingest.RejectCode;
import tepidarium.ingest.RejectLog;
import tepidarium.ingest.SensorLimit;
import tepidarium.ingest.Settlement;
import tepidarium.ingest.mqtt.BrokerAccounts;
import tepidarium.ingest.mqtt.BrokerAccounts.ServiceLogin;
import tepidarium.ingest.mqtt.BrokerAddress;
import tepidarium.ingest.mqtt.BrokerLimits;
import tepidarium.ingest.mqtt.EmbeddedBroker;
import tepidarium.ingest.mqtt.MqttLink;
import tepidarium.live.HeatSoFar;
import tepidarium.live.Newest;
import tepidarium.live.Watch;
import tepidarium.reading.SensorId;
import tepidarium.records.AlertRecords;
import tepidarium.records.AlertRuleRecords;
import tepidarium.records.ClockRecords;
import tepidarium.records.ContainerRecords;
import tepidarium.records.Database;
import tepidarium.records.DayExtremesRecords;
import tepidarium.records.GerminationRecords;
import tepidarium.records.NoticeRecords;
import tepidarium.records.RejectRecords;
import tepidarium.records.SeasonRecords;
import tepidarium.records.sqlite.SqliteRecords;
import tepidarium.rollup.ContainerHistory;
import tepidarium.rollup.HourlyRollups;
import tepidarium.rollup.sqlite.SqliteRollups;
import tepidarium.series.ReadingSink;
import tepidarium.series.SensorSummary;
import tepidarium.sqlite.NativeLibrary;
import tepidarium.web.alerts.AlertViews;
import tepidarium.web.containers.ContainerViews;
import tepidarium.web.sensors.SensorViews;
import tepidarium.web.server.ApiRoutes;
import tepidarium.web.server.WebServer;
import tepidarium.web.system.ServiceFacts.Part;

/**
 * Everything wired together and running. Started in the order store, watch, intake, broker, link,
 * pages; stopped in the reverse order, so that what was taken in becomes durable.
 */
public final class Service implements AutoCloseable {
  private static final Logger LOG = LoggerFactory.getLogger(Service.class);

  /**
   * The broker in use.
   *
   * @param address where it is now; an IllegalStateException says why it is not
   * @param letSensorsIn to be run once the service has subscribed
   * @param waiting how many messages wait for this service; 0 if not known
   * @param parts parts of the broker and how they are
   */
  private record Broker(
      Supplier<BrokerAddress> address,
      Runnable letSensorsIn,
      LongSupplier waiting,
      Supplier<Map<String, Part>> parts) {}

  /** If messages wait for this service and none arrives for this long, it connects again. */
  private static final Duration MESSAGES_STUCK = Duration.ofSeconds(30);

  /** How often the service judges what changes by time alone, and measures itself. */
  private static final Duration PERIOD = Duration.ofSeconds(5);

  private static final Duration LONGEST_WAIT = Duration.ofSeconds(20);

  private final CountDownLatch sensorsAreIn = new CountDownLatch(1);
  private final Deque<AutoCloseable> running;
  private final Config config;
  private final WebServer web;
  private final MqttLink link;
  private final Register register;

  private Service(
      Deque<AutoCloseable> running,
      Config config,
      Clock clock,
      Duration period,
      boolean demo,
      StartOptions options) {
    this.running = running;
    this.config = config;
    DataFolder folder = running(DataFolder.open(config.data()));
    NativeLibrary.unpackInto(folder.resolve("native"));
    Manifest manifest = Manifest.read(config.data());
    boolean removesRaw = config.keeping().rawDays() != null;
    DataParts parts = new DataParts(config.data(), clock, manifest, options.setAside(), removesRaw);
    String clientId = folder.clientId(manifest == null ? null : manifest.clientId());
    ServiceLogin login = new ServiceLogin(clientId, "tepidarium-service", randomPassword());
    Decoder decoder = new Decoder(config.rootTopic(), config.mappings(), config.maxPayloadBytes());
    Config.MqttLimits limits = config.mqttLimits();
    SensorLimit names = new SensorLimit(limits.maxSensors(), limits.newSensorsPerHour());
    CompletableFuture<Intake> pagesAnswer = new CompletableFuture<>();
    CompletableFuture<Broker> broker =
        startBroker(pagesAnswer, parts, login, decoder, names, clock);
    Storage storage = running(Storage.open(config, parts, clock));
    Database records = running(parts.open(DataPart.RECORDS, SqliteRecords::open));

    register = new Register(new ContainerRecords(records));
    SeedJournal seeds = new SeedJournal(new GerminationRecords(records), register);
    AlertStore alerts = new AlertRecords(records);
    AlertRules rules = new AlertRules(new AlertRuleRecords(records), config.silentAfter());
    RejectLog rejectLog = new RejectRecords(records);
    CalibratedReadings calibrated =
        new CalibratedReadings(storage.source(), register, config.maxGap());
    SqliteRollups hours = running(parts.open(DataPart.LEDGER, SqliteRollups::open));
    HourlyRollups rollups = new HourlyRollups(calibrated, register, hours, clock);
    ContainerHistory history = new ContainerHistory(rollups, calibrated);
    Newest newest = new Newest(register, config.maxGap(), storage.summaries());
    ClockRecords clockRecords = new ClockRecords(records);
    ClockTrust trust =
        new ClockTrust(clockRecords.lastSeen().or(() -> newestReading(newest)).orElse(null));
    if (options.trustClock()) {
      trust.confirm(clock.instant());
    }
    Housekeeping housekeeping =
        running(
            Housekeeping.start(
                new Housekeeping.Parts(rollups, storage.trimmer(), newest, trust, clockRecords),
                config.keeping().rawDays(),
                config.maxGap(),
                clock));
    names.know(
        newest.sensors(),
        sensor ->
            newest.of(sensor).isPresent() || register.placeOf(sensor, clock.instant()).isPresent());
    HeatSoFar heatSoFar = new HeatSoFar(history, calibrated);
    Watch watch =
        running(
            new Watch(
                register,
                newest,
                heatSoFar,
                calibrated,
                alerts,
                rules,
                Duration.ofSeconds(config.silentGraceSeconds()),
                period,
                clock));

    Settlement settlement = new Settlement(rejectLog, config.rootTopic(), clock);
    ReadingSink sink = storage.sink(rollups);
    running(storage::stopHandingOver);
    Intake intake =
        running(
            new Intake(
                decoder,
                names,
                sink,
                settlement,
                new Buttons(register),
                stored -> {
                  trust.heard(stored.readings(), stored.arrivedAt());
                  watch.stored(stored.readings(), stored.arrivedAt());
                }));
    storage.start(settlement, watch);
    parts.remember(clientId);
    AlertViews alertViews = new AlertViews(register, config.timeZone());
    ContainerViews containerViews =
        new ContainerViews(register, newest, heatSoFar, calibrated, watch, alertViews, clock);
    Facts facts = new Facts(config, demo, intake, names, storage, records, parts, clock);
    NoticesConfig asked = config.notices();
    NoticeDesk desk =
        new NoticeDesk(
            asked == null ? NoticesConfig.unset(config.timeZone()) : asked,
            config.data(),
            new NoticeDesk.Sources(register, history, alerts, new NoticeRecords(records)),
            trust,
            period,
            clock);
    facts.more(
        () -> {
          Map<String, Part> further = new LinkedHashMap<>(desk.parts());
          further.putAll(housekeeping.parts());
          return further;
        });
    web =
        running(
            WebServer.start(
                config.httpHost(),
                config.httpPort(),
                config.httpNames(),
                new ApiRoutes.Parts(
                    register,
                    calibrated,
                    history,
                    watch,
                    alerts,
                    rules,
                    rejectLog,
                    facts,
                    containerViews,
                    new SensorViews(register, newest, storage.source()),
                    alertViews,
                    seeds,
                    desk.notices(),
                    new SeasonRecords(records),
                    new DayExtremesRecords(records),
                    clock,
                    config.timeZone(),
                    config.site())));
    pagesAnswer.complete(intake);
    MqttLink.prepare();
    link =
        running(
            new MqttLink(
                join(broker).address(),
                config.rootTopic(),
                decoder.topicFilters(),
                clientId,
                new MqttLink.Limits(config.maxPayloadBytes(), MESSAGES_STUCK),
                join(broker).waiting(),
                clock,
                intake));
    facts.link(link, join(broker).parts());
    AlertTopics topics = new AlertTopics(link, watch, alerts, register, alertViews);
    watch.listen(topics);
    watch.listen(desk);
    running(desk).start(link, config.rootTopic(), web.pages());
    watch.catchUp();
    if (!newest.sensors().isEmpty()) {
      link.expectSession();
    }
    link.start(
        up -> {
          watch.linkChanged(up);
          if (up) {
            topics.tellAll();
            join(broker).letSensorsIn().run();
            sensorsAreIn.countDown();
          }
        });
    if (config.embedded()) {
      awaitSensors();
    }
    parts.remember(clientId);
    parts.tellOfNeedless();
    facts.started();
  }

  private static Optional<Instant> newestReading(Newest newest) {
    return newest.sensors().stream()
        .flatMap(sensor -> newest.of(sensor).stream())
        .map(SensorSummary::last)
        .max(Instant::compareTo);
  }

  /** The embedded broker lets sensors in a moment after the pages are there. */
  private void awaitSensors() {
    try {
      if (!sensorsAreIn.await(LONGEST_WAIT.toSeconds(), TimeUnit.SECONDS)) {
        LOG.warn("sensors cannot publish yet: {}", link.state());
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  /**
   * Starts everything.
   *
   * @param demo whether the pages should say that this is an invented scenario
   * @throws IllegalStateException when a part cannot start; the message names it and the remedy
   */
  public static Service start(Config config, Clock clock, boolean demo) {
    return start(config, clock, PERIOD, demo);
  }

  /**
   * Starts everything, with another period than the usual one.
   *
   * @param period how often the service judges what changes by time alone, and measures itself
   */
  public static Service start(Config config, Clock clock, Duration period, boolean demo) {
    return start(config, clock, period, demo, StartOptions.NONE);
  }

  /** Starts everything, and sets aside those of the named parts that cannot be used. */
  static Service start(Config config, Clock clock, StartOptions options) {
    return start(config, clock, PERIOD, false, options);
  }

  private static Service start(
      Config config, Clock clock, Duration period, boolean demo, StartOptions options) {
    Deque<AutoCloseable> running = new ArrayDeque<>();
    try {
      return new Service(running, config, clock, period, demo, options);
    } catch (RuntimeException e) {
      stop(running);
      throw e;
    }
  }

  private <T extends AutoCloseable> T running(T part) {
    running.push(part);
    return part;
  }

  /**
   * Starts the broker once the pages answer; before that, it would only delay them.
   *
   * @param pagesAnswer completes with the intake, which exists before the broker starts
   */
  private CompletableFuture<Broker> startBroker(
      CompletableFuture<Intake> pagesAnswer,
      DataParts parts,
      ServiceLogin login,
      Decoder decoder,
      SensorLimit names,
      Clock clock) {
    if (!config.embedded()) {
      BrokerAddress address =
          new BrokerAddress(config.broker(), config.brokerUser(), config.brokerPassword());
      return CompletableFuture.completedFuture(
          new Broker(() -> address, () -> {}, () -> 0, Map::of));
    }
    CompletableFuture<EmbeddedBroker> broker =
        pagesAnswer.thenApplyAsync(
            intake -> {
              BrokerAccounts accounts = brokerAccounts(login, decoder, intake, clock);
              return parts.open(
                  DataPart.BROKER,
                  folder ->
                      EmbeddedBroker.start(
                          config.mqttHost(),
                          config.mqttPort(),
                          folder,
                          accounts,
                          brokerLimits(decoder, names, clock)));
            });
    running(
        () -> {
          pagesAnswer.cancel(false);
          broker.thenAccept(EmbeddedBroker::close).exceptionally(e -> null).join();
        });
    return broker.thenApply(
        started ->
            new Broker(
                () -> new BrokerAddress(started.serviceUri(), login.user(), login.password()),
                started::letSensorsIn,
                () -> started.waiting(login.clientId(), decoder.topicFilters()),
                () -> {
                  String trouble = started.topicTrouble();
                  return Map.of(
                      "topics", trouble == null ? Part.up(started.topics()) : Part.down(trouble),
                      "logins", Part.up(started.logins()),
                      "sessions", Part.up(started.sessions()));
                }));
  }

  /** The intake logs each message that the broker refused, so that a mistyped topic is visible. */
  private BrokerAccounts brokerAccounts(
      ServiceLogin login, Decoder decoder, Intake intake, Clock clock) {
    return new BrokerAccounts(
        login,
        accounts(),
        new BrokerAccounts.Topics(config.rootTopic(), mappedTopics(), decoder::sensorOf),
        (topic, reason) ->
            intake.refuse(
                Reject.of(clock.instant(), topic, RejectCode.FORBIDDEN_TOPIC, reason, "")));
  }

  private BrokerLimits brokerLimits(Decoder decoder, SensorLimit names, Clock clock) {
    Config.MqttLimits limits = config.mqttLimits();
    return BrokerLimits.of(
        config.maxPayloadBytes(),
        limits.maxSensors(),
        Duration.ofHours(limits.sessionHours()),
        (long) limits.sessionMegabytes() << 20,
        topic -> {
          String sensor = decoder.sensorOf(topic);
          return sensor == null ? null : names.whyNot(new SensorId(sensor), clock.instant());
        });
  }

  private Map<String, BrokerAccounts.Account> accounts() {
    Config.Grant nothing = new Config.Grant(List.of(), List.of());
    Map<String, BrokerAccounts.Account> accounts = new HashMap<>();
    config
        .accounts()
        .forEach(
            (name, password) -> {
              Config.Grant grant = config.mqttLimits().grants().getOrDefault(name, nothing);
              accounts.put(
                  name, new BrokerAccounts.Account(password, grant.publish(), grant.read()));
            });
    return accounts;
  }

  /** The fixed first levels of the topics that the mapping rules listen to. */
  private List<String> mappedTopics() {
    return config.mappings().stream().map(rule -> fixedLevels(rule.topic())).toList();
  }

  private static String fixedLevels(String filter) {
    return Arrays.stream(filter.split("/"))
        .takeWhile(level -> !level.contains("{") && !level.equals("+") && !level.equals("#"))
        .collect(Collectors.joining("/"));
  }

  private static <T> T join(CompletableFuture<T> future) {
    try {
      return future.join();
    } catch (CompletionException e) {
      if (e.getCause() instanceof IllegalStateException cause) {
        throw cause;
      }
      throw e;
    }
  }

  private static String randomPassword() {
    byte[] random = new byte[24];
    new SecureRandom().nextBytes(random);
    return HexFormat.of().formatHex(random);
  }

  public int httpPort() {
    return web.port();
  }

  public Register register() {
    return register;
  }

  @Override
  public void close() {
    stop(running);
  }

  private static void stop(Deque<AutoCloseable> running) {
    while (!running.isEmpty()) {
      AutoCloseable part = running.pop();
      try {
        part.close();
      } catch (Exception e) {
        LOG.warn("{} did not stop cleanly: {}", part.getClass().getSimpleName(), e.toString());
      }
    }
  }
}
