package tepidarium.ingest.mqtt;

import java.nio.charset.StandardCharsets;
import java.time.Clock;
import java.time.Duration;
import java.util.List;
import java.util.UUID;
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
 * Keeps the service connected to the broker. A thread of its own connects, subscribes, checks once
 * a second whether the client is stuck, and connects again with backoff, 0.25 s to 5 s plus jitter.
 * The session is persistent under a stable client id, so messages wait in the broker while the
 * service is away. {@link BrokerConnection} holds one connection. {@link MessageHandler} hands its
 * messages to the intake.
 */
public final class MqttLink implements AutoCloseable {
  private static final Logger LOG = LoggerFactory.getLogger(MqttLink.class);
  private static final Duration CHECK_EVERY = Duration.ofSeconds(1);

  /** The upper half of each delay is random, to spread the reconnects of many clients. */
  private static final Backoff BACKOFF = new Backoff(Duration.ofMillis(500), Duration.ofSeconds(5));

  /**
   * Limits of the reception.
   *
   * @param payloadBytes a message with a longer payload is rejected without reading it
   * @param stuckAfter if messages wait and none arrives for this long, the link connects again
   */
  public record Limits(int payloadBytes, Duration stuckAfter) {}

  private final Supplier<BrokerAddress> address;
  private final String rootTopic;
  private final List<String> filters;
  private final String clientId;
  private final Clock clock;
  private final Reception reception;
  private final MessageHandler messages;
  private final LinkStatus status = new LinkStatus();
  private final RetainedTopics retained = new RetainedTopics();
  private final BrokerReport report = new BrokerReport();
  private final WaitedMessages waited = new WaitedMessages();
  private final SessionLoss sessionLoss = new SessionLoss();
  private final Semaphore wake = new Semaphore(0);
  private final AtomicLong connections = new AtomicLong();
  private final Thread connector;

  private volatile Consumer<Boolean> upOrDown = up -> {};
  private volatile @Nullable BrokerAddress broker;
  private volatile @Nullable BrokerConnection connection;
  private volatile boolean told;
  private volatile boolean stopping;

  /**
   * Prepares the link; {@link #start} begins to connect.
   *
   * @param address asked before each attempt; throws an IllegalStateException with the reason if
   *     there is no address now
   * @param filters the topic filters to subscribe to
   * @param clientId stable over restarts and different from any other client's
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
        new Reception(limits, waitingInBroker, UnaryOperator.identity()),
        clock,
        intake);
  }

  MqttLink(
      Supplier<BrokerAddress> address,
      String rootTopic,
      List<String> filters,
      String clientId,
      Reception reception,
      Clock clock,
      Intake intake) {
    this.address = address;
    this.rootTopic = rootTopic;
    this.filters = List.copyOf(filters);
    this.clientId = clientId;
    this.clock = clock;
    this.reception = reception;
    this.messages = new MessageHandler(intake, reception, report, waited, markerTopic(), clock);
    this.connector = new Thread(this::run, "mqtt-connector");
    connector.setDaemon(true);
  }

  /**
   * Loads the classes of the client, which takes 0.1 s. Call it while the start waits for something
   * else. The link works without it.
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

  /** Declares, before the start, that an earlier run of the service was connected to the broker. */
  public void expectSession() {
    sessionLoss.expectSession();
  }

  /**
   * Begins to connect.
   *
   * @param follower called when the link comes up or goes down, on a thread of the link. If it
   *     throws an IllegalStateException, the link shows the message and connects again.
   */
  public void start(Consumer<Boolean> follower) {
    upOrDown = follower;
    connector.start();
  }

  /** Whether the link is connected and subscribed, and receives. */
  public boolean isUp() {
    return told && isConnected() && !reception.isDead();
  }

  /** Why messages did not arrive, now or within the last minute; null when all is well. */
  public @Nullable String trouble() {
    String heldUp = reception.whyHeldUp();
    return heldUp == null ? status.recentIncident() : heldUp;
  }

