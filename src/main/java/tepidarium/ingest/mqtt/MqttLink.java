package tepidarium.ingest.mqtt;

import java.nio.charset.StandardCharsets;
import java.time.Clock;
import java.time.Duration;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import java.util.UUID;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.Semaphore;
import java.util.concurrent.ThreadLocalRandom;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicLong;
import java.util.function.Consumer;
import java.util.function.LongSupplier;
import java.util.function.Supplier;
import java.util.function.UnaryOperator;
import java.util.stream.Stream;
import org.eclipse.paho.mqttv5.client.MqttAsyncClient;
import org.eclipse.paho.mqttv5.client.MqttDisconnectResponse;
import org.eclipse.paho.mqttv5.common.MqttException;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import tepidarium.ingest.Intake;
import tepidarium.retry.Backoff;

/**
 * Keeps the service connected to the broker. Its thread connects, subscribes, checks once a second
 * whether the client is stuck, and reconnects with backoff and jitter, 0.25 s to 5 s. The session
 * is persistent and the client id stable, so messages wait in the broker while the service is not
 * connected. {@link BrokerConnection} is one connection. {@link MessageHandler} passes its messages
 * to the intake.
 */
public final class MqttLink implements AutoCloseable {
  private static final Logger LOG = LoggerFactory.getLogger(MqttLink.class);
  private static final Duration CHECK_EVERY = Duration.ofSeconds(1);

  /**
   * The delays. The upper half of each is random, to spread the reconnects of many clients: the
   * first is 0.25 s to 0.5 s.
   */
  private static final Backoff BACKOFF = new Backoff(Duration.ofMillis(500), Duration.ofSeconds(5));

  /**
   * Limits for receiving messages.
   *
   * @param payloadBytes maximum payload, in bytes; a message with a longer one is rejected unread
   * @param stuckAfter if messages wait and none arrives within this time, the link reconnects
   */
  public record Limits(int payloadBytes, Duration stuckAfter) {}

  private final Supplier<BrokerAddress> address;
  private final String rootTopic;
  private final String clientId;
  private final Clock clock;
  private final ReceiveWatchdog watchdog;
  private final MessageHandler messages;
  private final LinkStatus status = new LinkStatus();
  private final RetainedPublisher retained = new RetainedPublisher();
  private final DroppedMessages dropped = new DroppedMessages();
  private final BrokerBacklog backlog = new BrokerBacklog();
  private final SessionLoss sessionLoss = new SessionLoss();
  private final MappedSubscriptions mapped = new MappedSubscriptions();
  private final Semaphore wake = new Semaphore(0);
  private final AtomicLong connections = new AtomicLong();
  private final Thread connector;

  /** Topic filters whose subscription in the session has to end. */
  private final Set<String> unwanted = ConcurrentHashMap.newKeySet();

  private volatile List<String> filters;
  private volatile boolean filtersChanged;

  private volatile Consumer<Boolean> listener = up -> {};
  private volatile @Nullable BrokerAddress broker;
  private volatile @Nullable BrokerConnection connection;
  private volatile boolean announcedUp;
  private volatile boolean stopping;

  /**
   * Prepares the link; {@link #start} begins to connect.
   *
   * @param address called before each attempt to connect; throws an IllegalStateException with the
   *     reason if there is no address at that time
   * @param filters the topic filters to subscribe to
   * @param clientId the same after each restart, and used by no other client
   * @param limits size limit of one message, and time limit of waiting messages
   * @param waitingInBroker number of messages that the broker holds for this client; 0 if unknown
   */
  public MqttLink(
      Supplier<BrokerAddress> address,
      String rootTopic,
      List<String> filters,
      String clientId,
      Limits limits,
      LongSupplier waitingInBroker,
      Clock clock,
      Intake intake) {
    this(
        address,
        rootTopic,
        filters,
        clientId,
        new ReceiveWatchdog(limits, waitingInBroker, UnaryOperator.identity()),
        clock,
        intake);
  }

  MqttLink(
      Supplier<BrokerAddress> address,
      String rootTopic,
      List<String> filters,
      String clientId,
      ReceiveWatchdog watchdog,
      Clock clock,
      Intake intake) {
    this.address = address;
    this.rootTopic = rootTopic;
    this.filters = List.copyOf(filters);
    this.clientId = clientId;
    this.clock = clock;
    this.watchdog = watchdog;
    this.messages = new MessageHandler(intake, watchdog, dropped, backlog, markerTopic(), clock);
    this.connector = new Thread(this::run, "mqtt-connector");
    connector.setDaemon(true);
  }

