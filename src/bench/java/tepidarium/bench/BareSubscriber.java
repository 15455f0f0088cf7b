package tepidarium.bench;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.concurrent.atomic.AtomicLong;
import org.eclipse.paho.mqttv5.client.IMqttToken;
import org.eclipse.paho.mqttv5.client.MqttAsyncClient;
import org.eclipse.paho.mqttv5.client.MqttCallback;
import org.eclipse.paho.mqttv5.client.MqttConnectionOptions;
import org.eclipse.paho.mqttv5.client.MqttDisconnectResponse;
import org.eclipse.paho.mqttv5.client.persist.MemoryPersistence;
import org.eclipse.paho.mqttv5.common.MqttException;
import org.eclipse.paho.mqttv5.common.MqttMessage;
import org.eclipse.paho.mqttv5.common.packet.MqttProperties;
import tepidarium.ingest.mqtt.BrokerAccounts;
import tepidarium.ingest.mqtt.BrokerClients;
import tepidarium.ingest.mqtt.BrokerLimits;
import tepidarium.ingest.mqtt.EmbeddedBroker;
import tepidarium.ingest.mqtt.SensorPorts;

/**
 * The first ceiling: Paho's client that only counts, with the session and the window that the
 * service has, acknowledging by itself. With the embedded broker both are in one process, as they
 * are in the service. Says "ready", then answers each number on its input with "reached" once so
 * many messages have come.
 */
final class BareSubscriber implements MqttCallback {
  private static final int RECEIVE_MAXIMUM = 65_535;
  private static final String USER = "bare";

  private final AtomicLong count = new AtomicLong();

  public static void main(String[] arguments) throws Exception {
    String broker = arguments[0];
    int port = Integer.parseInt(arguments[1]);
    BareSubscriber subscriber = new BareSubscriber();
    if (broker.equals(Site.EMBEDDED)) {
      BrokerAccounts accounts =
          new BrokerAccounts(
              new BrokerAccounts.ServiceLogin(USER, USER, USER),
              BrokerClients.ANYBODY,
              new BrokerAccounts.Topics(
                  "tepidarium", List::of, topic -> null, (topic, payload) -> {}),
              (topic, reason) -> {});
      EmbeddedBroker embedded =
          EmbeddedBroker.start(
              new SensorPorts("127.0.0.1", port, null),
              Path.of(arguments[2]),
              accounts,
              BrokerLimits.of(4 << 20, 100_000, Duration.ofDays(1), 16L << 20, topic -> null));
      subscriber.connect(embedded.serviceUri());
      embedded.openSensorPort();
    } else {
      subscriber.connect(broker);
    }
    subscriber.answer();
    System.exit(0);
  }

  private void connect(String uri) throws MqttException {
    MqttConnectionOptions options = new MqttConnectionOptions();
    options.setCleanStart(false);
    options.setSessionExpiryInterval(0xFFFF_FFFFL);
    options.setReceiveMaximum(RECEIVE_MAXIMUM);
    options.setAutomaticReconnect(false);
    options.setUserName(USER);
    options.setPassword(USER.getBytes(StandardCharsets.UTF_8));
    MqttAsyncClient client = new MqttAsyncClient(uri, "bare", new MemoryPersistence());
    client.setCallback(this);
    client.connect(options).waitForCompletion(15_000);
    client.subscribe("tepidarium/#", 1).waitForCompletion(15_000);
  }

  private void answer() throws IOException {
    System.out.println("ready");
    BufferedReader in =
        new BufferedReader(new InputStreamReader(System.in, StandardCharsets.UTF_8));
    for (String line = in.readLine(); line != null; line = in.readLine()) {
      long wanted = Long.parseLong(line);
      Wait.until(line + " messages", 20, () -> count.get() >= wanted);
      System.out.println("reached");
    }
  }

  @Override
  public void messageArrived(String topic, MqttMessage message) {
    count.incrementAndGet();
  }

  @Override
  public void disconnected(MqttDisconnectResponse response) {
    System.err.println("disconnected: " + response);
  }

  @Override
  public void mqttErrorOccurred(MqttException exception) {
    System.err.println("error: " + exception);
  }

  @Override
  public void deliveryComplete(IMqttToken token) {}

  @Override
  public void connectComplete(boolean reconnect, String uri) {}

  @Override
  public void authPacketArrived(int reasonCode, MqttProperties properties) {}
}