  /** Why messages that have arrived are not stored; null when they are. */
  public @Nullable String heldUp() {
    return reception.whyHeldUp();
  }

  private boolean isConnected() {
    BrokerConnection current = connection;
    return current != null && current.isConnected();
  }

  /** Returns the state of the link in words, with warnings about the broker. */
  public String state() {
    return (reception.isDead() ? "the MQTT client stopped receiving" : status.state())
        + report.warning()
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
          watch();
          continue;
        }
        connect();
        failures = 0;
      } catch (MqttException | RuntimeException e) {
        giveUp(e);
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

  /** Discards a client that is stuck. Otherwise waits 1 s, or until the connection is lost. */
  private void watch() throws MqttException, InterruptedException {
    String stuck = reception.whyStuck();
    if (stuck != null) {
      dropStuckClient(stuck);
    } else {
      publishMarker();
      wake.tryAcquire(CHECK_EVERY.toMillis(), TimeUnit.MILLISECONDS);
    }
  }

  private void dropStuckClient(String words) {
    LOG.warn("{}; connecting again", words);
    status.set(words + "; connecting again");
    status.incident(words);
    upOrDown.accept(false);
    discard();
  }

  private boolean pause(long ms) {
    try {
      TimeUnit.MILLISECONDS.sleep(ms);
      return true;
    } catch (InterruptedException e) {
      return false;
    }
  }

  private void giveUp(Exception e) {
    String words =
        e instanceof IllegalStateException ? String.valueOf(e.getMessage()) : unreachable(e);
    if (!words.equals(status.state())) {
      LOG.warn("{}; trying again", words);
    }
    status.set(words);
    discard();
  }

  private String unreachable(Exception e) {
    Throwable reason = e.getCause() == null ? e : e.getCause();
    return "cannot reach the broker at " + broker + ": " + reason.getMessage();
  }

  private void connect() throws MqttException {
    discard();
    BrokerConnection fresh = newConnection();
    connection = fresh;
    waited.connecting(clock.instant());
    boolean sessionPresent = fresh.connect();
    waited.connected(sessionPresent);
    sessionLoss.connected(sessionPresent, clock.instant());
    fresh.subscribe(Stream.concat(filters.stream(), BrokerReport.topics().stream()).toList());
    publishMarker();
    status.set("connected to " + broker);
    LOG.info("{}", status.state());
    publishRetained("status", BrokerConnection.statusPayload("up"));
    retained.over(fresh.client());
    upOrDown.accept(true);
    told = true;
  }

  private BrokerConnection newConnection() throws MqttException {
    long number = connections.incrementAndGet();
    BrokerAddress current = address.get();
    broker = current;
    return new BrokerConnection(
        current,
        clientId,
        rootTopic + "/status",
        reception,
        status,
        new BrokerConnection.Owner(() -> connections.get() == number, messages, this::lost));
  }

  private void lost(MqttDisconnectResponse response) {
    if (!stopping) {
      waited.lost(clock.instant());
      status.set("lost the broker at " + broker);
      LOG.warn("{}: {}", status.state(), response);
      upOrDown.accept(false);
      wake.release();
    }
  }

  /**
   * Publishes a marker if messages from before the connection may still wait in the broker. The
   * broker delivers the marker after them, because it has quality of service 1 too. The service
   * receives the marker through its own subscription.
   */
  private void publishMarker() throws MqttException {
    BrokerConnection current = connection;
    if (current != null && waited.needsMarker()) {
      String payload = UUID.randomUUID().toString();
      waited.sent(payload);
      current.publish(markerTopic(), payload.getBytes(StandardCharsets.UTF_8));
    }
  }

  private String markerTopic() {
    return rootTopic + "/status/" + clientId;
  }

  private void discard() {
    told = false;
    reception.disconnected();
    waited.lost(clock.instant());
    retained.over(null);
    BrokerConnection old = connection;
    connection = null;
    if (old != null) {
      old.discard();
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
    discard();
    retained.close();
  }
}
