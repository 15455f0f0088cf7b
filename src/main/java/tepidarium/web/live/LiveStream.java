package tepidarium.web.live;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.NotAcceptableResponse;
import io.javalin.http.ServiceUnavailableResponse;
import io.javalin.http.TooManyRequestsResponse;
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
import tepidarium.reading.SensorId;
import tepidarium.web.Json;
import tepidarium.web.alerts.AlertViews;
import tepidarium.web.containers.ContainerViews;
import tepidarium.web.sensors.SensorViews;

/**
 * The live stream to open pages. What changed is noted at once and told at most once a second, so
 * that a flood of readings does not become a flood of events. One thread makes each event's text
 * once; every client has a bounded queue and a sending thread, and one that does not keep up is let
 * go: its page connects again.
 */
public final class LiveStream implements LiveListener, Notifier, AutoCloseable {
  private static final Logger LOG = LoggerFactory.getLogger(LiveStream.class);
  public static final String PATH = "/api/live";
  static final int MOST_CLIENTS = 100;
  public static final int MOST_PER_ADDRESS = 20;

  private static final Duration PACE = Duration.ofSeconds(1);

  private final Register register;
  private final ContainerViews containers;
  private final SensorViews sensors;
  private final AlertViews alerts;
  private final Clock clock;
  private final Set<LiveClient> clients = new CopyOnWriteArraySet<>();

  /** How many streams each address has. Guarded by its own monitor. */
  private final Map<String, Integer> places = new HashMap<>();

  private final Set<ContainerId> changedContainers = ConcurrentHashMap.newKeySet();
  private final Set<SensorId> heardSensors = ConcurrentHashMap.newKeySet();
  private final Thread teller;
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
    this.teller = new Thread(this::run, "live-stream");
    teller.setDaemon(true);
    teller.start();
  }

  public void add(RoutesConfig routes) {
    SseHandler stream = new SseHandler(this::connect);
    routes.get(
        PATH,
        ctx -> {
          refuseOtherMediaTypes(ctx);
          takePlace(ctx.ip());
          boolean begun = false;
          try {
            stream.handle(ctx);
            begun = true;
          } finally {
            if (!begun) {
              givePlace(ctx.ip());
            }
          }
        });
  }

  private static void refuseOtherMediaTypes(Context ctx) {
    String accept = ctx.header("Accept");
    if (accept == null || !accept.contains("text/event-stream")) {
      throw new NotAcceptableResponse("this is a stream: ask with Accept: text/event-stream");
    }
  }

  /** Counts a stream before its answer begins, because after that it cannot be refused in words. */
  private void takePlace(String address) {
    synchronized (places) {
      if (places.values().stream().mapToInt(Integer::intValue).sum() >= MOST_CLIENTS) {
        throw new ServiceUnavailableResponse(
            MOST_CLIENTS + " live pages are open already. Close one of them first.");
      }
      if (places.getOrDefault(address, 0) >= MOST_PER_ADDRESS) {
        throw new TooManyRequestsResponse(
            MOST_PER_ADDRESS
                + " live pages are open from the address "
                + address
                + " already. Close one of them first.");
      }
      places.merge(address, 1, Integer::sum);
    }
  }

  private void givePlace(String address) {
    synchronized (places) {
      places.computeIfPresent(address, (of, taken) -> taken == 1 ? null : taken - 1);
    }
  }

  /** A page has opened the stream. */
  private void connect(SseClient client) {
    client.keepAlive();
    LiveClient added = new LiveClient(client, client.ctx().ip(), this::gone);
    clients.add(added);
    added.offer("hello", Json.write(Map.of("time", clock.instant())));
    added.start();
  }

  private void gone(LiveClient client) {
    if (clients.remove(client)) {
      givePlace(client.address());
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
    tell("alert", alerts.alert(alert));
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

  /** Open pages are told as it happens; whoever opens one later asks for the newest notices. */
  @Override
  public DeliveryOutcome deliver(Delivery delivery) {
    tell("notice", NoticeJson.of(delivery.notice()));
    return DeliveryOutcome.delivered("told to " + clients.size() + " open pages");
  }

  private void run() {
    while (!stopping) {
      try {
        TimeUnit.MILLISECONDS.sleep(PACE.toMillis());
        tellChanges();
      } catch (InterruptedException e) {
        return;
      } catch (RuntimeException e) {
        LOG.error("the live stream met an unexpected failure and goes on", e);
      }
    }
  }

  private void tellChanges() {
    if (clients.isEmpty()) {
      changedContainers.clear();
      heardSensors.clear();
      return;
    }
    for (ContainerId id : List.copyOf(changedContainers)) {
      changedContainers.remove(id);
      register
          .container(id)
          .ifPresent(container -> tell("container", containers.container(container)));
    }
    for (SensorId sensor : List.copyOf(heardSensors)) {
      heardSensors.remove(sensor);
      tell("sensor", sensors.sensor(sensor));
    }
  }

  private void tell(String event, Object value) {
    if (!clients.isEmpty()) {
      String data = Json.write(value);
      clients.forEach(client -> client.offer(event, data));
    }
  }

  @Override
  public void close() {
    stopping = true;
    teller.interrupt();
    clients.forEach(LiveClient::stop);
  }
}