  /**
   * Loads the classes of the MQTT client, which takes 0.1 s. Optional: call it on startup while
   * waiting for something else.
   */
  public static void prepare() {
    try {
      MqttAsyncClient client =
          new FilteredClient("tcp://localhost:1883", "prepare", UnaryOperator.identity());
      client.close();
    } catch (MqttException e) {
      LOG.debug("cannot prepare a client", e);
    }
  }

  /**
   * Records that an earlier run of the service was connected to the broker. Call it before {@link
   * #start}.
   */
  public void expectSession() {
    sessionLoss.expectSession();
  }

  /**
   * Begins to connect.
   *
   * @param listener called when the link comes up or goes down, on a thread of the link. If it
   *     throws an IllegalStateException, the link shows the message and reconnects.
   */
  public void start(Consumer<Boolean> listener) {
    this.listener = listener;
    connector.start();
  }

  /** Whether the link is connected and subscribed, and receives. */
  public boolean isUp() {
    return announcedUp && isConnected() && !watchdog.isDead();
  }

  /** Returns why messages do not arrive, or did not within the last minute; null otherwise. */
  public @Nullable String trouble() {
    String notStored = watchdog.whyNotStored();
    return notStored == null ? status.recentIncident() : notStored;
  }

  /** Returns why received messages are not stored; null if they are. */
  public @Nullable String whyNotStored() {
    return watchdog.whyNotStored();
  }

  /**
   * Replaces the topic filters to subscribe to. The change takes effect at once, or with the next
   * connection.
   */
  public synchronized void follow(List<String> replaced) {
    unwanted.addAll(filters);
    replaced.forEach(unwanted::remove);
    filters = List.copyOf(replaced);
    filtersChanged = true;
    wake.release();
  }

  /** Returns why there is no subscription to a topic filter; null if nothing is wrong. */
  public @Nullable String refusal(String filter) {
    return mapped.refusal(filter);
  }

  private boolean isConnected() {
    BrokerConnection current = connection;
    return current != null && current.isConnected();
  }

  /** Returns the state of the link as a text, with warnings about the broker. */
  public String state() {
    return (watchdog.isDead() ? "the MQTT client stopped receiving" : status.state())
        + dropped.warning()
        + mapped.warning()
        + sessionLoss.warning(clock.instant());
  }

  /**
   * Queues a retained message, to be published once the link is up. A newer message to the same
   * topic replaces it. An empty payload clears the topic.
   */
  public void publishRetained(String topicBelowRoot, byte[] payload) {
    retained.put(rootTopic + '/' + topicBelowRoot, payload);
  }

  /**
   * Publishes a message once and waits up to 15 s for the broker's acknowledgement.
   *
   * @return whether the broker has acknowledged it
   */
  public boolean publish(String topicBelowRoot, byte[] payload) {
    BrokerConnection current = connection;
    if (current == null || !isUp()) {
      return false;
    }
    try {
      return current.publish(rootTopic + '/' + topicBelowRoot, payload);
    } catch (MqttException e) {
      LOG.debug("a message was not acknowledged", e);
      return false;
    }
  }

  private void run() {
    int failures = 0;
    while (!stopping) {
      try {
        if (isConnected()) {
          checkConnection();
          continue;
        }
        connect();
        failures = 0;
      } catch (MqttException | RuntimeException e) {
        connectFailed(e);
        failures++;
        long halfMs = BACKOFF.delay(failures).toMillis() / 2;
        if (!pause(halfMs + ThreadLocalRandom.current().nextLong(halfMs + 1))) {
          return;
        }
      } catch (InterruptedException e) {
        return;
      }
    }
  }

  /**
   * Closes the connection if the client is stuck; then the link reconnects. Otherwise waits 1 s, or
   * until the connection is lost.
   */
  private void checkConnection() throws MqttException, InterruptedException {
    String stuck = watchdog.whyStuck();
    if (stuck != null) {
      closeStuckConnection(stuck);
    } else {
      if (filtersChanged) {
        subscribeMapped(Objects.requireNonNull(connection));
      }
      publishMarker();
      wake.tryAcquire(CHECK_EVERY.toMillis(), TimeUnit.MILLISECONDS);
    }
  }

