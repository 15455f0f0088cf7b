package tepidarium.web.live;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import io.javalin.http.NotAcceptableResponse;
import io.javalin.http.sse.SseClient;
import io.javalin.http.sse.SseHandler;
import java.time.Clock;
import java.time.Duration;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.CopyOnWriteArraySet;
import java.util.concurrent.TimeUnit;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import tepidarium.alert.Alert;
import tepidarium.alert.notify.Delivery;
import tepidarium.alert.notify.DeliveryOutcome;
import tepidarium.alert.notify.NoticeJson;
import tepidarium.alert.notify.Notifier;
import tepidarium.container.ContainerId;
import tepidarium.container.Register;
import tepidarium.live.LiveListener;
import tepidarium.reading.InputRule;
import tepidarium.reading.SensorId;
import tepidarium.web.Json;
import tepidarium.web.Refused;
import tepidarium.web.Visitor;
import tepidarium.web.alerts.AlertViews;
import tepidarium.web.containers.ContainerViews;
import tepidarium.web.sensors.SensorViews;

/**
 * Sends live events to open pages. Changes are collected and sent at most once per second, which
 * limits the number of events. One thread creates the text of each event once. Each client has a
 * bounded queue and a sending thread. A client whose queue is full is disconnected; its page
 * connects again.
 */
public final class LiveStream implements LiveListener, Notifier, AutoCloseable {
  private static final Logger LOG = LoggerFactory.getLogger(LiveStream.class);
  public static final String PATH = "/api/live";
  static final int MAX_CLIENTS = 100;

  /** The stream of a page that was left is noticed some seconds later, and counts until then. */
  public static final int MAX_PER_ADDRESS = 40;

  private static final Duration PACE = Duration.ofSeconds(1);

  private final Register register;
  private final ContainerViews containers;
  private final SensorViews sensors;
  private final AlertViews alerts;
  private final Clock clock;
  private final Set<LiveClient> clients = new CopyOnWriteArraySet<>();

  /** Number of streams per address. Guarded by its own monitor. */
  private final Map<String, Integer> streamsByAddress = new HashMap<>();

  private final Set<ContainerId> changedContainers = ConcurrentHashMap.newKeySet();
  private final Set<SensorId> heardSensors = ConcurrentHashMap.newKeySet();
  private final Thread sender;
  private volatile boolean stopping;

  public LiveStream(
      Register register,
      ContainerViews containers,
      SensorViews sensors,
      AlertViews alerts,
      Clock clock) {
    this.register = register;
    this.containers = containers;
    this.sensors = sensors;
    this.alerts = alerts;
    this.clock = clock;
    this.sender = new Thread(this::run, "live-stream");
    sender.setDaemon(true);
    sender.start();
  }

  public void add(RoutesConfig routes) {
    SseHandler stream = new SseHandler(this::connect);
    routes.get(
        PATH,
        ctx -> {
          refuseOtherMediaTypes(ctx);
          countStream(ctx.ip());
          boolean started = false;
          try {
            stream.handle(ctx);
            started = true;
          } finally {
            if (!started) {
              releaseStream(ctx.ip());
            }
          }
        });
  }

  private static void refuseOtherMediaTypes(Context ctx) {
    String accept = ctx.header("Accept");
    if (accept == null || !accept.contains("text/event-stream")) {
      throw new NotAcceptableResponse(
          "this is an event stream: send the header Accept: text/event-stream");
    }
  }

  /**
   * Counts a stream before its response starts; after that it could not be refused with a message.
   */
  private void countStream(String address) {
    synchronized (streamsByAddress) {
      if (streamsByAddress.values().stream().mapToInt(Integer::intValue).sum() >= MAX_CLIENTS) {
        throw new Refused(
            HttpStatus.SERVICE_UNAVAILABLE,
            MAX_CLIENTS + " live pages are already open. Close one of them first.",
            InputRule.PAGES_OPEN.with(MAX_CLIENTS));
      }
      if (streamsByAddress.getOrDefault(address, 0) >= MAX_PER_ADDRESS) {
        throw new Refused(
            HttpStatus.TOO_MANY_REQUESTS,
            MAX_PER_ADDRESS
                + " live pages are open from the address "
                + address
                + " already. Close one of them first.",
            InputRule.PAGES_OPEN.with(MAX_PER_ADDRESS));
      }
      streamsByAddress.merge(address, 1, Integer::sum);
    }
  }

  private void releaseStream(String address) {
    synchronized (streamsByAddress) {
      streamsByAddress.computeIfPresent(address, (key, count) -> count == 1 ? null : count - 1);
    }
  }

  /** Adds the stream of a page. */
  private void connect(SseClient client) {
    client.keepAlive();
    LiveClient added =
        new LiveClient(
            client, client.ctx().ip(), Visitor.of(client.ctx()).isStillAllowed(), this::closed);
    clients.add(added);
    added.offer("hello", Json.write(Map.of("time", clock.instant())));
    added.start();
  }

  private void closed(LiveClient client) {
    if (clients.remove(client)) {
      releaseStream(client.address());
    }
  }

  @Override
  public void containerChanged(ContainerId container) {
    changedContainers.add(container);
  }

  @Override
  public void sensorHeard(SensorId sensor) {
    heardSensors.add(sensor);
  }

  @Override
  public void alertChanged(Alert alert) {
    send("alert", alerts.alert(alert));
  }

  @Override
  public String name() {
    return "page";
  }

  @Override
  public String kind() {
    return "page";
  }

  @Override
  public String target() {
    return clients.size() + " open now";
  }

  /** Sends a notice to the open pages; pages opened later request the newest notices. */
  @Override
  public DeliveryOutcome deliver(Delivery delivery) {
    send("notice", NoticeJson.of(delivery.notice()));
    return DeliveryOutcome.delivered("sent to " + clients.size() + " open pages");
  }

  private void run() {
    while (!stopping) {
      try {
        TimeUnit.MILLISECONDS.sleep(PACE.toMillis());
        sendChanges();
      } catch (InterruptedException e) {
        return;
      } catch (RuntimeException e) {
        LOG.error("unexpected failure in the live stream; it continues", e);
      }
    }
  }

  private void sendChanges() {
    if (clients.isEmpty()) {
      changedContainers.clear();
      heardSensors.clear();
      return;
    }
    for (ContainerId id : List.copyOf(changedContainers)) {
      changedContainers.remove(id);
      register
          .container(id)
          .ifPresent(container -> send("container", containers.container(container)));
    }
    for (SensorId sensor : List.copyOf(heardSensors)) {
      heardSensors.remove(sensor);
      send("sensor", sensors.sensor(sensor));
    }
  }

  private void send(String event, Object value) {
    if (!clients.isEmpty()) {
      String data = Json.write(value);
      clients.forEach(client -> client.offer(event, data));
    }
  }

  @Override
  public void close() {
    stopping = true;
    sender.interrupt();
    clients.forEach(LiveClient::stop);
  }
}
