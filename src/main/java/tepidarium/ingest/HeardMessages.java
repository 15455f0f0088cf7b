package tepidarium.ingest;

import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Base64;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * Keeps messages with at least one reject, in memory: the newest of each topic, at most {@value
 * #MAX_TOPICS} topics and {@value #MAX_PAYLOAD_BYTES} bytes each. A message is also kept if only
 * some of its readings were rejected. A mapping rule can be tried on them. Thread-safe.
 */
public final class HeardMessages {
  public static final int MAX_TOPICS = 100;
  public static final int MAX_PAYLOAD_BYTES = 16 * 1024;

  private static final int MAX_TOPIC_LENGTH = 1_000;

  /**
   * A message that was heard.
   *
   * @param text its payload as text; null if it is not UTF-8
   * @param base64 its payload as bytes
   */
  public record Heard(Instant at, String topic, @Nullable String text, String base64) {}

  /** Guarded by its own monitor. */
  private final Map<String, Heard> byTopic = new LinkedHashMap<>();

  /** Keeps a message, unless it is empty or too long. Forgets the topic heard longest ago. */
  public void add(String topic, byte[] payload, Instant at) {
    if (payload.length == 0
        || payload.length > MAX_PAYLOAD_BYTES
        || topic.length() > MAX_TOPIC_LENGTH) {
      return;
    }
    Heard heard = heard(topic, payload, at);
    synchronized (byTopic) {
      byTopic.remove(topic);
      byTopic.put(topic, heard);
      if (byTopic.size() > MAX_TOPICS) {
        byTopic.remove(byTopic.keySet().iterator().next());
      }
    }
  }

  private static Heard heard(String topic, byte[] payload, Instant at) {
    boolean isText = Text.firstBadByte(payload) < 0;
    return new Heard(
        at,
        topic,
        isText ? new String(payload, StandardCharsets.UTF_8) : null,
        Base64.getEncoder().encodeToString(payload));
  }

  /** The messages, the newest first. */
  public List<Heard> newest() {
    List<Heard> newest;
    synchronized (byTopic) {
      newest = new ArrayList<>(byTopic.values());
    }
    Collections.reverse(newest);
    return newest;
  }

  /** The newest message of a topic; null if none is kept. */
  public @Nullable Heard newest(String topic) {
    synchronized (byTopic) {
      return byTopic.get(topic);
    }
  }

  /** Forgets the messages whose topic a rule reads now. */
  void forget(TopicPattern pattern) {
    synchronized (byTopic) {
      byTopic.keySet().removeIf(topic -> pattern.sensorIn(TopicPattern.levels(topic)) != null);
    }
  }
}
