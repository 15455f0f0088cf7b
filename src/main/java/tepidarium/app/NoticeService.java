package tepidarium.app;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.TimeUnit;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import tepidarium.alert.Alert;
import tepidarium.alert.AlertKind;
import tepidarium.alert.AlertStore;
import tepidarium.alert.notify.AlertDetails;
import tepidarium.alert.notify.DailySummary;
import tepidarium.alert.notify.DeliveryOutcome;
import tepidarium.alert.notify.NoticeStore;
import tepidarium.alert.notify.NoticeText;
import tepidarium.alert.notify.Notices;
import tepidarium.alert.notify.Notifier;
import tepidarium.alert.notify.Trouble;
import tepidarium.alert.notify.channel.Heartbeat;
import tepidarium.backup.ScheduledBackups;
import tepidarium.container.Container;
import tepidarium.container.ContainerId;
import tepidarium.container.Register;
import tepidarium.ingest.mqtt.MqttLink;
import tepidarium.live.LiveListener;
import tepidarium.reading.SensorId;
import tepidarium.reading.Span;
import tepidarium.rollup.BandHistory;
import tepidarium.rollup.ContainerHistory;
import tepidarium.series.StoreException;
import tepidarium.thread.DaemonThreads;
import tepidarium.web.system.ServiceInfo.Part;

/**
 * Runs the notices: connects them with alerts and channels, monitors the service itself, and sends
 * the heartbeat. Monitoring and heartbeat run on threads of their own.
 */
final class NoticeService implements LiveListener, AutoCloseable {
  private static final Logger LOG = LoggerFactory.getLogger(NoticeService.class);

  /** Time for which health shows a jump of the clock or a failed notice. */
  private static final Duration SHOWN_FOR = Duration.ofHours(24);

  private final DiskUse diskUse;
  private final Pace pace;
  private final Clock clock;
  private final ClockTrust trust;
  private final ScheduledBackups backups;
  private final Notices notices;
  private final SelfMonitor selfMonitor;
  private final ScheduledExecutorService thread =
      Executors.newScheduledThreadPool(2, DaemonThreads.named("self-monitor"));
  private final List<Notifier> ownChannels = new ArrayList<>();
  private final NoticesConfig config;
  private final @Nullable String site;
  private volatile Map<Trouble.Kind, Trouble> troubles = Map.of();
  private volatile @Nullable DeliveryOutcome lastHeartbeat;

  /** The stores that alerts and notices are read from, and the automatic backups. */
  record Sources(
      Register register,
      ContainerHistory history,
      AlertStore alerts,
      NoticeStore store,
      ScheduledBackups backups) {}

  /**
   * Prepares the notices; {@link #start} starts to send them.
   *
   * @param site name of this site; null if it has none
   * @param pace intervals at which the service checks itself and decides notices
   */
  NoticeService(
      NoticesConfig config,
      @Nullable String site,
      DiskUse diskUse,
      Sources sources,
      ClockTrust trust,
      Pace pace,
      Clock clock) {
    this.trust = trust;
    this.backups = sources.backups();
    this.config = config;
    this.site = site;
    this.diskUse = diskUse;
    this.pace = pace;
    this.clock = clock;
    this.notices =
        new Notices(
            sources.alerts(),
            sources.store(),
            config.rules(),
            text(config),
            alert -> details(sources, alert),
            container -> containerName(sources.register(), container),
            clock);
    this.selfMonitor =
        new SelfMonitor(config.limits(), notices.troubles(), notices::troubleChanged);
  }

  Notices notices() {
    return notices;
  }

  /**
   * Starts to send notices and heartbeats, and to monitor the service.
   *
   * @param page shows notices on the open pages
   * @param summaries creates the daily summary
   */
  void start(MqttLink link, String rootTopic, Notifier page, Supplier<DailySummary> summaries) {
    ownChannels.add(new MqttNotifier(link, rootTopic));
    ownChannels.add(page);
    use(config);
    notices.start(summaries, pace.notices());
    schedule(pace.checks(), () -> check(link));
    NoticesConfig.Heartbeat settings = config.heartbeat();
    if (settings != null) {
      Heartbeat heartbeat = new Heartbeat(settings.url());
      schedule(settings.every(), () -> lastHeartbeat = heartbeat.beat());
    }
  }

  /**
   * Uses other settings for notices from now on. The heartbeat, the limits of the service's own
   * troubles and the links in notices stay as they were at the start.
   */
  void use(NoticesConfig changed) {
    List<Notifier> channels = new ArrayList<>(NoticeChannels.of(changed, clock));
    channels.addAll(ownChannels);
    notices.use(changed.rules(), text(changed), channels);
  }

  private NoticeText text(NoticesConfig changed) {
    return new NoticeText(changed.rules().zone(), changed.units(), config.publicUrl(), site);
  }

