package tepidarium.ingest.mqtt;

import java.time.Duration;
import java.util.Collection;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.LongSupplier;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.apache.activemq.artemis.api.core.SimpleString;
import org.apache.activemq.artemis.core.postoffice.QueueBinding;
import org.apache.activemq.artemis.core.protocol.mqtt.MQTTUtil;
import org.apache.activemq.artemis.core.server.ActiveMQServer;
import org.jspecify.annotations.Nullable;

/**
 * Counts topics, subscriptions and retained messages of the embedded broker, and refuses new ones
 * beyond the limits. The service's own subscriptions do not count. Topic filters of subscriptions
 * have a limit of their own, so that subscriptions never take the room of topics: the broker keeps
 * an address for each filter until it has been idle for as long as a topic. Safe for use by several
 * threads.
 */
final class BrokerQuota {
  /** Subscriptions leave room for at least so many topics. */
  private static final int ROOM_FOR_TOPICS = 500;

  /** What a client was allowed to create exists by then, or will not. */
  private static final Duration EXPECTED = Duration.ofMinutes(1);

  private static final Duration TOLD = Duration.ofHours(1);

  /** Names that were taken: those that the broker has, and those that it may still come to. */
  private static final class Names {
    private Set<String> existing = Set.of();
    private final Map<String, Long> expected = new HashMap<>();

    boolean has(String name) {
      return existing.contains(name) || expected.containsKey(name);
    }

    long size() {
      return (long) existing.size() + expected.size();
    }

    void expect(Set<String> names, long now) {
      names.forEach(name -> expected.put(name, now));
    }

    void count(Set<String> names, long now) {
      existing = Set.copyOf(names);
      expected
          .entrySet()
          .removeIf(
              entry ->
                  names.contains(entry.getKey()) || now - entry.getValue() > EXPECTED.toNanos());
    }
  }

  private final BrokerLimits limits;
  private final SimpleString servicePrefix;
  private final LongSupplier nanos;

  /** Names of the queues of subscriptions. */
  private final Names queues = new Names();

  /** Topic filters for which a subscription made the broker create an address. */
  private final Names filters = new Names();

  private boolean counted;
  private long topics;
  private long retained;

  private boolean topicsRefused;
  private long topicRefusedAt;
  private String lastRefusal = "";

  /**
   * A quota.
   *
   * @param nanos a clock in nanoseconds, such as {@link System#nanoTime}
   */
  BrokerQuota(BrokerLimits limits, String serviceClientId, LongSupplier nanos) {
    this.limits = limits;
    this.servicePrefix = SimpleString.of(serviceClientId + '.');
    this.nanos = nanos;
  }

  /** Counts what the broker has. Between two calls, new ones are added. */
  void count(ActiveMQServer server) {
    Collection<SimpleString> addresses = server.getPostOffice().getAddresses();
    long newAddresses = addresses.stream().filter(address -> !address.startsWith('$')).count();
    SimpleString prefix = SimpleString.of(MQTTUtil.MQTT_RETAIN_ADDRESS_PREFIX);
    long newRetained = addresses.stream().filter(address -> address.startsWith(prefix)).count();
    Set<String> subscriptions =
        server
            .getPostOffice()
            .getAllBindings()
            .filter(QueueBinding.class::isInstance)
            .filter(binding -> !binding.getAddress().startsWith('$'))
            .filter(binding -> !binding.getUniqueName().startsWith(servicePrefix))
            .map(binding -> binding.getUniqueName().toString())
            .collect(Collectors.toSet());
    synchronized (this) {
      long now = nanos.getAsLong();
      retained = newRetained;
      queues.count(subscriptions, now);
      Set<String> existing =
          Stream.concat(
                  filters.existing.stream(),
                  // Those of sessions that were kept over a restart are not expected.
                  counted ? filters.expected.keySet().stream() : withWildcard(addresses))
              .filter(filter -> server.getAddressInfo(SimpleString.of(filter)) != null)
              .collect(Collectors.toSet());
      counted = true;
      filters.count(existing, now);
      topics = newAddresses - existing.size();
    }
  }

