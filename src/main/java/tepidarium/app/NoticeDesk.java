package tepidarium.app;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
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
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import tepidarium.alert.Alert;
import tepidarium.alert.AlertKind;
import tepidarium.alert.AlertStore;
import tepidarium.alert.notify.AlertDetails;
import tepidarium.alert.notify.DeliveryOutcome;
import tepidarium.alert.notify.NoticeStore;
import tepidarium.alert.notify.NoticeText;
import tepidarium.alert.notify.Notices;
import tepidarium.alert.notify.Notifier;
import tepidarium.alert.notify.Trouble;
import tepidarium.alert.notify.channel.EmailNotifier;
import tepidarium.alert.notify.channel.Heartbeat;
import tepidarium.alert.notify.channel.WebhookNotifier;
import tepidarium.container.Container;
import tepidarium.container.ContainerId;
import tepidarium.container.Register;
import tepidarium.ingest.mqtt.MqttLink;
import tepidarium.live.LiveListener;
import tepidarium.reading.SensorId;
import tepidarium.reading.Span;
import tepidarium.rollup.ContainerHistory;
import tepidarium.series.StoreException;
import tepidarium.web.system.ServiceFacts.Part;

/**
 * Wires who is told: the notices with their notifiers, what the service watches of itself, and the
 * heartbeat, which two run on a thread of their own.
 */
final class NoticeDesk implements LiveListener, AutoCloseable {
  private static final Logger LOG = LoggerFactory.getLogger(NoticeDesk.class);

  /** For so long a jump of the clock and a notice that was given up are shown. */
  private static final Duration SHOWN = Duration.ofHours(24);

  private final NoticesConfig config;
  private final Path folder;
  private final Duration period;
  private final Clock clock;
  private final ClockTrust trust;
  private final Notices notices;
  private final SelfWatch selfWatch;
  private final ScheduledExecutorService thread =
      Executors.newScheduledThreadPool(
          2,
          task -> {
            Thread made = new Thread(task, "self-watch");
            made.setDaemon(true);
            return made;
          });
  private volatile Map<Trouble.Kind, Trouble> troubles = Map.of();
  private volatile @Nullable DeliveryOutcome lastBeat;

  /** Where the facts about an alert come from. */
  record Sources(
      Register register, ContainerHistory history, AlertStore alerts, NoticeStore store) {}

  /**
   * Prepares the notices; {@link #start} begins to send them.
   *
   * @param period how often the service measures itself
   */
  NoticeDesk(
      NoticesConfig config,
      Path folder,
      Sources sources,
      ClockTrust trust,
      Duration period,
      Clock clock) {
    this.trust = trust;
    this.config = config;
    this.folder = folder;
    this.period = period;
    this.clock = clock;
    NoticeText text = new NoticeText(config.rules().zone(), config.units(), config.publicUrl());
    this.notices =
        new Notices(
            sources.alerts(),
            sources.store(),
            config.rules(),
            text,
            alert -> situation(sources, alert),
            container -> name(sources.register(), container),
            clock);
    this.selfWatch = new SelfWatch(config.limits(), notices.troubles(), notices::troubleChanged);
  }

  Notices notices() {
    return notices;
  }

  /**
   * Begins to tell.
   *
   * @param page tells the open pages
   */
  void start(MqttLink link, String rootTopic, Notifier page) {
    notices.start(notifiers(link, rootTopic, page));
    every(period, () -> measure(link));
    NoticesConfig.Heartbeat asked = config.heartbeat();
    if (asked != null) {
      Heartbeat heartbeat = new Heartbeat(asked.url());
      every(asked.every(), () -> lastBeat = heartbeat.beat());
    }
  }

  private void every(Duration period, Runnable task) {
    var unused =
        thread.scheduleWithFixedDelay(
            () -> guarded(task), 0, period.toMillis(), TimeUnit.MILLISECONDS);
  }

  private static void guarded(Runnable task) {
    try {
      task.run();
    } catch (RuntimeException e) {
      LOG.warn("the service cannot look after itself now: {}", e.toString());
    }
  }

