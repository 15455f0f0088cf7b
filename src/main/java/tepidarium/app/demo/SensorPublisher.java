package tepidarium.app.demo;

import java.net.URI;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import org.eclipse.paho.mqttv5.client.IMqttToken;
import org.eclipse.paho.mqttv5.client.MqttAsyncClient;
import org.eclipse.paho.mqttv5.client.MqttConnectionOptions;
import org.eclipse.paho.mqttv5.client.persist.MemoryPersistence;
import org.eclipse.paho.mqttv5.common.MqttException;

/**
 * Publishes the messages of the simulated sensors to the broker over MQTT with quality of service
 * 1. To be used by one thread at a time.
 */
final class SensorPublisher implements AutoCloseable {
  private static final int AT_LEAST_ONCE = 1;
  private static final Duration CALL_TIMEOUT = Duration.ofSeconds(30);

  /** Maximum number of unacknowledged messages; below the limit of common brokers. */
  private static final int MAX_UNACKNOWLEDGED = 9;

  private final MqttAsyncClient client;
  private final String rootTopic;

  private SensorPublisher(MqttAsyncClient client, String rootTopic) {
    this.client = client;
    this.rootTopic = rootTopic;
  }

  /**
   * Connects to the broker.
   *
   * @throws IllegalStateException when the broker cannot be reached
   */
  static SensorPublisher connect(URI broker, String rootTopic) {
    try {
      MqttAsyncClient client =
          new MqttAsyncClient(broker.toString(), "tepidarium-demo-shed", new MemoryPersistence());
      MqttConnectionOptions options = new MqttConnectionOptions();
      options.setAutomaticReconnect(true);
      await(client.connect(options));
      return new SensorPublisher(client, rootTopic);
    } catch (MqttException e) {
      throw new IllegalStateException("the simulated sensors cannot reach the broker " + broker, e);
    }
  }

  /**
   * Publishes the messages in order; returns when the broker has acknowledged all of them.
   *
   * @throws IllegalStateException when the broker does not accept them
   */
  void send(List<SensorMessage> messages) {
    try {
      List<IMqttToken> unacknowledged = new ArrayList<>();
      for (SensorMessage message : messages) {
        String topic = rootTopic + '/' + message.sensor().name();
        unacknowledged.add(client.publish(topic, message.payload(), AT_LEAST_ONCE, false));
        if (unacknowledged.size() >= MAX_UNACKNOWLEDGED) {
          await(unacknowledged.remove(0));
        }
      }
      for (IMqttToken token : unacknowledged) {
        await(token);
      }
    } catch (MqttException e) {
      throw new IllegalStateException("the broker did not accept the simulated readings", e);
    }
  }

  private static void await(IMqttToken token) throws MqttException {
    token.waitForCompletion(CALL_TIMEOUT.toMillis());
  }

  @Override
  public void close() {
    try {
      client.disconnectForcibly(0, 500, true);
      client.close(true);
    } catch (MqttException e) {
      throw new IllegalStateException("cannot disconnect the simulated sensors from the broker", e);
    }
  }
}
