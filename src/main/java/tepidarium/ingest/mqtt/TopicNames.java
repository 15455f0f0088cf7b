package tepidarium.ingest.mqtt;

import org.jspecify.annotations.Nullable;

/**
 * Checks the characters of topics and compares topic filters. Source of the forbidden characters:
 * OASIS MQTT 5.0, section 1.5.4, and the checks of the Paho client, whose receiving thread ends
 * when it reads a topic with such a character.
 */
final class TopicNames {
  /** Separates address and queue in names of the embedded broker; has no meaning in MQTT. */
  private static final String QUEUE_SEPARATOR = "::";

  /**
   * Maximum number of levels in the embedded broker. It processes levels recursively, and a topic
   * of 65,000 levels caused a stack overflow.
   */
  private static final int MAX_LEVELS = 100;

  private TopicNames() {}

  /** Why a message may not be published to this topic; null if it may. */
  static @Nullable String problem(String topic) {
    int bad = topic.codePoints().filter(TopicNames::isForbidden).findFirst().orElse(-1);
    if (bad == 0) {
      return "the topic holds the character U+0000, which MQTT forbids: publish it without the"
          + " terminating zero byte of a C string";
    }
    if (bad > 0) {
      return "the topic holds the character U+%04X, which MQTT forbids: remove it".formatted(bad);
    }
    return topic.isEmpty() ? "the topic is empty: publish to a sensor's topic" : null;
  }

  /**
   * Like {@link #problem}, for the embedded broker, which also reserves two colons and limits the
   * levels.
   */
  static @Nullable String problemEmbedded(String topic) {
    if (topic.chars().filter(c -> c == '/').count() >= MAX_LEVELS) {
      return "the topic has more than " + MAX_LEVELS + " levels: use fewer";
    }
    return topic.contains(QUEUE_SEPARATOR)
        ? "the topic holds two colons in a row, which the embedded broker reserves: remove one"
        : problem(topic);
  }

  /**
   * Whether the embedded broker would read a part of this client id as the name of a queue. A
   * subscription could then read the queue of another client.
   */
  static boolean namesQueue(String clientId) {
    return clientId.contains(QUEUE_SEPARATOR);
  }

  /** Whether it is a topic filter that matches more than one topic. */
  static boolean hasWildcard(String filter) {
    return filter.indexOf('+') >= 0 || filter.indexOf('#') >= 0;
  }

  private static boolean isForbidden(int character) {
    return Character.isISOControl(character)
        || (character >= Character.MIN_SURROGATE && character <= Character.MAX_SURROGATE)
        || (character >= 0xFDD0 && character <= 0xFDEF)
        || (character & 0xFFFE) == 0xFFFE;
  }

  /** Whether each topic that the narrow filter (or topic) matches is matched by the wide filter. */
  static boolean covers(String wide, String narrow) {
    String[] wideLevels = wide.split("/", -1);
    String[] narrowLevels = narrow.split("/", -1);
    for (int i = 0; i < wideLevels.length; i++) {
      if (wideLevels[i].equals("#")) {
        return true;
      }
      if (i >= narrowLevels.length
          || narrowLevels[i].equals("#")
          || !(wideLevels[i].equals("+") || wideLevels[i].equals(narrowLevels[i]))) {
        return false;
      }
      if (i == narrowLevels.length - 1 && i == wideLevels.length - 2) {
        // "a/#" also matches "a".
        return wideLevels[i + 1].equals("#");
      }
    }
    return wideLevels.length == narrowLevels.length;
  }
}
