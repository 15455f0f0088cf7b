package tepidarium.ingest.mqtt;

import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.function.BooleanSupplier;
import java.util.function.Consumer;
import java.util.stream.IntStream;
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
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Holds one MQTT connection, from the attempt to connect until it is closed. Uses the persistent
 * session of the client id and quality of service 1. The client calls the methods of {@link
 * MqttCallback} on its own thread.
 */
final class BrokerConnection implements MqttCallback {
  private static final Logger LOG = LoggerFactory.getLogger(BrokerConnection.class);
  private static final int KEEP_ALIVE_SECONDS = 30;
  private static final int RECEIVE_MAXIMUM = 65_535;
  private static final long NEVER_EXPIRES = 0xFFFF_FFFFL;
  private static final int DISCONNECT_MS = 200;

  /** Time limit of one call to the broker. */
  private static final Duration CALL_LIMIT = Duration.ofSeconds(15);

  /** Interval at which a waiting call checks whether the client is stuck. */
  private static final Duration CHECK_EVERY = Duration.ofSeconds(1);

  /** Interval at which a waiting call looks for the answer. */
  private static final int POLL_MS = 10;

  /**
   * The callbacks of a connection.
   *
   * @param isLatest false once a newer connection has been started; packet ids are valid only on
   *     the connection that delivered them
   * @param messages handles received messages
   * @param lost called when the connection is lost
   */
  record Callbacks(
      BooleanSupplier isLatest, MessageHandler messages, Consumer<MqttDisconnectResponse> lost) {}

  private final BrokerAddress address;
  private final String statusTopic;
  private final ReceiveWatchdog watchdog;
  private final LinkStatus status;
  private final Callbacks callbacks;
  private final MqttAsyncClient client;
  private boolean ignoring;

  BrokerConnection(
      BrokerAddress address,
      String clientId,
      String statusTopic,
      ReceiveWatchdog watchdog,
      LinkStatus status,
      Callbacks callbacks)
      throws MqttException {
    this.address = address;
    this.statusTopic = statusTopic;
    this.watchdog = watchdog;
    this.status = status;
    this.callbacks = callbacks;
    client = new FilteredClient(address.uri(), clientId, watchdog::connected);
    client.setManualAcks(true);
    client.setCallback(this);
  }

  /** The client, for callers that publish and wait for the acknowledgement themselves. */
  MqttAsyncClient client() {
    return client;
  }

  boolean isConnected() {
    return client.isConnected();
  }

  /**
   * Connects, and waits until the broker has accepted the connection.
   *
   * @return true if the broker still had the session of this client id
   * @throws IllegalStateException if a message from the broker stops the client before it is
   *     connected
   */
  boolean connect() throws MqttException {
    IMqttToken connected = client.connect(options());
    awaitConnecting(connected);
    return connected.getSessionPresent();
  }

  /** Subscribes to the topic filters, and waits for the broker's answer. */
  void subscribe(List<String> filters) throws MqttException {
    MqttSubscription[] subscriptions =
        filters.stream()
            .map(filter -> new MqttSubscription(filter, 1))
            .toArray(MqttSubscription[]::new);
    awaitConnecting(client.subscribe(subscriptions, null, null, new MqttProperties()));
  }

  /**
   * Subscribes to one topic filter, and waits for the broker's answer.
   *
   * @return the reason code of the broker (MQTT 5.0, section 3.9.3)
   */
  int subscribe(String filter) throws MqttException {
    MqttSubscription[] one = {new MqttSubscription(filter, 1)};
    IMqttToken answer = client.subscribe(one, null, null, new MqttProperties());
    awaitConnecting(answer);
    int[] codes = answer.getReasonCodes();
    return codes == null ? 0 : IntStream.of(codes).max().orElse(0);
  }

  /** Ends subscriptions, and waits for the broker's answer. */
  void unsubscribe(List<String> filters) throws MqttException {
    awaitConnecting(client.unsubscribe(filters.toArray(String[]::new)));
  }

  /**
   * Waits for an answer. Checks once a second whether the client is stuck, because a message that
   * waited in the broker may stop the client before it reads the answer. Polls the token instead of
   * waiting on it: after one wait has timed out, each further wait on the token returns at once.
   */
  private void awaitConnecting(IMqttToken token) throws MqttException {
    long start = System.nanoTime();
    long checked = start;
    // The client does not complete the token of a connection that fails at the handshake of TLS.
    while (!token.isComplete() && token.getException() == null) {
      long now = System.nanoTime();
      if (now - start >= CALL_LIMIT.toNanos()) {
        throw new MqttException(MqttClientException.REASON_CODE_CLIENT_TIMEOUT);
      }
      if (now - checked >= CHECK_EVERY.toNanos()) {
        checked = now;
        checkNotStuck();
      }
      pause();
    }
    MqttException failure = token.getException();
    if (failure != null) {
      throw failure;
    }
  }

