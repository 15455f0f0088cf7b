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
 * before it publishes the next, to stay below the broker's limit of unacknowledged messages. Queues
 * only the newest message of each topic. Messages stay queued while there is no connection.
 * Thread-safe; {@link #put} does not block.
 */
final class RetainedPublisher implements AutoCloseable {
  private static final Logger LOG = LoggerFactory.getLogger(RetainedPublisher.class);
  private static final long CALL_LIMIT_MS = 15_000;
  private static final long PAUSE_MS = 500;

  private final Map<String, MqttMessage> queue = new LinkedHashMap<>();
  private final Thread thread;
  private @Nullable MqttAsyncClient client;

  RetainedPublisher() {
    thread = new Thread(this::run, "mqtt-publisher");
    thread.setDaemon(true);
    thread.start();
  }

  /** Queues a message; replaces a queued message to the same topic. */
  synchronized void put(String topic, byte[] payload) {
    queue.remove(topic);
    queue.put(topic, new MqttMessage(payload, 1, true, new MqttProperties()));
    notifyAll();
  }

  /** Sets the connected client; null while there is no connection. */
  synchronized void setClient(@Nullable MqttAsyncClient connected) {
    client = connected;
    notifyAll();
  }

  private record Pending(MqttAsyncClient client, String topic, MqttMessage message) {}

  private synchronized Pending next() throws InterruptedException {
    while (true) {
      MqttAsyncClient current = client;
      if (current != null && !queue.isEmpty()) {
        Map.Entry<String, MqttMessage> first = queue.entrySet().iterator().next();
        return new Pending(current, first.getKey(), first.getValue());
      }
      wait();
    }
  }

  private synchronized void done(Pending next) {
    queue.remove(next.topic(), next.message());
  }

  /**
   * Handles a failed publish. If the connection still works, the message moves to the end of the
   * queue for a retry. Otherwise all messages wait for the next connection.
   *
   * @return whether to pause before the next message
   */
  private synchronized boolean failed(Pending next, Exception e) {
    LOG.debug("could not publish to {}", next.topic(), e);
    if (client != next.client()) {
      return false;
    }
    if (!next.client().isConnected()) {
      client = null;
      return false;
    }
    if (queue.remove(next.topic(), next.message())) {
      queue.put(next.topic(), next.message());
    }
    return true;
  }

  private void run() {
    try {
      while (true) {
        Pending next = next();
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
