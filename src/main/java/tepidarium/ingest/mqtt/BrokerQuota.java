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
 * have a separate limit, so subscriptions cannot use up the limit of topics: the broker stores an
 * address for each filter and deletes it only when it has been idle for as long as a topic.
 * Thread-safe.
 */
final class BrokerQuota {
  /** Subscriptions are refused if fewer than this number of topics would still fit. */
  private static final int ROOM_FOR_TOPICS = 500;

  /**
   * Time within which the broker creates an accepted subscription. If it does not exist after this
   * time, it no longer counts.
   */
  private static final Duration EXPECTED = Duration.ofMinutes(1);

  private static final Duration SHOWN = Duration.ofHours(1);

  /** A set of names: those that exist in the broker, and those that it is about to create. */
  private static final class CountedNames {
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
  private final CountedNames queues = new CountedNames();

  /** Topic filters for which a subscription made the broker create an address. */
  private final CountedNames filters = new CountedNames();

  private boolean counted;
  private long topics;
  private long retained;

  private boolean topicsRefused;
  private long topicRefusedAt;
  private String lastRefusal = "";

  /**
   * Creates a quota.
   *
   * @param nanos a clock in nanoseconds, such as {@link System#nanoTime}
   */
  BrokerQuota(BrokerLimits limits, String serviceClientId, LongSupplier nanos) {
    this.limits = limits;
    this.servicePrefix = SimpleString.of(serviceClientId + '.');
    this.nanos = nanos;
  }

  /**
   * Counts the topics, subscriptions and retained messages in the broker. Between two calls, new
   * ones are added to the counts.
   */
  void count(ActiveMQServer server) {
    // The broker returns a snapshot in a new set. All counts must use the same snapshot: a filter
    // address that is deleted between two of them would be counted as a topic.
    Set<SimpleString> addresses = server.getPostOffice().getAddresses();
    SimpleString retainPrefix = SimpleString.of(MQTTUtil.MQTT_RETAIN_ADDRESS_PREFIX);
    long brokerOwn = 0;
    long newRetained = 0;
    for (SimpleString address : addresses) {
      if (address.startsWith('$')) {
        brokerOwn++;
        newRetained += address.startsWith(retainPrefix) ? 1 : 0;
      }
    }
    SimpleString notifications = server.getConfiguration().getManagementNotificationAddress();
    brokerOwn += addresses.contains(notifications) ? 1 : 0;
    long topicsAndFilters = addresses.size() - brokerOwn;
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
          Stream.of(
                  filters.existing.stream(),
                  filters.expected.keySet().stream(),
                  // At the first count, also includes filters of sessions that were persisted
                  // before a restart.
                  counted ? Stream.<String>empty() : withWildcard(addresses))
              .flatMap(names -> names)
              .filter(filter -> addresses.contains(SimpleString.of(filter)))
              .collect(Collectors.toSet());
      counted = true;
      filters.count(existing, now);
      topics = topicsAndFilters - existing.size();
    }
  }

  private static Stream<String> withWildcard(Collection<SimpleString> addresses) {
    return addresses.stream().map(SimpleString::toString).filter(TopicNames::hasWildcard);
  }

  /** Whether the name is the topic filter of a subscription. */
  synchronized boolean isFilter(String topic) {
    return filters.has(topic);
  }

  /** Returns why a new topic is refused. Accepts and counts it otherwise, and returns null. */
  @Nullable String topicRefusal(String topic) {
    String reason = limits.whyNotNew().apply(topic);
    if (reason != null) {
      return reason;
    }
    synchronized (this) {
      String full = fullReason(topic);
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

  private @Nullable String fullReason(String topic) {
    if (topics >= limits.topics()) {
      return "\"%s\" is a new topic, but the embedded broker already has %,d topics: %s"
          .formatted(topic, topics, "publish to fewer topics, or raise maxSensors in the settings");
    }
    long subscriptions = queues.size();
    if ((topics + filters.size() + 1) * subscriptions > limits.pairs()) {
      return "\"%s\" is a new topic, but %,d topics and %,d subscriptions already use the memory reserved for them: %s"
          .formatted(topic, topics, subscriptions, "remove subscriptions that are not needed");
    }
    return null;
  }

  /**
   * Accepts or refuses all subscriptions of a client to these filters, and counts accepted ones.
   * Existing subscriptions are always accepted. Subscriptions may use at most half of the pairs
   * (see {@link BrokerLimits}); new topics may use the others.
   */
  boolean acceptSubscriptions(ActiveMQServer server, String clientId, List<String> wanted) {
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

  /**
   * Returns why a retained message on a topic is refused. Accepts and counts it otherwise, and
   * returns null.
   */
  @Nullable String retainRefusal(ActiveMQServer server, String topic) {
    if (server.getAddressInfo(SimpleString.of(MQTTUtil.MQTT_RETAIN_ADDRESS_PREFIX + topic))
        != null) {
      return null;
    }
    synchronized (this) {
      if (retained >= limits.retained()) {
        return "the retained message on \"%s\" was refused, because the embedded broker already keeps %,d: %s"
            .formatted(topic, retained, "publish without the retain flag");
      }
      retained++;
      return null;
    }
  }

  /** Why new topics were refused within the last hour; null if none were. */
  synchronized @Nullable String trouble() {
    boolean recent = topicsRefused && nanos.getAsLong() - topicRefusedAt < SHOWN.toNanos();
    return recent
        ? "messages on new topics were refused within the last hour: " + lastRefusal
        : null;
  }

  /** A text with the number of topics and subscriptions. */
  synchronized String summary() {
    return "%,d of %,d topics, %,d of %,d subscriptions"
        .formatted(topics, limits.topics(), queues.size(), limits.subscriptions());
  }
}
