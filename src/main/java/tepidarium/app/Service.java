package tepidarium.app;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import tepidarium.backup.BackupSchedule;
import tepidarium.backup.ScheduledBackups;
import tepidarium.container.Register;
import tepidarium.ingest.IntakeCounts;
import tepidarium.ingest.Mappings;
import tepidarium.ingest.mqtt.MqttLink;
import tepidarium.live.Watch;
import tepidarium.records.ClockRecords;
import tepidarium.records.MappingRecords;
import tepidarium.records.NoticeRecords;
import tepidarium.records.SensorAccountRecords;
import tepidarium.records.SensorRecords;
import tepidarium.sensor.SensorBook;
import tepidarium.sites.Sites;
import tepidarium.tls.WatchedCertificate;
import tepidarium.web.sensors.SensorActivities;
import tepidarium.web.server.PagesTls;
import tepidarium.web.server.WebServer;
import tepidarium.web.system.ServiceInfo.Part;

/**
 * Creates every part of the program, connects the parts and starts them. The order is data folder,
 * stores, watch, intake, pages, broker, MQTT link, notices. {@link #close} stops them in the
 * reverse order, except that the broker stops after the stores: notices, link and pages stop first,
 * then the intake stores the readings in its queue.
 */
public final class Service implements AutoCloseable {
  /** The service connects again if messages wait for it and none arrives for this long. */
  private static final Duration MESSAGES_STUCK = Duration.ofSeconds(30);

  private final RunningParts running;
  private final Config config;
  private final Clock clock;
  private final Pace pace;
  private final OpenFolder folder;
  private final MessageReading messages;
  private final Mappings mappings;
  private final SensorLogins sensorLogins;
  private final BrokerStart broker;
  private final Standby standby;
  private final Stores stores;
  private final ContainerData containers;
  private final SensorBook sensors;
  private final ClockTrust trust;
  private final Alerting alerting;
  private final SensorIntake intake;
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
    messages = MessageReading.of(config);
    certificate = openCertificate();
    sensorLogins = new SensorLogins(config, certificate);
    broker =
        running.add(
            new BrokerStart(
                config,
                folder.parts(),
                folder.clientId(),
                messages,
                sensorLogins,
                certificate,
                clock));
    standby = new Standby(config, folder, pagesAddress(), clock, running);
    stores = standby.openStores(broker);
    mappings =
        new Mappings(
            config.mappings(),
            new MappingRecords(stores.records()),
            messages.decoder(),
            messages.heard());
    containers = ContainerData.over(stores, config.maxGap(), clock);
    sensors = running.add(new SensorBook(new SensorRecords(stores.records())));
    ClockRecords clockRecords = new ClockRecords(stores.records());
    Optional<Instant> lastSeen = clockRecords.lastSeen().or(containers::newestReading);
    sensorLogins.read(new SensorAccountRecords(stores.records()), lastSeen.isPresent());
    trust = new ClockTrust(lastSeen.orElse(null));
    if (options.trustClock()) {
      trust.confirm(clock.instant());
    }
    Housekeeping housekeeping = startHousekeeping(clockRecords);
    containers.declareSensors(messages.sensorLimit(), clock);
    alerting = Alerting.start(config, stores, containers, pace, clock, running);
    intake =
        SensorIntake.start(
            config, messages, stores, containers, sensors, alerting.watch(), trust, clock, running);
    folder.parts().saveManifest(folder.clientId());
    diskUse = new DiskUse(config.data(), clock, pace.nanos());
    info =
        new CurrentServiceInfo(
            config,
            demo,
            intake.intake(),
            messages.sensorLimit(),
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
    broker.pagesReady(intake.intake());
    MqttLink.prepare();
    link = createLink();
    mappings.onChange(() -> link.follow(messages.decoder().topicFilters()));
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

  private NoticeService createNoticeService() {
    return new NoticeService(
        config.notices(),
        config.network().name(),
        diskUse,
        new NoticeService.Sources(
            containers.register(),
            containers.history(),
            alerting.store(),
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
    PagesSources sources =
        new PagesSources(
            config,
            stores,
            containers,
            sensors,
            activities,
            alerting,
            messages,
            mappings,
            intake,
            info,
            notices,
            login,
            sensorLogins,
            sites,
            clock);
    return running.add(WebServer.start(pagesAddress(), sources.apiParts()));
  }

  private WebServer.Address pagesAddress() {
    return new WebServer.Address(
        config.httpHost(),
        config.httpPort(),
        config.httpNames(),
        config.access().proxies(),
        certificate == null ? null : new PagesTls(certificate));
  }

  private Sites createSites() {
    OwnSite own =
        running.add(
            new OwnSite(
                config,
                Stores.machine(folder),
                info,
                new OwnSite.Sources(stores, containers, alerting.watch(), backups),
                pace,
                clock));
    return running.add(new Sites(config.network().others(), own::state, clock)).start();
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

  private MqttLink createLink() {
    BrokerStart.Broker started = broker.await();
    return running.add(
        new MqttLink(
            started.address(),
            config.rootTopic(),
            messages.decoder().topicFilters(),
            standby.clientId(),
            new MqttLink.Limits(config.maxPayloadBytes(), MESSAGES_STUCK),
            started.waiting(),
            clock,
            intake.intake()));
  }

  /** Connects alerts to MQTT and to the notices, then starts the link to the broker. */
  private void startLinkAndNotices() {
    info.setLink(link, broker.await().parts());
    Watch watch = alerting.watch();
    AlertTopics topics =
        new AlertTopics(link, watch, alerting.store(), containers.register(), alerting.views());
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
    return intake.intake().counts();
  }

  public Register register() {
    return containers.register();
  }

  @Override
  public void close() {
    running.close();
  }
}
