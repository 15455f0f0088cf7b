package tepidarium.ingest.mqtt;

import java.nio.charset.StandardCharsets;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
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
import org.eclipse.paho.mqttv5.client.IMqttToken;
import org.eclipse.paho.mqttv5.client.MqttAsyncClient;
import org.eclipse.paho.mqttv5.client.MqttCallback;
import org.eclipse.paho.mqttv5.client.MqttClientException;
import org.eclipse.paho.mqttv5.client.MqttConnectionOptions;
import org.eclipse.paho.mqttv5.client.MqttDisconnectResponse;
import org.eclipse.paho.mqttv5.common.MqttException;
import org.eclipse.paho.mqttv5.common.MqttMessage;
import org.eclipse.paho.mqttv5.common.MqttSubscription;
import org.eclipse.paho.mqttv5.common.packet.MqttProperties;
import org.eclipse.paho.mqttv5.common.packet.MqttPubAck;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import tepidarium.ingest.Intake;
import tepidarium.ingest.Message;
import tepidarium.ingest.MessageDelivery;
import tepidarium.ingest.Reject;
import tepidarium.ingest.RejectCode;
import tepidarium.retry.Backoff;

/**
 * The link to the broker. A persistent session under a stable client id, so that what arrives while
 * the service is away waits in the broker; quality of service 1, acknowledged by the intake once
 * durable. One thread of its own connects and reconnects, with growing pauses, from the first
 * attempt on; it subscribes again each time, whatever the broker remembers.
 */
public final class MqttLink implements AutoCloseable {
  private static final Logger LOG = LoggerFactory.getLogger(MqttLink.class);
  private static final int KEEP_ALIVE_SECONDS = 30;
  private static final int RECEIVE_MAXIMUM = 65_535;
  private static final Duration CALL_LIMIT = Duration.ofSeconds(15);
  private static final Duration LOOK_EVERY = Duration.ofSeconds(1);
  private static final int EXCERPT_BYTES = 4 * Reject.LONGEST_EXCERPT;

  /** The upper half of each delay is random, to spread the reconnects of many clients. */
  private static final Backoff BACKOFF = new Backoff(Duration.ofMillis(500), Duration.ofSeconds(5));

  /** How long an incident that is over is still told. */
  private static final Duration INCIDENT_SHOWN = Duration.ofMinutes(1);

  /**
   * Limits of the reception.
   *
   * @param payloadBytes a message with a longer payload is rejected without reading it
   * @param stuckAfter if messages wait and none arrives for this long, the client is made anew
   */
  public record Limits(int payloadBytes, Duration stuckAfter) {}

  private record Incident(String words, long nanos) {}

  private final Supplier<BrokerAddress> address;
  private final String rootTopic;
  private final List<String> filters;
  private final String clientId;
  private final Clock clock;
  private final Intake intake;
  private final Reception reception;
  private final RetainedTopics retained = new RetainedTopics();
  private final BrokerReport report = new BrokerReport();
  private final WaitedMessages waited = new WaitedMessages();
  private final SessionLoss sessionLoss = new SessionLoss();
  private final Semaphore wake = new Semaphore(0);
  private final Thread connector;

  /** Counts connections: packet ids of an earlier one mean nothing on this one. */
  private final AtomicLong connection = new AtomicLong();

  private volatile Consumer<Boolean> upOrDown = up -> {};
  private volatile @Nullable BrokerAddress broker;
  private volatile @Nullable MqttAsyncClient client;
  private volatile boolean told;
  private volatile boolean stopping;
  private volatile String state = "not connected yet";
  private volatile @Nullable Incident incident;

  /**
   * Prepares the link; {@link #start} begins to connect.
   *
   * @param address asked before each attempt; an IllegalStateException says why there is none now
   * @param filters the topic filters to subscribe to
   * @param clientId stable over restarts and unlike any other client's
   * @param limits what one message may take, and how long messages may wait
   * @param waitingInBroker how many messages the broker holds for this client; 0 if not known
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
    this.intake = intake;
    this.reception = reception;
    this.connector = new Thread(this::run, "mqtt-connector");
    connector.setDaemon(true);
  }

  /**
   * Loads what a client needs, which takes a tenth of a second at a start. To be called while
   * something else is waited for; nothing depends on it.
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
   * @param follower told when the link comes up or goes down, on a thread of the link; an
   *     IllegalStateException ends the connection, its words are shown, and it is tried again
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
    if (heldUp != null) {
      return heldUp;
    }
    Incident last = incident;
    return last != null && System.nanoTime() - last.nanos() < INCIDENT_SHOWN.toNanos()
        ? last.words()
        : null;
  }

  /** Why messages that have arrived are not stored; null when they are. */
  public @Nullable String heldUp() {
    return reception.whyHeldUp();
  }

  private boolean isConnected() {
    MqttAsyncClient current = client;
    return current != null && current.isConnected();
  }

  /** How the link is, in words. */
  public String state() {
    return (reception.isDead() ? "the MQTT client stopped receiving" : state)
        + report.warning()
        + sessionLoss.warning(clock.instant());
  }

