package tepidarium.app;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import tepidarium.alert.AlertRules;
import tepidarium.alert.AlertStore;
import tepidarium.backup.BackupSchedule;
import tepidarium.backup.ScheduledBackups;
import tepidarium.container.Register;
import tepidarium.exchange.RecordExchange;
import tepidarium.exchange.RecordStores;
import tepidarium.exporting.ReadingExport;
import tepidarium.germination.SeedJournal;
import tepidarium.importing.ImportJobs;
import tepidarium.ingest.Decoder;
import tepidarium.ingest.HeardMessages;
import tepidarium.ingest.IngestCounters;
import tepidarium.ingest.Intake;
import tepidarium.ingest.IntakeCounts;
import tepidarium.ingest.Mappings;
import tepidarium.ingest.RejectLog;
import tepidarium.ingest.SensorLimit;
import tepidarium.ingest.mqtt.MqttLink;
import tepidarium.live.CalibrationErrors;
import tepidarium.live.Watch;
import tepidarium.records.AlertRecords;
import tepidarium.records.AlertRuleRecords;
import tepidarium.records.ClockRecords;
import tepidarium.records.ContainerRecords;
import tepidarium.records.Database;
import tepidarium.records.DayExtremesRecords;
import tepidarium.records.GerminationRecords;
import tepidarium.records.ImportProfileRecords;
import tepidarium.records.MappingRecords;
import tepidarium.records.NoticeRecords;
import tepidarium.records.RejectRecords;
import tepidarium.records.SeasonRecords;
import tepidarium.records.SensorAccountRecords;
import tepidarium.records.SensorRecords;
import tepidarium.sensor.SensorBook;
import tepidarium.series.ReadingSink;
import tepidarium.series.SerialSink;
import tepidarium.series.WriteResult;
import tepidarium.sites.Sites;
import tepidarium.tls.WatchedCertificate;
import tepidarium.web.alerts.AlertViews;
import tepidarium.web.containers.ContainerViews;
import tepidarium.web.sensors.SensorActivities;
import tepidarium.web.sensors.SensorViews;
import tepidarium.web.server.ApiRoutes;
import tepidarium.web.server.PagesTls;
import tepidarium.web.server.WebServer;
import tepidarium.web.system.ServiceInfo.Part;

/**
 * Creates every part of the program, connects the parts and starts them. The order is data folder,
 * stores, watch, intake, pages, broker, MQTT link. {@link #close} stops them in the reverse order:
 * the link stops first, then the intake stores the readings in its queue.
 */
public final class Service implements AutoCloseable {
  /** The service connects again if messages wait for it and none arrives for this long. */
  private static final Duration MESSAGES_STUCK = Duration.ofSeconds(30);

  private final RunningParts running;
  private final Config config;
  private final Clock clock;
  private final Pace pace;
  private final OpenFolder folder;
  private final Decoder decoder;
  private final HeardMessages heard = new HeardMessages();
  private final Mappings mappings;
  private final SensorLimit sensorLimit;
  private final SensorLogins sensorLogins;
  private final BrokerStart broker;
  private final Standby standby;
  private final Stores stores;
  private final ContainerData containers;
  private final SensorBook sensors;
  private final AlertStore alerts;
  private final AlertRules rules;
  private final ArrivalRecords arrivals;
  private final AlertViews alertViews;
  private final ClockTrust trust;
  private final Watch watch;
  private final ReadingSink sink;
  private final Intake intake;
  private final ImportJobs imports;
  private final DiskUse diskUse;
  private final CurrentServiceInfo info;
  private final ScheduledBackups backups;
  private final NoticeService notices;
  private final SensorActivities activities;
  private final Sites sites;
  private final @Nullable WatchedCertificate certificate;
  private final LoginStart login;
  private final WebServer web;
  private final MqttLink link;

