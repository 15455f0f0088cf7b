package tepidarium.ingest.mqtt;

import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.List;
import java.util.function.BooleanSupplier;
import java.util.function.Consumer;
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

  /** Interval of the checks whether the client is stuck, during a call. */
  private static final Duration CHECK_EVERY = Duration.ofSeconds(1);

  /**
   * What a connection reports to.
   *
   * @param isLatest whether no later connection was begun; packet ids are valid on one connection
   *     only
   * @param messages handles the messages that arrive
   * @param lost called once the connection is lost
   */
  record Owner(
      BooleanSupplier isLatest, MessageHandler messages, Consumer<MqttDisconnectResponse> lost) {}

  private final BrokerAddress address;
  private final String statusTopic;
  private final Reception reception;
  private final LinkStatus status;
  private final Owner owner;
  private final MqttAsyncClient client;

  BrokerConnection(
      BrokerAddress address,
      String clientId,
      String statusTopic,
      Reception reception,
      LinkStatus status,
      Owner owner)
      throws MqttException {
    this.address = address;
    this.statusTopic = statusTopic;
    this.reception = reception;
    this.status = status;
    this.owner = owner;
    client = new FilteredClient(address.uri(), clientId, reception::connected);
    client.setManualAcks(true);
    client.setCallback(this);
  }

  /** The client, for messages that are published without waiting here. */
  MqttAsyncClient client() {
    return client;
  }

  boolean isConnected() {
    return client.isConnected();
  }

  /**
   * Connects, and waits until the broker has accepted the connection.
   *
   * @return whether the broker still had the session of this client id
   * @throws IllegalStateException if a message from the broker stops the client meanwhile
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

  /** Waits for an answer. A waiting message may stop the client before the answer is read. */
  private void awaitConnecting(IMqttToken token) throws MqttException {
    for (int waited = 1; ; waited++) {
      try {
        token.waitForCompletion(CHECK_EVERY.toMillis());
        return;
      } catch (MqttException e) {
        String stuck = reception.whyStuck();
        if (stuck != null) {
          status.incident(stuck);
          throw new IllegalStateException(stuck, e);
        }
        boolean late = e.getReasonCode() == MqttClientException.REASON_CODE_CLIENT_TIMEOUT;
        if (!late || waited >= CALL_LIMIT.dividedBy(CHECK_EVERY)) {
          throw e;
        }
      }
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
  static byte[] statusPayload(String word) {
    return ("{\"status\":\"" + word + "\"}").getBytes(StandardCharsets.UTF_8);
  }

  /**
   * Publishes a message and waits up to 15 s.
   *
   * @return whether the broker has acknowledged it; the client also ends the wait when the
   *     connection is lost
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
        LOG.debug("could not disconnect from the broker in order", e);
      }
    }
  }

  private static void finish(IMqttToken token) throws MqttException {
    token.waitForCompletion(CALL_LIMIT.toMillis());
  }

  /** Closes the connection without waiting for the broker, and frees the client. */
  void discard() {
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
    int id = message.getId();
    int qos = message.getQos();
    owner.messages().arrived(topic, message, count -> acknowledge(id, qos, count));
  }

  /** Counts a message and acknowledges it, if no later connection was begun. */
  private void acknowledge(int id, int qos, Runnable count) {
    if (!owner.isLatest().getAsBoolean()) {
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
    if (owner.isLatest().getAsBoolean()) {
      owner.lost().accept(response);
    }
  }

  @Override
  public void mqttErrorOccurred(MqttException exception) {
    LOG.warn("the link to {} reports: {}", address, exception.getMessage());
  }

  @Override
  public void deliveryComplete(IMqttToken token) {}

  @Override
  public void connectComplete(boolean reconnect, String uri) {}

  @Override
  public void authPacketArrived(int reasonCode, MqttProperties properties) {}
}