  /**
   * Publishes a retained message, at once or when the link is up; a newer one to the same topic
   * takes its place. An empty one clears the topic.
   */
  public void publishRetained(String topicBelowRoot, byte[] payload) {
    retained.put(rootTopic + '/' + topicBelowRoot, payload);
  }

  /**
   * Publishes a message once and waits until the broker has acknowledged it.
   *
   * @return whether it has, within the time that a call may take
   */
  public boolean publish(String topicBelowRoot, byte[] payload) {
    MqttAsyncClient current = client;
    if (current == null || !isUp()) {
      return false;
    }
    try {
      IMqttToken sent = current.publish(rootTopic + '/' + topicBelowRoot, payload, 1, false);
      finish(sent);
      // The client also ends the waiting when it loses the broker; only the broker's word counts.
      return sent.getResponse() instanceof MqttPubAck;
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
          String stuck = reception.whyStuck();
          if (stuck != null) {
            dropStuckClient(stuck);
          } else {
            publishMarker();
            // Woken by a lost connection.
            wake.tryAcquire(LOOK_EVERY.toMillis(), TimeUnit.MILLISECONDS);
          }
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

  private void dropStuckClient(String words) {
    LOG.warn("{}; connecting again", words);
    state = words + "; connecting again";
    incident = new Incident(words, System.nanoTime());
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
    if (!words.equals(state)) {
      LOG.warn("{}; trying again", words);
    }
    state = words;
    discard();
  }

  private String unreachable(Exception e) {
    Throwable reason = e.getCause() == null ? e : e.getCause();
    return "cannot reach the broker at " + broker + ": " + reason.getMessage();
  }

  private void connect() throws MqttException {
    discard();
    long generation = connection.incrementAndGet();
    BrokerAddress current = address.get();
    broker = current;
    MqttAsyncClient fresh = new FilteredClient(current.uri(), clientId, reception::connected);
    fresh.setManualAcks(true);
    fresh.setCallback(new Receiver(fresh, generation));
    client = fresh;
    waited.connecting(clock.instant());
    IMqttToken connected = fresh.connect(options(current));
    awaitConnecting(connected);
    waited.connected(connected.getSessionPresent());
    sessionLoss.connected(connected.getSessionPresent(), clock.instant());
    MqttSubscription[] subscriptions =
        Stream.concat(filters.stream(), BrokerReport.topics().stream())
            .map(MqttLink::subscription)
            .toArray(MqttSubscription[]::new);
    awaitConnecting(fresh.subscribe(subscriptions, null, null, new MqttProperties()));
    publishMarker();
    state = "connected to " + current;
    LOG.info("{}", state);
    publishRetained("status", status("up"));
    retained.over(fresh);
    upOrDown.accept(true);
    told = true;
  }

  /** What this service publishes comes back as well, and with it the marker. */
  private static MqttSubscription subscription(String filter) {
    return new MqttSubscription(filter, 1);
  }

  /**
   * Publishes a marker where messages are expected that waited in the broker: what comes before it
   * has waited. With quality of service 1, so that it waits behind them.
   */
  private void publishMarker() throws MqttException {
    MqttAsyncClient current = client;
    if (current != null && waited.needsMarker()) {
      String payload = UUID.randomUUID().toString();
      waited.sent(payload);
      finish(current.publish(markerTopic(), payload.getBytes(StandardCharsets.UTF_8), 1, false));
    }
  }

  private String markerTopic() {
    return rootTopic + "/status/" + clientId;
  }

  /** A message that waits may stop the client before the broker's answer is read. */
  private void awaitConnecting(IMqttToken token) throws MqttException {
    for (int waited = 1; ; waited++) {
      try {
        token.waitForCompletion(LOOK_EVERY.toMillis());
        return;
      } catch (MqttException e) {
        String stuck = reception.whyStuck();
        if (stuck != null) {
          incident = new Incident(stuck, System.nanoTime());
          throw new IllegalStateException(stuck, e);
        }
        boolean late = e.getReasonCode() == MqttClientException.REASON_CODE_CLIENT_TIMEOUT;
        if (!late || waited >= CALL_LIMIT.dividedBy(LOOK_EVERY)) {
          throw e;
        }
      }
    }
  }

  private static void finish(IMqttToken token) throws MqttException {
    token.waitForCompletion(CALL_LIMIT.toMillis());
  }

  private MqttConnectionOptions options(BrokerAddress current) {
    MqttConnectionOptions options = new MqttConnectionOptions();
    options.setCleanStart(false);
    options.setSessionExpiryInterval(0xFFFF_FFFFL);
    options.setReceiveMaximum(RECEIVE_MAXIMUM);
    options.setKeepAliveInterval(KEEP_ALIVE_SECONDS);
    options.setConnectionTimeout((int) CALL_LIMIT.toSeconds());
    options.setAutomaticReconnect(false);
    options.setUserName(current.user());
    String password = current.password();
    if (password != null) {
      options.setPassword(password.getBytes(StandardCharsets.UTF_8));
    }
    MqttMessage will = new MqttMessage(status("down"), 1, true, new MqttProperties());
    options.setWill(rootTopic + "/status", will);
    return options;
  }

  private static byte[] status(String word) {
    return ("{\"status\":\"" + word + "\"}").getBytes(StandardCharsets.UTF_8);
  }

  private void discard() {
    told = false;
    reception.disconnected();
    waited.lost(clock.instant());
    retained.over(null);
    MqttAsyncClient old = client;
    client = null;
    if (old != null) {
      try {
        old.disconnectForcibly(0, 200, false);
      } catch (MqttException e) {
        LOG.debug("while letting an old connection go", e);
      }
      try {
        old.close(true);
      } catch (MqttException e) {
        LOG.debug("while closing an old connection", e);
      }
    }
  }

  @Override
  public void close() {
    stopping = true;
    MqttAsyncClient current = client;
    if (current != null && current.isConnected()) {
      try {
        finish(current.publish(rootTopic + "/status", status("down"), 1, true));
        finish(current.disconnect());
      } catch (MqttException e) {
        LOG.debug("while saying goodbye to the broker", e);
      }
    }
    connector.interrupt();
    discard();
    retained.close();
  }

  /**
   * What the client calls on its own thread; nothing may escape from here, and nothing may wait.
   */
  private final class Receiver implements MqttCallback {
    private final MqttAsyncClient owner;
    private final long generation;

    Receiver(MqttAsyncClient owner, long generation) {
      this.owner = owner;
      this.generation = generation;
    }

    @Override
    public void messageArrived(String topic, MqttMessage message) {
      byte[] payload = message.getPayload();
      int id = message.getId();
      int qos = message.getQos();
      Reception.Arrived arrived = reception.arrived(topic);
      PublishFilter.Refusal refusal = arrived.refusal();
      if (BrokerReport.isOne(topic)) {
        report.take(topic, payload);
        acknowledge(id, qos, reception::passed);
        return;
      }
      if (intake.ignores(topic)) {
        if (topic.equals(markerTopic())) {
          waited.returned(new String(payload, StandardCharsets.UTF_8));
        }
        acknowledge(id, qos, reception::passed);
        return;
      }
      Instant arrivedAt = clock.instant();
      MessageDelivery delivery =
          new MessageDelivery(
              qos == 0 ? 0 : id, message.isRetained(), arrived.again(), waited.waited(arrivedAt));
      try {
        if (refusal != null) {
          refuse(
              refusal.message().topic(), refusal.reason(), refusal.message().beginning(), id, qos);
        } else {
          take(new Message(topic, payload, delivery, arrivedAt), payload, id, qos);
        }
        waited.handled(arrivedAt, clock.instant());
      } catch (InterruptedException e) {
        Thread.currentThread().interrupt();
      }
    }

    /** A failure may pass, such as no memory left; a message that fails each time is logged. */
    private void take(Message message, byte[] payload, int id, int qos)
        throws InterruptedException {
      for (int attempt = 1; ; attempt++) {
        try {
          intake.take(message, () -> acknowledge(id, qos, reception::stored));
          return;
        } catch (RuntimeException | Error e) {
          LOG.error("a message on {} met an unexpected failure", message.topic(), e);
          if (attempt == Reception.MOST_FAILURES) {
            String reason = "an unexpected failure, please report it: " + e;
            refuse(message.topic(), reason, payload, id, qos);
            return;
          }
        }
      }
    }

    private void refuse(String topic, String reason, byte[] payload, int id, int qos)
        throws InterruptedException {
      String beginning =
          new String(payload, 0, Math.min(payload.length, EXCERPT_BYTES), StandardCharsets.UTF_8);
      Reject reject = Reject.of(clock.instant(), topic, RejectCode.OTHER, reason, beginning);
      intake.takeRefused(reject, () -> acknowledge(id, qos, reception::stored));
    }

    private void acknowledge(int id, int qos, Runnable counted) {
      if (connection.get() != generation) {
        return;
      }
      counted.run();
      if (qos == 0) {
        return;
      }
      try {
        owner.messageArrivedComplete(id, qos);
      } catch (MqttException | RuntimeException e) {
        // The link has gone: the broker sends the message again, and the store knows it. A client
        // that is closed meanwhile throws a NullPointerException.
        LOG.debug("could not acknowledge", e);
      }
    }

    @Override
    public void disconnected(MqttDisconnectResponse response) {
      if (connection.get() == generation && !stopping) {
        waited.lost(clock.instant());
        state = "lost the broker at " + broker;
        LOG.warn("{}: {}", state, response);
        upOrDown.accept(false);
        wake.release();
      }
    }

    @Override
    public void mqttErrorOccurred(MqttException exception) {
      LOG.warn("the link to {} reports: {}", broker, exception.getMessage());
    }

    @Override
    public void deliveryComplete(IMqttToken token) {}

    @Override
    public void connectComplete(boolean reconnect, String uri) {}

    @Override
    public void authPacketArrived(int reasonCode, MqttProperties properties) {}
  }
}
