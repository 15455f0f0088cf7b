package tepidarium.ingest.mqtt;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.sun.management.ThreadMXBean;
import java.lang.management.ManagementFactory;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import org.apache.activemq.artemis.api.core.SimpleString;
import org.apache.activemq.artemis.core.config.impl.ConfigurationImpl;
import org.eclipse.paho.mqttv5.client.IMqttToken;
import org.eclipse.paho.mqttv5.client.MqttCallback;
import org.eclipse.paho.mqttv5.client.MqttClient;
import org.eclipse.paho.mqttv5.client.MqttConnectionOptions;
import org.eclipse.paho.mqttv5.client.MqttDisconnectResponse;
import org.eclipse.paho.mqttv5.client.persist.MemoryPersistence;
import org.eclipse.paho.mqttv5.common.MqttException;
import org.eclipse.paho.mqttv5.common.MqttMessage;
import org.eclipse.paho.mqttv5.common.packet.MqttProperties;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class LazyPagingBrokerTest {
  private static final BrokerLimits LIMITS =
      BrokerLimits.of(4 << 20, 10, Duration.ofDays(1), 1L << 30, topic -> null);

  private static final Duration SOON = Duration.ofSeconds(60);

  private static final int TOPICS = 500;

  /** The broker's own cursors take another 8 KB. */
  private static final long MAX_BYTES_PER_TOPIC = 6_000;

  /** Together 24 MB, where 16 MB fit into memory. */
  private static final int MESSAGES = 100;

  private static final int MESSAGE_BYTES = 240_000;

  @Test
  void aTopicWithoutAQueueTakesLittleMemory(@TempDir Path folder) throws Exception {
    ConfigurationImpl configuration = new ConfigurationImpl();
    configuration.setPersistenceEnabled(false);
    configuration.setSecurityEnabled(false);
    configuration.setJMXManagementEnabled(false);
    configuration.setPagingDirectory(folder.toString());
    LazyPagingBroker broker = new LazyPagingBroker(configuration, null);
    broker.start();
    try {
      long bytes = allocatedByStores(broker, "first");
      long again = allocatedByStores(broker, "second");
      assertTrue(
          Math.min(bytes, again) / TOPICS < MAX_BYTES_PER_TOPIC,
          () -> "bytes for a topic: " + Math.min(bytes, again) / TOPICS);
    } finally {
      broker.stop();
    }
  }

  private static long allocatedByStores(LazyPagingBroker broker, String name) throws Exception {
    ThreadMXBean threads = (ThreadMXBean) ManagementFactory.getThreadMXBean();
    long before = threads.getCurrentThreadAllocatedBytes();
    for (int i = 0; i < TOPICS; i++) {
      broker.getPagingManager().getPageStore(SimpleString.of("tepidarium/" + name + i));
    }
    return threads.getCurrentThreadAllocatedBytes() - before;
  }

  @Test
  void messagesThatDoNotFitIntoMemoryArriveAfterARestart(@TempDir Path folder) throws Exception {
    BrokerAccounts accounts = OpenAccounts.anybody();
    Set<String> arrived = ConcurrentHashMap.newKeySet();
    try (EmbeddedBroker broker =
        EmbeddedBroker.start(new SensorPorts("127.0.0.1", 0, null), folder, accounts, LIMITS)) {
      subscribe(broker, arrived).disconnect();
      MqttClient sender = client(broker, "sender", arrived);
      for (int i = 0; i < MESSAGES; i++) {
        byte[] payload = new byte[MESSAGE_BYTES];
        byte[] number = String.valueOf(i).getBytes(StandardCharsets.US_ASCII);
        System.arraycopy(number, 0, payload, 0, number.length);
        sender.publish("tepidarium/sensor-" + i % 10, payload, 1, false);
      }
      sender.disconnect();
      assertEquals(0, arrived.size());
    }
    try (EmbeddedBroker broker =
        EmbeddedBroker.start(new SensorPorts("127.0.0.1", 0, null), folder, accounts, LIMITS)) {
      MqttClient receiver = subscribe(broker, arrived);
      await().atMost(SOON).until(() -> arrived.size() == MESSAGES);
      receiver.disconnect();
    }
  }

  /**
   * A client that is connected.
   *
   * @param arrived gets the numbers of messages that arrive. It is used from before the connection
   *     on: the broker delivers to a session that it still has before the client subscribes again.
   */
  private static MqttClient client(EmbeddedBroker broker, String name, Set<String> arrived)
      throws MqttException {
    MqttConnectionOptions options = new MqttConnectionOptions();
    options.setUserName("service");
    options.setPassword("word".getBytes(StandardCharsets.UTF_8));
    options.setCleanStart(false);
    options.setSessionExpiryInterval(3_600L);
    MqttClient client = new MqttClient(broker.serviceUri(), name, new MemoryPersistence());
    client.setTimeToWait(20_000);
    client.setCallback(new Arrivals(arrived));
    client.connect(options);
    return client;
  }

  private static MqttClient subscribe(EmbeddedBroker broker, Set<String> arrived)
      throws MqttException {
    MqttClient client = client(broker, "receiver", arrived);
    client.subscribe("tepidarium/#", 1);
    return client;
  }

  private record Arrivals(Set<String> arrived) implements MqttCallback {
    @Override
    public void messageArrived(String topic, MqttMessage message) {
      arrived.add(number(message));
    }

    @Override
    public void disconnected(MqttDisconnectResponse response) {}

    @Override
    public void mqttErrorOccurred(MqttException exception) {}

    @Override
    public void deliveryComplete(IMqttToken token) {}

    @Override
    public void connectComplete(boolean reconnect, String serverUri) {}

    @Override
    public void authPacketArrived(int reasonCode, MqttProperties properties) {}
  }

  private static String number(MqttMessage message) {
    return new String(message.getPayload(), StandardCharsets.US_ASCII).trim();
  }
}
