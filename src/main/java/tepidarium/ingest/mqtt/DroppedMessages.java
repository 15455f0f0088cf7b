package tepidarium.ingest.mqtt;

import java.nio.charset.StandardCharsets;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Counts the messages that an external broker has dropped, as reported on its status topics.
 * Thread-safe.
 */
final class DroppedMessages {
  private static final Logger LOG = LoggerFactory.getLogger(DroppedMessages.class);
  private static final String VERSION = "$SYS/broker/version";
  private static final String DROPPED = "$SYS/broker/publish/messages/dropped";
  private static final String REMEDY =
      "set max_queued_messages 0 and persistence true in its configuration";

  private @Nullable String version;
  private long droppedAtFirst = -1;
  private long droppedNow = -1;

  /** The status topics to subscribe to; not every broker publishes them. */
  static List<String> topics() {
    return List.of(VERSION, DROPPED);
  }

  static boolean isStatusTopic(String topic) {
    return topic.startsWith("$SYS/");
  }

  synchronized void read(String topic, byte[] payload) {
    String text = new String(payload, StandardCharsets.UTF_8).strip();
    if (topic.equals(VERSION) && version == null) {
      version = text;
      if (text.startsWith("mosquitto")) {
        LOG.info(
            "the broker is {}: by default it keeps 1,000 messages for a disconnected service"
                + " and drops further ones; {}",
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
    // A restarted broker counts from 0 again.
    if (droppedAtFirst < 0 || droppedNow < droppedAtFirst) {
      droppedAtFirst = droppedNow;
    }
  }

  /** Number of messages that the broker has dropped since the first report, for all its clients. */
  synchronized long dropped() {
    return droppedNow < 0 ? 0 : droppedNow - droppedAtFirst;
  }

  /** A warning for the grower; empty if no messages were dropped. */
  synchronized String warning() {
    return dropped() == 0
        ? ""
        : "; the broker has dropped "
            + dropped()
            + " messages since the service connected: "
            + REMEDY;
  }
}
