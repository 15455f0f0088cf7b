package tepidarium.ingest.mqtt;

import static org.awaitility.Awaitility.await;

import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.concurrent.CopyOnWriteArrayList;
import org.eclipse.paho.mqttv5.client.IMqttToken;
import org.eclipse.paho.mqttv5.client.MqttAsyncClient;
import org.eclipse.paho.mqttv5.client.MqttClientException;
import org.eclipse.paho.mqttv5.client.MqttToken;
import org.eclipse.paho.mqttv5.client.persist.MemoryPersistence;
import org.eclipse.paho.mqttv5.common.MqttException;
import org.eclipse.paho.mqttv5.common.MqttMessage;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;

class RetainedPublisherTest {
  private static final byte[] ON = "on".getBytes(StandardCharsets.UTF_8);

  private final List<String> told = new CopyOnWriteArrayList<>();
  private final RetainedPublisher topics = new RetainedPublisher();

  @AfterEach
  void stop() {
    topics.close();
  }

  /** A connection that fails at the first messages and takes the next ones. */
  private final class Connection extends MqttAsyncClient {
    private final List<Exception> failures;

    Connection(Exception... failures) throws MqttException {
      super("tcp://127.0.0.1:1", "lamp-test", new MemoryPersistence());
      this.failures = new CopyOnWriteArrayList<>(failures);
    }

    @Override
    public boolean isConnected() {
      return true;
    }

    @Override
    public IMqttToken publish(String topic, MqttMessage message) throws MqttException {
      if (!failures.isEmpty()) {
        Exception failure = failures.remove(0);
        if (failure instanceof MqttException e) {
          throw e;
        }
        throw (RuntimeException) failure;
      }
      told.add(topic);
      return new MqttToken() {
        @Override
        public void waitForCompletion(long timeout) {}
      };
    }
  }

  @Test
  void aConnectionThatIsClosedMeanwhileDoesNotEndThePublishing() throws MqttException {
    Connection closed = new Connection(new NullPointerException("closed"));
    topics.setClient(closed);
    topics.put("tepidarium/alert/bag/cold", ON);
    await().until(closed.failures::isEmpty);

    topics.setClient(new Connection());

    await().until(() -> told.equals(List.of("tepidarium/alert/bag/cold")));
  }

  @Test
  void aTopicIsPublishedAgainOnceASlowBrokerAnswers() throws MqttException {
    topics.setClient(
        new Connection(new MqttException(MqttClientException.REASON_CODE_CLIENT_TIMEOUT)));

    topics.put("tepidarium/alert/bag/cold", ON);
    topics.put("tepidarium/alert/bag/dry", ON);

    await().until(() -> told.size() == 2 && told.contains("tepidarium/alert/bag/cold"));
  }
}