  private Service(
      RunningParts running,
      Config config,
      Clock clock,
      Pace pace,
      boolean demo,
      StartOptions options) {
    this.running = running;
    this.config = config;
    this.clock = clock;
    this.pace = pace;
    folder = OpenFolder.open(config, options, clock, running);
    decoder = new Decoder(config.rootTopic(), config.mappings(), config.maxPayloadBytes());
    sensorLimit =
        new SensorLimit(config.mqttLimits().maxSensors(), config.mqttLimits().newSensorsPerHour());
    certificate = openCertificate();
    sensorLogins = new SensorLogins(config, certificate);
    broker =
        running.add(
            new BrokerStart(
                config,
                folder.parts(),
                folder.clientId(),
                decoder,
                heard,
                sensorLimit,
                sensorLogins,
                certificate,
                clock));
    standby = new Standby(config, folder, pagesAddress(), clock, running);
    stores = standby.openStores(broker);
    mappings =
        new Mappings(config.mappings(), new MappingRecords(stores.records()), decoder, heard);
    containers = ContainerData.over(stores, config.maxGap(), clock);
    sensors = running.add(new SensorBook(new SensorRecords(stores.records())));
    alerts = new AlertRecords(stores.records());
    rules =
        new AlertRules(
            new AlertRuleRecords(stores.records()),
            config.silentAfter(),
            new CalibrationErrors(containers.register(), clock));
    arrivals = arrivalRecords();
    alertViews = new AlertViews(containers.register(), config.timeZone());
    ClockRecords clockRecords = new ClockRecords(stores.records());
    Optional<Instant> lastSeen = clockRecords.lastSeen().or(containers::newestReading);
    sensorLogins.read(new SensorAccountRecords(stores.records()), lastSeen.isPresent());
    trust = new ClockTrust(lastSeen.orElse(null));
    if (options.trustClock()) {
      trust.confirm(clock.instant());
    }
    Housekeeping housekeeping = startHousekeeping(clockRecords);
    containers.declareSensors(sensorLimit, clock);
    watch = startWatch();
    sink = new SerialSink(stores.storage().sink(containers.rollups(), containers.sensorDays()));
    intake = startIntake();
    imports =
        running.add(
            new ImportJobs(
                config.data().resolve("imports"), importSink(), config.timeZone(), clock));
    folder.parts().saveManifest(folder.clientId());
    diskUse = new DiskUse(config.data(), clock, pace.nanos());
    info =
        new CurrentServiceInfo(
            config,
            demo,
            intake,
            sensorLimit,
            sensorLogins,
            stores,
            folder.parts(),
            diskUse,
            clock);
    login = running.add(LoginStart.start(config, stores.records(), clock));
    backups = running.add(createBackups());
    notices = createNoticeService();
    info.addHealth(() -> healthOf(config, notices, housekeeping, login, certificate));
    activities = createActivities();
    sites = createSites();
    web = startPages();
    broker.pagesReady(intake);
    MqttLink.prepare();
    link = createLink();
    mappings.onChange(() -> link.follow(decoder.topicFilters()));
    mappings.refusedBy(link::refusal);
    startLinkAndNotices();
    standby.watchBroker(stores, link, pace);
    folder.parts().saveManifest(folder.clientId());
    folder.parts().warnOfUnneededSetAside();
    info.markStarted();
  }

  /**
   * Starts everything.
   *
   * @param demo whether the pages show that the data is simulated
   * @throws IllegalStateException when a part cannot start; the message names it and the remedy
   */
  public static Service start(Config config, Clock clock, boolean demo) {
    return start(config, clock, Pace.DEFAULT, demo);
  }

  /** Starts everything, with other intervals than the default. */
  public static Service start(Config config, Clock clock, Pace pace, boolean demo) {
    return start(config, clock, pace, demo, StartOptions.NONE);
  }

  /** Starts everything. Sets aside the parts of the data that the options name. */
  static Service start(Config config, Clock clock, StartOptions options) {
    return start(config, clock, Pace.DEFAULT, false, options);
  }

  private static Service start(
      Config config, Clock clock, Pace pace, boolean demo, StartOptions options) {
    RunningParts running = new RunningParts();
    try {
      return new Service(running, config, clock, pace, demo, options);
    } catch (RuntimeException e) {
      running.close();
      throw e;
    }
  }

