package tepidarium.ingest.mqtt;

import java.time.Duration;
import java.time.Instant;
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
import tepidarium.ingest.RejectCode;

/**
 * Limits how long the embedded broker keeps the session of an absent client, and how many bytes
 * wait for one client. Does not touch the session of the service. Called by one thread; {@link
 * #summary} by any.
 */
final class SessionLimit {
  private static final Logger LOG = LoggerFactory.getLogger(SessionLimit.class);
  private static final Duration TOLD = Duration.ofHours(1);

  private final BrokerLimits limits;
  private final String serviceClientId;

  /** Since when sessions from before the start of the broker have been absent. */
  private final Map<String, Long> absentSince = new HashMap<>();

  private @Nullable String deleted;
  private long deletedNanos;
  private volatile String summary = "no client lets messages wait";

  SessionLimit(BrokerLimits limits, String serviceClientId) {
    this.limits = limits;
    this.serviceClientId = serviceClientId;
  }

  /** Which client lets most bytes wait, and whose messages were deleted within the last hour. */
  String summary() {
    return summary;
  }

  /** Applies the limits. */
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
        empty(client, queues, bytes);
      } else if (bytes > most) {
        most = bytes;
        largest = client;
      }
    }
    summary = words(largest, most);
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
   * Shortens the expiry that the client asked for. The broker itself ends the sessions that began
   * after its start; those from before are watched here, because the broker would keep them.
   */
  private boolean hasExpired(MQTTSessionState state) {
    int seconds = Math.toIntExact(limits.sessionExpiry().toSeconds());
    int asked = state.getClientSessionExpiryInterval();
    if (state.isAttached() || state.getSession() != null) {
      absentSince.remove(state.getClientId());
      // A negative number is a large unsigned one; the largest stands for ever.
      if (asked < 0 || asked > seconds) {
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
    LOG.info("forgot the session of the absent MQTT client {}", printable(client));
  }

  private void empty(String client, List<Queue> queues, long bytes) throws Exception {
    for (Queue queue : queues) {
      queue.deleteAllReferences();
    }
    deleted = "%s let %d MiB wait; they were deleted".formatted(printable(client), bytes >> 20);
    deletedNanos = System.nanoTime();
    LOG.warn("the MQTT client {}", deleted);
  }

  private static String printable(String client) {
    return '"' + Reject.of(Instant.EPOCH, client, RejectCode.OTHER, "", "").topic() + '"';
  }

  private String words(String client, long bytes) {
    String last = deleted;
    boolean told = last != null && System.nanoTime() - deletedNanos < TOLD.toNanos();
    String waiting =
        bytes < 1 << 20
            ? "no client lets messages wait"
            : "%d MiB wait for the client %s".formatted(bytes >> 20, printable(client));
    return told ? "the client " + last + " (within the last hour); " + waiting : waiting;
  }
}