  private List<Notifier> notifiers(MqttLink link, String rootTopic, Notifier page) {
    List<Notifier> notifiers = new ArrayList<>();
    NoticesConfig.Email email = config.email();
    if (email != null) {
      for (int i = 0; i < email.to().size(); i++) {
        String name = i == 0 ? "email" : "email-" + (i + 1);
        notifiers.add(new EmailNotifier(name, email.server(), email.to().get(i), false));
      }
      String second = email.escalateTo();
      if (second != null) {
        notifiers.add(new EmailNotifier("escalation", email.server(), second, true));
      }
    }
    NoticesConfig.Webhook webhook = config.webhook();
    if (webhook != null) {
      notifiers.add(new WebhookNotifier(webhook.url(), webhook.secret(), clock));
    }
    notifiers.add(new MqttNotifier(link, rootTopic));
    notifiers.add(page);
    return notifiers;
  }

  private AlertDetails situation(Sources sources, Alert alert) {
    Optional<Container> container = sources.register().container(alert.container());
    Double lost =
        alert.kind() == AlertKind.COLD && container.isPresent()
            ? lost(sources.history(), container.get(), alert)
            : null;
    return new AlertDetails(alert, name(sources.register(), alert.container()), lost);
  }

  private static String name(Register register, ContainerId container) {
    return register.container(container).map(Container::name).orElse(container.value());
  }

  /** The heat lost from when it began until now, or until it returned; null when not known now. */
  private @Nullable Double lost(ContainerHistory history, Container container, Alert alert) {
    Instant end = alert.returnedAt() == null ? clock.instant() : alert.returnedAt();
    if (!end.isAfter(alert.since())) {
      return null;
    }
    try {
      return history.cold(container, new Span(alert.since(), end)).excursions().stream()
          .map(ContainerHistory.ExcursionDetail::degreeHoursLost)
          .mapToDouble(each -> each == null ? 0 : each)
          .sum();
    } catch (StoreException e) {
      LOG.warn("a notice goes without the heat lost: {}", e.getMessage());
      return null;
    }
  }

  private void measure(MqttLink link) {
    Instant now = clock.instant();
    trust.take(now);
    selfWatch.take(
        new SelfWatch.Measured(
            now, System.nanoTime(), link.isUp(), freeBytes(), link.trouble(), trust.problem()));
    Map<Trouble.Kind, Trouble> newest = new LinkedHashMap<>();
    for (Trouble.Kind kind : Trouble.Kind.values()) {
      selfWatch.newest(kind).ifPresent(trouble -> newest.put(kind, trouble));
    }
    troubles = newest;
  }

  private long freeBytes() {
    try {
      return Files.getFileStore(folder).getUsableSpace();
    } catch (IOException e) {
      LOG.warn("cannot tell how much space {} has left: {}", folder, e.toString());
      return Long.MAX_VALUE;
    }
  }

  /** How notices, disk, clock and heartbeat are. */
  Map<String, Part> parts() {
    Map<String, Part> parts = new LinkedHashMap<>();
    parts.put("notices", deliveries());
    Trouble disk = troubles.get(Trouble.Kind.DISK);
    parts.put(
        "disk",
        disk != null && disk.active() ? Part.down(disk.detail()) : Part.up("enough space left"));
    parts.put("clock", clockPart());
    DeliveryOutcome beat = lastBeat;
    if (config.heartbeat() != null) {
      parts.put("heartbeat", beat == null ? Part.up("not called yet") : part(beat));
    }
    return parts;
  }

  /** A jump is over as soon as it is noticed; it is told for a day. */
  private Part clockPart() {
    String problem = trust.problem();
    if (problem != null) {
      return Part.down(problem);
    }
    Trouble jump = troubles.get(Trouble.Kind.CLOCK);
    return Part.up(
        jump != null && recent(jump.since())
            ? jump.detail() + " Noticed at " + jump.since() + '.'
            : "runs evenly");
  }

  private boolean recent(@Nullable Instant at) {
    return at != null && Duration.between(at, clock.instant()).compareTo(SHOWN) < 0;
  }

  private static Part part(DeliveryOutcome outcome) {
    return outcome.result() == DeliveryOutcome.Result.DELIVERED
        ? Part.up(outcome.words())
        : Part.down(outcome.words());
  }

  private Part deliveries() {
    List<String> troubled = new ArrayList<>();
    try {
      notices
          .tally()
          .forEach(
              (name, tally) -> {
                if (tally.trouble() != null) {
                  troubled.add(name + ": " + tally.waiting() + " wait, " + tally.trouble());
                } else if (recent(tally.lastFailedAt())) {
                  troubled.add(name + ": one was given up at " + tally.lastFailedAt());
                }
              });
    } catch (StoreException e) {
      return Part.down(String.valueOf(e.getMessage()));
    }
    return troubled.isEmpty()
        ? Part.up("nothing waits for another attempt")
        : Part.down(String.join("; ", troubled));
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
