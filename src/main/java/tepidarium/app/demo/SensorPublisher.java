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
 * The invented sensors' way to the broker: plain MQTT, quality of service 1. One thread uses it.
 */
final class SensorPublisher implements AutoCloseable {
  private static final int AT_LEAST_ONCE = 1;
  private static final Duration CALL_LIMIT = Duration.ofSeconds(30);

  /** Well below what any broker lets a client leave unacknowledged. */
  private static final int UNDER_WAY = 9;

  private final MqttAsyncClient client;
  private final String rootTopic;

  private SensorPublisher(MqttAsyncClient client, String rootTopic) {
    this.client = client;
    this.rootTopic = rootTopic;
  }

  /**
   * Connects.
   *
   * @throws IllegalStateException when the broker cannot be reached
   */
  static SensorPublisher connect(URI broker, String rootTopic) {
    try {
      MqttAsyncClient client =
          new MqttAsyncClient(broker.toString(), "tepidarium-demo-shed", new MemoryPersistence());
      MqttConnectionOptions options = new MqttConnectionOptions();
      options.setAutomaticReconnect(true);
      finish(client.connect(options));
      return new SensorPublisher(client, rootTopic);
    } catch (MqttException e) {
      throw new IllegalStateException("the invented sensors cannot reach " + broker, e);
    }
  }

  /**
   * Publishes in this order; returns when the broker has acknowledged all.
   *
   * @throws IllegalStateException when the broker does not take them
   */
  void send(List<SensorMessage> messages) {
    try {
      List<IMqttToken> underWay = new ArrayList<>();
      for (SensorMessage message : messages) {
        String topic = rootTopic + '/' + message.sensor().name();
        underWay.add(client.publish(topic, message.payload(), AT_LEAST_ONCE, false));
        if (underWay.size() >= UNDER_WAY) {
          finish(underWay.remove(0));
        }
      }
      for (IMqttToken token : underWay) {
        finish(token);
      }
    } catch (MqttException e) {
      throw new IllegalStateException("the broker did not take the invented readings", e);
    }
  }

  private static void finish(IMqttToken token) throws MqttException {
    token.waitForCompletion(CALL_LIMIT.toMillis());
  }

  @Override
  public void close() {
    try {
      client.disconnectForcibly(0, 500, true);
      client.close(true);
    } catch (MqttException e) {
      throw new IllegalStateException("the invented sensors could not hang up", e);
    }
  }
}
