package tepidarium.ingest;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import tepidarium.reading.Quantity;
import tepidarium.reading.SensorId;

/**
 * Turns messages into readings. What cannot be read becomes a reject with its reason; no message
 * makes it throw. Below the root topic the service's own form comes first, then the mapping rules;
 * of these the first that fits is the one that counts. Immutable; safe for use by several threads.
 */
public final class Decoder {
  /** The service's own presence; not a sensor. */
  private static final String STATUS = "status";

  /** The service's own alerts; not a sensor. */
  private static final String ALERT = "alert";

  /** Below it stand containers that somebody opens; not a sensor. */
  private static final String OPENING = "opening";

  private static final String NOTICE = "notice";

  private final String root;
  private final String prefix;
  private final List<MappedReadings> rules;
  private final int maxPayloadBytes;

  /**
   * A decoder for one root topic.
   *
   * @param maxPayloadBytes a longer payload is rejected unread
   * @throws IllegalArgumentException when the root is no plain topic or the limit is not positive
   */
  public Decoder(String rootTopic, List<MappingRule> rules, int maxPayloadBytes) {
    if (rootTopic.isEmpty()
        || rootTopic.startsWith("/")
        || rootTopic.endsWith("/")
        || rootTopic.startsWith("$")
        || rootTopic.chars().anyMatch(c -> c == '+' || c == '#' || c == 0)) {
      throw new IllegalArgumentException(
          "the root topic "
              + Text.quote(rootTopic)
              + " must be a plain topic: no + or #, no / at either end, no $ in front");
    }
    if (maxPayloadBytes < 1) {
      throw new IllegalArgumentException(
          "the longest payload must be at least 1 byte, not " + maxPayloadBytes);
    }
    this.root = rootTopic;
    this.prefix = rootTopic + '/';
    this.rules = rules.stream().map(MappedReadings::of).toList();
    this.maxPayloadBytes = maxPayloadBytes;
  }

  /** What to subscribe to: everything below the root, and each rule's filter. */
  public List<String> topicFilters() {
    Set<String> filters = new LinkedHashSet<>();
    filters.add(prefix + '#');
    rules.forEach(rule -> filters.add(rule.filter()));
    return new ArrayList<>(filters);
  }

  /** The sensor whose readings messages on this topic carry; null for none. */
  public @Nullable String sensorOf(String topic) {
    Optional<SensorId> own =
        topic.startsWith(prefix) ? ownSensor(topic.substring(prefix.length())) : Optional.empty();
    return own.or(() -> mappedSensor(topic)).map(SensorId::name).orElse(null);
  }

  private static Optional<SensorId> ownSensor(String rest) {
    int slash = rest.indexOf('/');
    boolean known = slash < 0 || Quantity.ofKey(rest.substring(slash + 1)).isPresent();
    return known ? sensorNamed(slash < 0 ? rest : rest.substring(0, slash)) : Optional.empty();
  }

  private static Optional<SensorId> sensorNamed(String name) {
    return name.equals(STATUS) || name.equals(ALERT) || name.equals(OPENING) || name.equals(NOTICE)
        ? Optional.empty()
        : SensorNames.exact(name);
  }

  private Optional<SensorId> mappedSensor(String topic) {
    List<String> levels = TopicPattern.levels(topic);
    return rules.stream()
        .map(rule -> rule.sensorIn(levels))
        .filter(Objects::nonNull)
        .flatMap(name -> SensorNames.adapted(name).stream())
        .findFirst();
  }

  /** Takes the parts of a message as they are decoded. */
  @FunctionalInterface
  public interface Parts {
    /**
     * Takes a part.
     *
     * @param last whether it is the last one; each message has exactly one last part
     * @throws InterruptedException when decoding is given up
     */
    void take(Decoded part, boolean last) throws InterruptedException;
  }

  /**
   * Decodes a message in parts of at most {@link Outcome#PART} readings, so that memory use does
   * not grow with the payload.
   */
  public void decode(Message message, Parts parts) throws InterruptedException {
    Outcome outcome = new Outcome(message, parts);
    String opened = openedContainer(message.topic());
    if (opened != null) {
      readPress(opened, message, outcome);
    } else if (!ignores(message.topic())) {
      Payload payload = route(message.topic());
      if (payload == null) {
        outcome.reject(
            isOwn(message.topic()) ? RejectCode.TOPIC : RejectCode.UNMAPPED_TOPIC,
            whyNoRoute(message.topic()));
      } else if (canRead(message, outcome) && isText(message.payload(), outcome)) {
        payload.read(outcome);
      }
    }
    outcome.finish();
  }

