package tepidarium.ingest.mqtt;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import org.eclipse.paho.mqttv5.client.MqttAsyncClient;
import org.eclipse.paho.mqttv5.common.MqttException;
import org.eclipse.paho.mqttv5.common.MqttMessage;
import org.eclipse.paho.mqttv5.common.packet.MqttProperties;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Publishes retained messages on its own thread. Waits for the acknowledgement of each message
 * before the next, so that the broker's limit of unacknowledged messages is not reached. Stores
 * only the newest message of each topic. Without a connection, all messages wait. Thread-safe;
 * {@link #put} does not block.
 */
final class RetainedTopics implements AutoCloseable {
  private static final Logger LOG = LoggerFactory.getLogger(RetainedTopics.class);
  private static final long CALL_LIMIT_MS = 15_000;
  private static final long PAUSE_MS = 500;

  private final Map<String, MqttMessage> waiting = new LinkedHashMap<>();
  private final Thread thread;
  private @Nullable MqttAsyncClient client;

  RetainedTopics() {
    thread = new Thread(this::run, "mqtt-publisher");
    thread.setDaemon(true);
    thread.start();
  }

  synchronized void put(String topic, byte[] payload) {
    waiting.remove(topic);
    waiting.put(topic, new MqttMessage(payload, 1, true, new MqttProperties()));
    notifyAll();
  }

  /** Sets the connection; null while there is none. */
  synchronized void over(@Nullable MqttAsyncClient connected) {
    client = connected;
    notifyAll();
  }

  private record Next(MqttAsyncClient client, String topic, MqttMessage message) {}

  private synchronized Next next() throws InterruptedException {
    while (true) {
      MqttAsyncClient current = client;
      if (current != null && !waiting.isEmpty()) {
        Map.Entry<String, MqttMessage> first = waiting.entrySet().iterator().next();
        return new Next(current, first.getKey(), first.getValue());
      }
      wait();
    }
  }

  private synchronized void done(Next next) {
    waiting.remove(next.topic(), next.message());
  }

  /**
   * Handles a failed publish. If the connection still works, the message moves to the end of the
   * queue for a retry. Otherwise all messages wait for the next connection.
   *
   * @return whether to pause before the next message
   */
  private synchronized boolean failed(Next next, Exception e) {
    LOG.debug("could not publish to {}", next.topic(), e);
    if (client != next.client()) {
      return false;
    }
    if (!next.client().isConnected()) {
      client = null;
      return false;
    }
    if (waiting.remove(next.topic(), next.message())) {
      waiting.put(next.topic(), next.message());
    }
    return true;
  }

  private void run() {
    try {
      while (true) {
        Next next = next();
        try {
          next.client().publish(next.topic(), next.message()).waitForCompletion(CALL_LIMIT_MS);
          done(next);
        } catch (MqttException | RuntimeException e) {
          // A client that is being closed throws a NullPointerException.
          if (failed(next, e)) {
            TimeUnit.MILLISECONDS.sleep(PAUSE_MS);
          }
        }
      }
    } catch (InterruptedException e) {
      // The link is being closed.
    }
  }

  @Override
  public void close() {
    thread.interrupt();
  }
}
