package tepidarium.ingest.mqtt;

import java.nio.charset.StandardCharsets;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * What an external broker says of itself on its status topics, as far as it matters here: whether
 * it drops messages. Safe for use by several threads.
 */
final class BrokerReport {
  private static final Logger LOG = LoggerFactory.getLogger(BrokerReport.class);
  private static final String VERSION = "$SYS/broker/version";
  private static final String DROPPED = "$SYS/broker/publish/messages/dropped";
  private static final String REMEDY =
      "set max_queued_messages 0 and persistence true in its configuration";

  private @Nullable String version;
  private long droppedAtFirst = -1;
  private long droppedNow = -1;

  /** The topics to subscribe to; a broker that has none of them says nothing. */
  static List<String> topics() {
    return List.of(VERSION, DROPPED);
  }

  static boolean isOne(String topic) {
    return topic.startsWith("$SYS/");
  }

  synchronized void take(String topic, byte[] payload) {
    String text = new String(payload, StandardCharsets.UTF_8).strip();
    if (topic.equals(VERSION) && version == null) {
      version = text;
      if (text.startsWith("mosquitto")) {
        LOG.info(
            "the broker is {}: by its defaults it keeps 1,000 messages for a service that is away"
                + " and drops the rest; {}",
            text,
            REMEDY);
      }
    } else if (topic.equals(DROPPED)) {
      count(text);
    }
  }

  private void count(String text) {
    try {
      droppedNow = Long.parseLong(text);
    } catch (NumberFormatException e) {
      return;
    }
    // A restarted broker counts from nothing again.
    if (droppedAtFirst < 0 || droppedNow < droppedAtFirst) {
      droppedAtFirst = droppedNow;
    }
  }

  /** How many messages the broker has dropped since it was first asked; of any of its clients. */
  synchronized long dropped() {
    return droppedNow < 0 ? 0 : droppedNow - droppedAtFirst;
  }

  /** A warning for the grower; empty when there is nothing to warn of. */
  synchronized String warning() {
    return dropped() == 0
        ? ""
        : "; the broker has dropped " + dropped() + " messages since: " + REMEDY;
  }
}
