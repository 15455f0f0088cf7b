package tepidarium.ingest.mqtt;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Duration;
import org.eclipse.paho.mqttv5.client.MqttClient;
import org.eclipse.paho.mqttv5.client.MqttConnectionOptions;
import org.eclipse.paho.mqttv5.client.persist.MemoryPersistence;
import org.eclipse.paho.mqttv5.common.MqttException;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class EmbeddedBrokerTest {
  static final BrokerLimits LIMITS =
      BrokerLimits.of(4 << 20, 10, Duration.ofDays(1), 16L << 20, topic -> null);

  private static final Duration SOON = Duration.ofSeconds(30);

  private static boolean letsTheServiceIn(EmbeddedBroker broker) throws MqttException {
    MqttConnectionOptions login = new MqttConnectionOptions();
    login.setUserName("service");
    login.setPassword("word".getBytes(StandardCharsets.UTF_8));
    login.setConnectionTimeout(2);
    MqttClient client = new MqttClient(broker.serviceUri(), "broker-test", new MemoryPersistence());
    client.setTimeToWait(3_000);
    try {
      client.connect(login);
      client.disconnect();
      return true;
    } finally {
      client.close();
    }
  }

  @Test
  void itStartsAgainAlsoWhenItsServicePortWasTakenMeanwhile(@TempDir Path folder) throws Exception {
    BrokerAccounts accounts = OpenAccounts.anybody();
    try (EmbeddedBroker broker =
        EmbeddedBroker.start(new SensorPorts("127.0.0.1", 0, null), folder, accounts, LIMITS)) {
      assertTrue(letsTheServiceIn(broker));
      int port = URI.create(broker.serviceUri()).getPort();
      ServerSocket taken;
      // Holding what the keeper needs to start it again.
      synchronized (broker) {
        broker.stop();
        taken = new ServerSocket(port, 1, InetAddress.getLoopbackAddress());
      }
      try (taken) {
        await().atMost(SOON).ignoreExceptions().until(() -> letsTheServiceIn(broker));
      }
    }
  }
}
