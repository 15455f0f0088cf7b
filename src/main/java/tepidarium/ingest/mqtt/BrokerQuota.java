package tepidarium.ingest.mqtt;

import java.util.Collection;
import org.apache.activemq.artemis.api.core.SimpleString;
import org.apache.activemq.artemis.core.postoffice.QueueBinding;
import org.apache.activemq.artemis.core.protocol.mqtt.MQTTUtil;
import org.apache.activemq.artemis.core.server.ActiveMQServer;
import org.jspecify.annotations.Nullable;

/**
 * Counts topics, subscriptions and retained messages of the embedded broker, and refuses new ones
 * beyond the limits. The service's own subscriptions do not count. Safe for use by several threads.
 */
final class BrokerQuota {
  /** Subscriptions leave room for at least so many topics. */
  private static final int ROOM_FOR_TOPICS = 500;

  private final BrokerLimits limits;
  private final SimpleString servicePrefix;
  private long topics;
  private long subscriptions;
  private long retained;

  BrokerQuota(BrokerLimits limits, String serviceClientId) {
    this.limits = limits;
    this.servicePrefix = SimpleString.of(serviceClientId + '.');
  }

  /** Counts what the broker has. Between two calls, new ones are added. */
  void count(ActiveMQServer server) {
    Collection<SimpleString> addresses = server.getPostOffice().getAddresses();
    long newTopics = addresses.stream().filter(address -> !address.startsWith('$')).count();
    SimpleString prefix = SimpleString.of(MQTTUtil.MQTT_RETAIN_ADDRESS_PREFIX);
    long newRetained = addresses.stream().filter(address -> address.startsWith(prefix)).count();
    long newSubscriptions =
        server
            .getPostOffice()
            .getAllBindings()
            .filter(QueueBinding.class::isInstance)
            .filter(binding -> !binding.getAddress().startsWith('$'))
            .filter(binding -> !binding.getUniqueName().startsWith(servicePrefix))
            .count();
    synchronized (this) {
      topics = newTopics;
      retained = newRetained;
      subscriptions = newSubscriptions;
    }
  }

  /** Why a topic that is not known yet is refused; null when it is taken, and counted. */
  @Nullable String whyNoTopic(String topic) {
    String reason = limits.whyNotNew().apply(topic);
    if (reason != null) {
      return reason;
    }
    synchronized (this) {
      if (topics >= limits.topics()) {
        return "\"%s\" is a new topic, but the embedded broker knows %,d topics already: %s"
            .formatted(
                topic, topics, "publish to fewer topics, or raise maxSensors in the settings");
      }
      if ((topics + 1) * subscriptions > limits.pairs()) {
        return "\"%s\" is a new topic, but %,d topics and %,d subscriptions take the memory: %s"
            .formatted(topic, topics, subscriptions, "end subscriptions that nobody reads");
      }
      topics++;
      return null;
    }
  }

  /** Whether one more subscription is taken; it is counted. Half of the pairs stay for topics. */
  synchronized boolean takesSubscription() {
    long pairs = (subscriptions + 1) * Math.max(topics, ROOM_FOR_TOPICS);
    if (subscriptions >= limits.subscriptions() || pairs > limits.pairs() / 2) {
      return false;
    }
    subscriptions++;
    return true;
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
}