  private void schedule(Duration period, Runnable task) {
    var unused =
        thread.scheduleWithFixedDelay(
            () -> runLoggingFailure(task), 0, period.toMillis(), TimeUnit.MILLISECONDS);
  }

  private static void runLoggingFailure(Runnable task) {
    try {
      task.run();
    } catch (RuntimeException e) {
      LOG.warn("a check of the service itself failed: {}", e.toString());
    }
  }

  private AlertDetails details(Sources sources, Alert alert) {
    Optional<Container> container = sources.register().container(alert.container());
    Double heatLost =
        alert.kind() == AlertKind.COLD && container.isPresent()
            ? heatLost(sources.history(), container.get(), alert)
            : null;
    return new AlertDetails(alert, containerName(sources.register(), alert.container()), heatLost);
  }

  private static String containerName(Register register, ContainerId container) {
    return register.container(container).map(Container::name).orElse(container.value());
  }

  /**
   * Returns the degree-hours lost since the start of the alert, up to its return or now; null if
   * the store does not answer.
   */
  private @Nullable Double heatLost(ContainerHistory history, Container container, Alert alert) {
    Instant end = alert.returnedAt() == null ? clock.instant() : alert.returnedAt();
    if (!end.isAfter(alert.since())) {
      return null;
    }
    try {
      return history.band().cold(container, new Span(alert.since(), end)).excursions().stream()
          .map(BandHistory.ExcursionDetail::degreeHoursLost)
          .mapToDouble(lost -> lost == null ? 0 : lost)
          .sum();
    } catch (StoreException e) {
      LOG.warn("sending a notice without the heat lost: {}", e.getMessage());
      return null;
    }
  }

  private void check(MqttLink link) {
    Instant now = clock.instant();
    trust.check(now);
    if (trust.problem() == null) {
      diskUse.recordDay();
    }
    selfMonitor.check(
        new SelfMonitor.Measurement(
            now,
            pace.nanos().getAsLong(),
            link.isUp(),
            diskUse.freeBytes(),
            link.trouble(),
            trust.problem(),
            backups.problem()));
    Map<Trouble.Kind, Trouble> latest = new LinkedHashMap<>();
    for (Trouble.Kind kind : Trouble.Kind.values()) {
      selfMonitor.latest(kind).ifPresent(trouble -> latest.put(kind, trouble));
    }
    troubles = latest;
  }

  /** Returns the health of notices, disk, clock, backups and heartbeat. */
  Map<String, Part> health() {
    Map<String, Part> parts = new LinkedHashMap<>();
    parts.put("notices", deliveryHealth());
    Trouble disk = troubles.get(Trouble.Kind.DISK);
    parts.put(
        "disk",
        disk != null && disk.active() ? Part.down(disk.detail()) : Part.up(diskUse.words()));
    parts.put("clock", clockHealth());
    parts.put(
        "backup",
        backups.problem() == null
            ? Part.up(backups.description())
            : Part.down(backups.description()));
    DeliveryOutcome heartbeat = lastHeartbeat;
    if (config.heartbeat() != null) {
      parts.put("heartbeat", heartbeat == null ? Part.up("not sent yet") : part(heartbeat));
    }
    return parts;
  }

  /** A jump of the clock is over at once, but health shows it for 24 h. */
  private Part clockHealth() {
    String problem = trust.problem();
    if (problem != null) {
      return Part.down(problem);
    }
    Trouble jump = troubles.get(Trouble.Kind.CLOCK);
    return Part.up(
        jump != null && recent(jump.since())
            ? jump.detail() + " Detected at " + jump.since() + '.'
            : "no jump detected in the last 24 h");
  }

  private boolean recent(@Nullable Instant at) {
    return at != null && Duration.between(at, clock.instant()).compareTo(SHOWN_FOR) < 0;
  }

  private static Part part(DeliveryOutcome outcome) {
    return outcome.result() == DeliveryOutcome.Result.DELIVERED
        ? Part.up(outcome.words())
        : Part.down(outcome.words());
  }

  private Part deliveryHealth() {
    List<String> problems = new ArrayList<>();
    try {
      notices
          .deliveryCounts()
          .forEach(
              (name, counts) -> {
                if (counts.trouble() != null) {
                  problems.add(name + ": " + counts.waiting() + " waiting, " + counts.trouble());
                } else if (recent(counts.lastFailedAt())) {
                  problems.add(name + ": a notice was given up at " + counts.lastFailedAt());
                }
              });
    } catch (StoreException e) {
      return Part.down(String.valueOf(e.getMessage()));
    }
    return problems.isEmpty()
        ? Part.up("no notice waits for a retry")
        : Part.down(String.join("; ", problems));
  }

  @Override
  public void alertChanged(Alert alert) {
    notices.alertChanged(alert);
  }

  @Override
  public void containerChanged(ContainerId container) {}

  @Override
  public void sensorHeard(SensorId sensor) {}

  @Override
  public void close() {
    thread.shutdownNow();
    notices.close();
  }
}