  private static Stream<String> withWildcard(Collection<SimpleString> addresses) {
    return addresses.stream().map(SimpleString::toString).filter(TopicNames::hasWildcard);
  }

  /** Whether a topic is known as the filter of a subscription. */
  synchronized boolean isFilter(String topic) {
    return filters.has(topic);
  }

  /** Why a topic that is not known yet is refused; null when it is taken, and counted. */
  @Nullable String whyNoTopic(String topic) {
    String reason = limits.whyNotNew().apply(topic);
    if (reason != null) {
      return reason;
    }
    synchronized (this) {
      String full = whyFull(topic);
      if (full == null) {
        topics++;
      } else {
        topicsRefused = true;
        topicRefusedAt = nanos.getAsLong();
        lastRefusal = full;
      }
      return full;
    }
  }

  private @Nullable String whyFull(String topic) {
    if (topics >= limits.topics()) {
      return "\"%s\" is a new topic, but the embedded broker knows %,d topics already: %s"
          .formatted(topic, topics, "publish to fewer topics, or raise maxSensors in the settings");
    }
    long subscriptions = queues.size();
    if ((topics + filters.size() + 1) * subscriptions > limits.pairs()) {
      return "\"%s\" is a new topic, but %,d topics and %,d subscriptions take the memory: %s"
          .formatted(topic, topics, subscriptions, "end subscriptions that nobody reads");
    }
    return null;
  }

  /**
   * Whether the subscriptions of a client to these filters are taken, all or none; they are
   * counted. Those that it has already are taken. Half of the pairs stay for topics.
   */
  boolean takesSubscriptions(ActiveMQServer server, String clientId, List<String> wanted) {
    Set<String> newFilters =
        wanted.stream()
            .filter(filter -> server.getAddressInfo(SimpleString.of(filter)) == null)
            .collect(Collectors.toCollection(HashSet::new));
    Set<String> newQueues =
        wanted.stream()
            .map(filter -> clientId + '.' + filter)
            .collect(Collectors.toCollection(HashSet::new));
    synchronized (this) {
      newFilters.removeIf(filters::has);
      newQueues.removeIf(queues::has);
      long subscriptions = queues.size() + newQueues.size();
      long addresses = filters.size() + newFilters.size();
      long pairs = subscriptions * Math.max(topics + addresses, ROOM_FOR_TOPICS);
      boolean full =
          subscriptions > limits.subscriptions()
              || addresses > limits.subscriptions()
              || pairs > limits.pairs() / 2;
      if (full && !newQueues.isEmpty()) {
        return false;
      }
      queues.expect(newQueues, nanos.getAsLong());
      filters.expect(newFilters, nanos.getAsLong());
      return true;
    }
  }

  /** Why a retained message on a topic is refused; null when it is taken, and counted. */
  @Nullable String whyNotRetained(ActiveMQServer server, String topic) {
    if (server.getAddressInfo(SimpleString.of(MQTTUtil.MQTT_RETAIN_ADDRESS_PREFIX + topic))
        != null) {
      return null;
    }
    synchronized (this) {
      if (retained >= limits.retained()) {
        return "\"%s\" would be one more retained message, but the embedded broker keeps %,d: %s"
            .formatted(topic, retained, "publish without the retain flag");
      }
      retained++;
      return null;
    }
  }

  /** Why new topics were refused within the last hour; null when none were. */
  synchronized @Nullable String trouble() {
    boolean recent = topicsRefused && nanos.getAsLong() - topicRefusedAt < TOLD.toNanos();
    return recent
        ? "messages on new topics were refused within the last hour: " + lastRefusal
        : null;
  }

  /** How many topics and subscriptions there are, in words. */
  synchronized String summary() {
    return "%,d of %,d topics, %,d of %,d subscriptions"
        .formatted(topics, limits.topics(), queues.size(), limits.subscriptions());
  }
}