  private void checkNotStuck() {
    String stuck = watchdog.whyStuck();
    if (stuck != null) {
      status.incident(stuck);
      throw new IllegalStateException(stuck);
    }
  }

  private static void pause() throws MqttException {
    try {
      TimeUnit.MILLISECONDS.sleep(POLL_MS);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new MqttException(e);
    }
  }

  private MqttConnectionOptions options() {
    MqttConnectionOptions options = new MqttConnectionOptions();
    options.setCleanStart(false);
    options.setSessionExpiryInterval(NEVER_EXPIRES);
    options.setReceiveMaximum(RECEIVE_MAXIMUM);
    options.setKeepAliveInterval(KEEP_ALIVE_SECONDS);
    options.setConnectionTimeout((int) CALL_LIMIT.toSeconds());
    options.setAutomaticReconnect(false);
    options.setHttpsHostnameVerificationEnabled(true);
    if (address.tls() != null) {
      options.setSocketFactory(address.tls());
    }
    options.setUserName(address.user());
    String password = address.password();
    if (password != null) {
      options.setPassword(password.getBytes(StandardCharsets.UTF_8));
    }
    MqttMessage will = new MqttMessage(statusPayload("down"), 1, true, new MqttProperties());
    options.setWill(statusTopic, will);
    return options;
  }

  /** The payload of the status topic. */
  static byte[] statusPayload(String status) {
    return ("{\"status\":\"" + status + "\"}").getBytes(StandardCharsets.UTF_8);
  }

  /**
   * Publishes a message and waits up to 15 s.
   *
   * @return true if the broker has acknowledged it, false if the connection was lost before
   */
  boolean publish(String topic, byte[] payload) throws MqttException {
    IMqttToken sent = client.publish(topic, payload, 1, false);
    finish(sent);
    return sent.getResponse() instanceof MqttPubAck;
  }

  /** Publishes the status "down" and disconnects, if connected. */
  void disconnect() {
    if (client.isConnected()) {
      try {
        finish(client.publish(statusTopic, statusPayload("down"), 1, true));
        finish(client.disconnect());
      } catch (MqttException e) {
        LOG.debug("could not disconnect cleanly from the broker", e);
      }
    }
  }

  private static void finish(IMqttToken token) throws MqttException {
    token.waitForCompletion(CALL_LIMIT.toMillis());
  }

  /**
   * Ignores messages from now on. The client may deliver some after it was closed, when the DUP
   * flag of a message is no longer known. They are not acknowledged, so the broker sends them again
   * on the next connection.
   */
  synchronized void ignoreMessages() {
    ignoring = true;
  }

  /** Closes the connection without waiting for the broker, and frees the client. */
  void closeForcibly() {
    try {
      client.disconnectForcibly(0, DISCONNECT_MS, false);
    } catch (MqttException e) {
      LOG.debug("could not disconnect the old client", e);
    }
    try {
      client.close(true);
    } catch (MqttException e) {
      LOG.debug("could not close the old client", e);
    }
  }

  @Override
  public void messageArrived(String topic, MqttMessage message) {
    ReceiveWatchdog.Arrived arrived;
    synchronized (this) {
      if (ignoring) {
        return;
      }
      arrived = watchdog.arrived(topic);
    }
    int id = message.getId();
    int qos = message.getQos();
    callbacks.messages().arrived(topic, message, arrived, count -> acknowledge(id, qos, count));
  }

  /** Counts and acknowledges a message, unless a newer connection has been started. */
  private void acknowledge(int id, int qos, Runnable count) {
    if (!callbacks.isLatest().getAsBoolean()) {
      return;
    }
    count.run();
    if (qos == 0) {
      return;
    }
    try {
      client.messageArrivedComplete(id, qos);
    } catch (MqttException | RuntimeException e) {
      // The connection is lost. The broker sends the message again, and the store ignores the
      // duplicate. A client that was closed meanwhile throws a NullPointerException.
      LOG.debug("could not acknowledge", e);
    }
  }

  @Override
  public void disconnected(MqttDisconnectResponse response) {
    if (callbacks.isLatest().getAsBoolean()) {
      callbacks.lost().accept(response);
    }
  }

  @Override
  public void mqttErrorOccurred(MqttException exception) {
    LOG.warn(
        "the MQTT client connected to {} reports an error: {}", address, exception.getMessage());
  }

  @Override
  public void deliveryComplete(IMqttToken token) {}

  @Override
  public void connectComplete(boolean reconnect, String uri) {}

  @Override
  public void authPacketArrived(int reasonCode, MqttProperties properties) {}
}
