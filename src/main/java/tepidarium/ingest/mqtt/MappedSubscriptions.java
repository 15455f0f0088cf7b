package tepidarium.ingest.mqtt;

import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import org.eclipse.paho.mqttv5.common.MqttException;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Subscribes to the topic filters of mapping rules, one by one, and keeps the filters that the
 * broker refuses. A broker may refuse a filter in its answer, or close the connection. A filter at
 * which two attempts failed without an answer is left out for 10 min, so that the other topics are
 * received. {@link #subscribe} is called by one thread; the other methods are thread-safe.
 */
final class MappedSubscriptions {
  private static final Logger LOG = LoggerFactory.getLogger(MappedSubscriptions.class);
  private static final int MAX_UNANSWERED = 2;
  private static final Duration PAUSE = Duration.ofMinutes(10);

  /** Reason codes from this one on are refusals (MQTT 5.0, section 3.9.3). */
  private static final int FIRST_REFUSAL = 0x80;

  /** Subscribes to one filter and returns the reason code of the broker. */
  @FunctionalInterface
  interface Broker {
    int subscribe(String filter) throws MqttException;
  }

  /**
   * A filter without a subscription.
   *
   * @param unanswered number of attempts in a row that failed without an answer of the broker
   */
  private record Refusal(String reason, int unanswered, Instant at) {
    boolean pauses(Instant now) {
      return unanswered >= MAX_UNANSWERED && now.isBefore(at.plus(PAUSE));
    }
  }

  private final Map<String, Refusal> refusals = new ConcurrentHashMap<>();

  /** Filters that the broker has confirmed on the present connection. */
  private final Set<String> confirmed = ConcurrentHashMap.newKeySet();

  /** Prepares for a new connection, on which nothing is confirmed yet. */
  void connecting() {
    confirmed.clear();
  }

  /** Reports that the subscriptions to these filters were ended. */
  void unsubscribed(List<String> filters) {
    filters.forEach(confirmed::remove);
  }

  /**
   * Subscribes to all filters that are not confirmed on this connection.
   *
   * @throws MqttException if the broker did not answer; the connection is then to be closed
   */
  void subscribe(List<String> filters, Broker broker, Instant now) throws MqttException {
    refusals.keySet().retainAll(filters);
    confirmed.retainAll(filters);
    for (String filter : filters) {
      Refusal before = refusals.get(filter);
      boolean pauses = before != null && before.pauses(now);
      if (!pauses && !confirmed.contains(filter)) {
        subscribe(filter, before == null ? 0 : before.unanswered(), broker, now);
      }
    }
  }

  private void subscribe(String filter, int unanswered, Broker broker, Instant now)
      throws MqttException {
    try {
      int code = broker.subscribe(filter);
      if (code < FIRST_REFUSAL) {
        refusals.remove(filter);
        confirmed.add(filter);
      } else {
        refused(filter, new Refusal("the broker refuses this topic: " + words(code), 0, now));
      }
    } catch (MqttException e) {
      String reason = "the broker did not confirm this topic, or closed the connection";
      refused(filter, new Refusal(reason, unanswered + 1, now));
      throw e;
    } catch (IllegalArgumentException e) {
      refused(filter, new Refusal("not a valid topic: " + e.getMessage(), 0, now));
    }
  }

  private void refused(String filter, Refusal refusal) {
    Refusal before = refusals.put(filter, refusal);
    if (before == null || !before.reason().equals(refusal.reason())) {
      LOG.warn("mapping rule for {}: {}", filter, refusal.reason());
    }
  }

  private static String words(int code) {
    return switch (code) {
      case 0x87 -> "not authorized. Permit it in the access rules of the broker";
      case 0x8F -> "invalid topic filter";
      case 0x97 -> "its quota is exceeded";
      case 0xA2 -> "it accepts no wildcards";
      default -> "reason code 0x" + Integer.toHexString(code);
    };
  }

  /** Returns why there is no subscription to a filter; null if nothing is wrong. */
  @Nullable String refusal(String filter) {
    Refusal refusal = refusals.get(filter);
    return refusal == null ? null : refusal.reason();
  }

  /** A warning for the state of the link; empty if nothing is wrong. */
  String warning() {
    return refusals.isEmpty()
        ? ""
        : "; mapping rules without a subscription: " + String.join(", ", refusals.keySet());
  }
}