  private Housekeeping startHousekeeping(ClockRecords clockRecords) {
    return running.add(
        Housekeeping.start(
            new Housekeeping.Dependencies(
                containers.rollups(),
                containers.sensorDays(),
                stores.storage().trimmer(),
                containers.latestValues(),
                trust,
                clockRecords),
            config.keeping().rawDays(),
            config.maxGap(),
            pace,
            clock));
  }

  private Watch startWatch() {
    return running.add(
        new Watch(
            containers.register(),
            containers.latestValues(),
            containers.heatSoFar(),
            containers.calibrated(),
            alerts,
            rules,
            Duration.ofSeconds(config.silentGraceSeconds()),
            pace.checks(),
            clock));
  }

  private ArrivalRecords arrivalRecords() {
    RejectLog rejects = new RejectRecords(stores.records());
    return config.keeping().recordsElsewhere()
        ? ArrivalRecords.deferred(rejects, containers.arrivalFaults(), running)
        : ArrivalRecords.direct(rejects, containers.arrivalFaults());
  }

  /** Connects the intake to the store. The spool starts too, if there is one. */
  private Intake startIntake() {
    Storage storage = stores.storage();
    IngestCounters counters = new IngestCounters(arrivals.rejects(), config.rootTopic(), clock);
    running.add(storage::stopForwarding);
    Intake started =
        running.add(
            new Intake(
                decoder,
                sensorLimit,
                sink,
                counters,
                new Buttons(containers.register()),
                arrivals.faults(),
                heard,
                stored -> {
                  trust.confirmBy(stored.readings(), stored.arrivedAt());
                  watch.stored(stored.readings(), stored.arrivedAt());
                  sensors.reported(stored.statuses(), stored.arrivedAt());
                }));
    storage.start(counters, watch);
    return started;
  }

  /** Stores imported readings, and updates newest values and heat. */
  private ReadingSink importSink() {
    return batch -> {
      WriteResult result = sink.write(batch);
      watch.imported(result.accepted(batch));
      return result;
    };
  }

  private NoticeService createNoticeService() {
    return new NoticeService(
        config.notices(),
        config.network().name(),
        diskUse,
        new NoticeService.Sources(
            containers.register(),
            containers.history(),
            alerts,
            new NoticeRecords(stores.records()),
            backups),
        trust,
        pace,
        clock);
  }

  private ScheduledBackups createBackups() {
    Config.BackupSettings settings = config.backups();
    return new ScheduledBackups(
        new BackupSchedule(
            config.keeping().recordsElsewhere() ? null : settings.every(), settings.keep()),
        config.data(),
        () -> BackupCommand.source(config, true),
        new ScheduledBackups.Target(config.backupFolder(), settings.folder() == null),
        () -> trust.problem() != null,
        clock);
  }

  private static Map<String, Part> healthOf(
      Config config,
      NoticeService notices,
      Housekeeping housekeeping,
      LoginStart login,
      @Nullable WatchedCertificate certificate) {
    Map<String, Part> parts = new LinkedHashMap<>(notices.health());
    if (config.keeping().recordsElsewhere()) {
      parts.put(
          "backup",
          Part.up(
              "no automatic backups, because the records are in PostgreSQL. Back up its database"
                  + " with pg_dump"));
    }
    parts.putAll(housekeeping.health());
    parts.putAll(login.health());
    if (certificate != null) {
      WatchedCertificate.Health health = certificate.health();
      parts.put("tls", health.up() ? Part.up(health.words()) : Part.down(health.words()));
    }
    return parts;
  }

  private @Nullable WatchedCertificate openCertificate() {
    Config.Tls files = config.access().tls();
    return files == null
        ? null
        : running.add(new WatchedCertificate(files.certificate(), files.key(), clock));
  }

  private WebServer startPages() {
    standby.endWaiting();
    return running.add(WebServer.start(pagesAddress(), apiParts()));
  }

