package tepidarium.ingest.mqtt;

import java.time.Duration;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.apache.activemq.artemis.api.core.SimpleString;
import org.apache.activemq.artemis.core.protocol.mqtt.MQTTSessionState;
import org.apache.activemq.artemis.core.protocol.mqtt.MQTTStateManager;
import org.apache.activemq.artemis.core.server.ActiveMQServer;
import org.apache.activemq.artemis.core.server.Queue;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import tepidarium.ingest.Reject;

/**
 * Limits how long the embedded broker keeps the session of an absent client, and the size of the
 * messages that wait for one client. Does not apply to the service itself. One thread calls {@link
 * #check}; any thread may call {@link #summary}.
 */
final class SessionLimit {
  private static final Logger LOG = LoggerFactory.getLogger(SessionLimit.class);
  private static final Duration SHOWN = Duration.ofHours(1);

  private static final String NOTHING_WAITS = "less than 1 MiB of messages waits for each client";

  private final BrokerLimits limits;
  private final String serviceClientId;

  /** When each absent client was first seen absent, in {@link System#nanoTime} units. */
  private final Map<String, Long> absentSince = new HashMap<>();

  private @Nullable String deleted;
  private long deletedNanos;
  private volatile String summary = NOTHING_WAITS;

  SessionLimit(BrokerLimits limits, String serviceClientId) {
    this.limits = limits;
    this.serviceClientId = serviceClientId;
  }

  /**
   * A text with the client for which most bytes wait, and with the last deletion of waiting
   * messages within the last hour.
   */
  String summary() {
    return summary;
  }

  /** Deletes expired sessions, and the waiting messages of clients over the limit. */
  void check(ActiveMQServer server) throws Exception {
    MQTTStateManager sessions = MQTTStateManager.getInstance(server);
    Map<String, MQTTSessionState> states = sessions.getSessionStates();
    absentSince.keySet().retainAll(states.keySet());
    String largest = "";
    long most = 0;
    for (Map.Entry<String, MQTTSessionState> session : states.entrySet()) {
      String client = session.getKey();
      if (client.equals(serviceClientId)) {
        continue;
      }
      List<Queue> queues = queues(server, session.getValue());
      long bytes = queues.stream().mapToLong(Queue::getPersistentSize).sum();
      if (hasExpired(session.getValue())) {
        remove(server, sessions, client, queues);
      } else if (bytes > limits.sessionBytes()) {
        deleteMessages(client, queues, bytes);
      } else if (bytes > most) {
        most = bytes;
        largest = client;
      }
    }
    summary = summary(largest, most);
  }

  private static List<Queue> queues(ActiveMQServer server, MQTTSessionState state) {
    List<Queue> queues = new ArrayList<>();
    state
        .getSubscriptions()
        .forEach(
            subscription -> {
              String name = state.getClientId() + '.' + subscription.topicFilter();
              Queue queue = server.locateQueue(SimpleString.of(name));
              if (queue != null) {
                queues.add(queue);
              }
            });
    return queues;
  }

  /**
   * Whether the session of an absent client has expired. While the client is connected, shortens
   * the expiry that it requested to the limit. The broker deletes expired sessions itself, but not
   * those that it loaded from disk at its start; these are measured here.
   */
  private boolean hasExpired(MQTTSessionState state) {
    int seconds = Math.toIntExact(limits.sessionExpiry().toSeconds());
    int requested = state.getClientSessionExpiryInterval();
    if (state.isAttached() || state.getSession() != null) {
      absentSince.remove(state.getClientId());
      // A negative number is an unsigned one above 2^31; the largest of them means no expiry.
      if (requested < 0 || requested > seconds) {
        state.setClientSessionExpiryInterval(seconds);
      }
      return false;
    }
    long now = System.nanoTime();
    long since = absentSince.computeIfAbsent(state.getClientId(), id -> now);
    return now - since >= limits.sessionExpiry().toNanos();
  }

  private void remove(
      ActiveMQServer server, MQTTStateManager sessions, String client, List<Queue> queues)
      throws Exception {
    sessions.removeSessionState(client);
    absentSince.remove(client);
    for (Queue queue : queues) {
      server.destroyQueue(queue.getName());
    }
    LOG.info("deleted the expired session of the absent MQTT client {}", printable(client));
  }

  private void deleteMessages(String client, List<Queue> queues, long bytes) throws Exception {
    for (Queue queue : queues) {
      queue.deleteAllReferences();
    }
    deleted =
        "deleted %d MiB of messages that waited for the client %s"
            .formatted(bytes >> 20, printable(client));
    deletedNanos = System.nanoTime();
    LOG.warn("{}", deleted);
  }

  private static String printable(String client) {
    return '"' + Reject.printable(client) + '"';
  }

  private String summary(String client, long bytes) {
    String last = deleted;
    boolean shown = last != null && System.nanoTime() - deletedNanos < SHOWN.toNanos();
    String waiting =
        bytes < 1 << 20
            ? NOTHING_WAITS
            : "%d MiB wait for the client %s".formatted(bytes >> 20, printable(client));
    return shown ? last + " (within the last hour); " + waiting : waiting;
  }
}