  private void closeStuckConnection(String reason) {
    LOG.warn("{}; reconnecting", reason);
    status.set(reason + "; reconnecting");
    status.incident(reason);
    listener.accept(false);
    closeConnection();
  }

  private boolean pause(long ms) {
    try {
      TimeUnit.MILLISECONDS.sleep(ms);
      return true;
    } catch (InterruptedException e) {
      return false;
    }
  }

  private void connectFailed(Exception e) {
    String reason =
        e instanceof IllegalStateException ? String.valueOf(e.getMessage()) : unreachable(e);
    if (!reason.equals(status.state())) {
      LOG.warn("{}; retrying", reason);
    }
    status.set(reason);
    closeConnection();
  }

  private String unreachable(Exception e) {
    String tls = TlsProblem.words(e, String.valueOf(broker));
    if (tls != null) {
      return tls;
    }
    Throwable reason = e.getCause() == null ? e : e.getCause();
    return "cannot reach the broker at " + broker + ": " + reason.getMessage();
  }

  private void connect() throws MqttException {
    closeConnection();
    BrokerConnection fresh = newConnection();
    connection = fresh;
    backlog.connecting(clock.instant());
    boolean sessionPresent = fresh.connect();
    backlog.connected(sessionPresent);
    sessionLoss.connected(sessionPresent, clock.instant());
    subscribe(fresh);
    publishMarker();
    status.set("connected to " + broker);
    LOG.info("{}", status.state());
    publishRetained("status", BrokerConnection.statusPayload("up"));
    retained.setClient(fresh.client());
    listener.accept(true);
    announcedUp = true;
  }

  /** Subscribes to the own topics first, because a broker may forbid those of mapping rules. */
  private void subscribe(BrokerConnection to) throws MqttException {
    to.subscribe(Stream.concat(Stream.of(ownFilter()), DroppedMessages.topics().stream()).toList());
    mapped.connecting();
    subscribeMapped(to);
  }

  private String ownFilter() {
    return rootTopic + "/#";
  }

  /**
   * Subscribes to the topics of mapping rules. Ends the subscriptions that are no longer wanted.
   */
  private void subscribeMapped(BrokerConnection to) throws MqttException {
    filtersChanged = false;
    List<String> ended = List.copyOf(unwanted);
    List<String> wanted = filters;
    if (!ended.isEmpty()) {
      to.unsubscribe(ended);
      ended.forEach(unwanted::remove);
      mapped.unsubscribed(ended);
    }
    mapped.subscribe(
        wanted.stream().filter(filter -> !filter.equals(ownFilter())).toList(),
        to::subscribe,
        clock.instant());
  }

  private BrokerConnection newConnection() throws MqttException {
    long number = connections.incrementAndGet();
    BrokerAddress current = address.get();
    broker = current;
    return new BrokerConnection(
        current,
        clientId,
        rootTopic + "/status",
        watchdog,
        status,
        new BrokerConnection.Callbacks(
            () -> connections.get() == number, messages, this::connectionLost));
  }

  private void connectionLost(MqttDisconnectResponse response) {
    if (!stopping) {
      backlog.lost(clock.instant());
      status.set("lost the connection to the broker at " + broker);
      LOG.warn("{}: {}", status.state(), response);
      listener.accept(false);
      wake.release();
    }
  }

  /**
   * Publishes a marker if the broker may still hold a backlog. The broker delivers the marker after
   * the backlog, because both have quality of service 1. The service receives the marker through
   * its own subscription.
   */
  private void publishMarker() throws MqttException {
    BrokerConnection current = connection;
    if (current != null && backlog.needsMarker()) {
      String payload = UUID.randomUUID().toString();
      backlog.markerSent(payload);
      current.publish(markerTopic(), payload.getBytes(StandardCharsets.UTF_8));
    }
  }

  private String markerTopic() {
    return rootTopic + "/status/" + clientId;
  }

  private void closeConnection() {
    announcedUp = false;
    BrokerConnection old = connection;
    connection = null;
    if (old != null) {
      old.ignoreMessages();
    }
    watchdog.disconnected();
    backlog.lost(clock.instant());
    retained.setClient(null);
    if (old != null) {
      old.closeForcibly();
    }
  }

  @Override
  public void close() {
    stopping = true;
    BrokerConnection current = connection;
    if (current != null) {
      current.disconnect();
    }
    connector.interrupt();
    closeConnection();
    retained.close();
  }
}