  private WebServer.Address pagesAddress() {
    return new WebServer.Address(
        config.httpHost(),
        config.httpPort(),
        config.httpNames(),
        config.access().proxies(),
        certificate == null ? null : new PagesTls(certificate));
  }

  private ApiRoutes.Parts apiParts() {
    Register register = containers.register();
    SeedJournal journal = new SeedJournal(new GerminationRecords(stores.records()), register);
    return new ApiRoutes.Parts(
        register,
        containers.calibrated(),
        containers.history(),
        watch,
        alerts,
        rules,
        new ReadingExport(stores.storage().source(), register),
        recordExchange(journal),
        imports,
        new ImportProfileRecords(stores.records()),
        mappings,
        heard,
        arrivals.rejects(),
        info,
        new ContainerViews(
            register, containers.latestValues(), containers.heatSoFar(), watch, alertViews, clock),
        sensorViews(),
        alertViews,
        journal,
        notices.notices(),
        new SeasonRecords(stores.records()),
        new DayExtremesRecords(stores.records()),
        containers.faults(),
        login.login(),
        sensorLogins,
        new SavedSettings(config, notices::use, notices.notices()::test, clock),
        clock,
        config.timeZone(),
        config.site(),
        config.notices().publicUrl(),
        config.network().name(),
        sites);
  }

  private Sites createSites() {
    OwnSite own =
        running.add(
            new OwnSite(
                config,
                Stores.machine(folder),
                info,
                new OwnSite.Sources(stores, containers, watch, backups),
                pace,
                clock));
    return running.add(new Sites(config.network().others(), own::state, clock)).start();
  }

  private RecordExchange recordExchange(SeedJournal journal) {
    Database records = stores.records();
    RecordStores written =
        new RecordStores(
            new ContainerRecords(records),
            new SensorRecords(records),
            new GerminationRecords(records),
            work ->
                records.transaction(
                    handle -> {
                      work.run();
                      return true;
                    }));
    return new RecordExchange(containers.register(), journal, sensors, written);
  }

  private SensorActivities createActivities() {
    return running.add(
        new SensorActivities(
            stores.storage().source(),
            containers.latestValues(),
            sensors,
            containers.faults(),
            config.maxGap(),
            clock));
  }

  private SensorViews sensorViews() {
    return new SensorViews(
        containers.register(),
        sensors,
        containers.latestValues(),
        stores.storage().source(),
        activities,
        config.maxGap());
  }

  private MqttLink createLink() {
    BrokerStart.Broker started = broker.await();
    return running.add(
        new MqttLink(
            started.address(),
            config.rootTopic(),
            decoder.topicFilters(),
            standby.clientId(),
            new MqttLink.Limits(config.maxPayloadBytes(), MESSAGES_STUCK),
            started.waiting(),
            clock,
            intake));
  }

  /** Connects alerts to MQTT and to the notices, then starts the link to the broker. */
  private void startLinkAndNotices() {
    info.setLink(link, broker.await().parts());
    AlertTopics topics = new AlertTopics(link, watch, alerts, containers.register(), alertViews);
    watch.listen(topics);
    watch.listen(notices);
    SummaryFacts summaries =
        new SummaryFacts(
            containers.register(),
            containers.latestValues(),
            sensors,
            activities,
            diskUse::words,
            clock);
    running.add(notices).start(link, config.rootTopic(), web.pages(), summaries);
    backups.start(pace.backups());
    watch.catchUp();
    if (!containers.latestValues().sensors().isEmpty()) {
      link.expectSession();
    }
    LinkStart start =
        new LinkStart(link, watch, topics, () -> broker.await().openSensorPort().run());
    start.start();
    if (config.embedded()) {
      start.awaitSensors();
    }
  }

  /** Waits until this service should be closed, so that another one takes over. */
  void awaitHandOver() throws InterruptedException {
    standby.awaitHandOver();
  }

  public int httpPort() {
    return web.port();
  }

  /** Returns the counts of readings since the start. */
  public IntakeCounts counts() {
    return intake.counts();
  }

  public Register register() {
    return containers.register();
  }

  @Override
  public void close() {
    running.close();
  }
}