  private @Nullable String openedContainer(String topic) {
    String below = prefix + OPENING + '/';
    boolean one = topic.startsWith(below) && topic.indexOf('/', below.length()) < 0;
    return one ? topic.substring(below.length()) : null;
  }

  private void readPress(String container, Message message, Outcome outcome) {
    boolean empty = message.payload().length == 0;
    if (empty || canRead(message, outcome)) {
      String text = Text.beginning(message.payload());
      outcome.keep(ButtonPresses.read(container, text, outcome));
    }
  }

  /** Reads a payload whose topic is known. */
  @FunctionalInterface
  private interface Payload {
    void read(Outcome outcome) throws InterruptedException;
  }

  /** Whether this service publishes to the topic itself, so that messages on it are no readings. */
  boolean ignores(String topic) {
    return topic.equals(prefix + STATUS)
        || isMarker(topic)
        || topic.startsWith(prefix + ALERT + '/')
        || topic.startsWith(prefix + NOTICE + '/');
  }

  /** A marker of this service or of another one on the same broker, below the status. */
  private boolean isMarker(String topic) {
    String below = prefix + STATUS + '/';
    return topic.startsWith(below) && Quantity.ofKey(topic.substring(below.length())).isEmpty();
  }

  private @Nullable Payload route(String topic) {
    Payload own = topic.startsWith(prefix) ? ownRoute(topic.substring(prefix.length())) : null;
    return own == null ? mappedRoute(topic) : own;
  }

  private static @Nullable Payload ownRoute(String rest) {
    int slash = rest.indexOf('/');
    String name = slash < 0 ? rest : rest.substring(0, slash);
    Optional<SensorId> sensor = sensorNamed(name);
    if (sensor.isEmpty()) {
      return null;
    }
    return slash < 0
        ? outcome -> JsonReadings.read(sensor.get(), outcome)
        : plainRoute(sensor.get(), rest.substring(slash + 1));
  }

  private static @Nullable Payload plainRoute(SensorId sensor, String key) {
    Quantity quantity = Quantity.ofKey(key).orElse(null);
    return quantity == null
        ? null
        : outcome -> PlainReadings.read(sensor, quantity, Unit.stored(quantity), outcome);
  }

  private @Nullable Payload mappedRoute(String topic) {
    if (rules.isEmpty()) {
      return null;
    }
    List<String> levels = TopicPattern.levels(topic);
    for (MappedReadings rule : rules) {
      String name = rule.sensorIn(levels);
      SensorId sensor = name == null ? null : SensorNames.adapted(name).orElse(null);
      if (sensor != null) {
        return outcome -> rule.read(sensor, outcome);
      }
    }
    return null;
  }

  private boolean isOwn(String topic) {
    return topic.equals(root) || topic.startsWith(prefix);
  }

  private String whyNoRoute(String topic) {
    String quoted = Text.quote(topic);
    return isOwn(topic)
        ? quoted
            + " is no sensor's topic: use "
            + prefix
            + "<sensor> or "
            + prefix
            + "<sensor>/<quantity>, with <sensor> 1 to 64 of A-Z a-z 0-9 _ - (but not status,"
            + " alert, notice or opening) and <quantity> temperature, humidity, light or battery"
        : quoted + " is neither below " + prefix + " nor covered: add a mapping rule for it";
  }

  private boolean canRead(Message message, Outcome outcome) {
    int size = message.payload().length;
    if (size == 0) {
      outcome.reject(RejectCode.EMPTY, "empty payload: send a reading, or nothing");
    } else if (size > maxPayloadBytes) {
      outcome.reject(
          RejectCode.TOO_LARGE,
          "payload of "
              + size
              + " bytes is over the limit of "
              + maxPayloadBytes
              + ": send a backlog in several messages");
    } else if (!Times.canJudge(message.arrivedAt())) {
      outcome.reject(
          RejectCode.SERVICE_CLOCK,
          "this service's own clock says " + message.arrivedAt() + ": set it, then send again");
    } else {
      return true;
    }
    return false;
  }

  private static boolean isText(byte[] payload, Outcome outcome) {
    int bad = Text.firstBadByte(payload);
    if (bad >= 0) {
      outcome.reject(
          RejectCode.ENCODING, "not UTF-8 from byte " + (bad + 1) + " on: send text in UTF-8");
    } else if (Text.isBlank(payload)) {
      outcome.reject(RejectCode.EMPTY, "empty payload, only blanks: send a reading, or nothing");
    } else {
      return true;
    }
    return false;
  }
}
