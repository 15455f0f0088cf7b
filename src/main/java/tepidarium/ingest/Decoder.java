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
 * Decodes messages into readings. Content that cannot be read becomes a reject with its reason; no
 * message causes an exception. Topics below the root topic are read in the service's own format
 * first. Other topics are read by the first mapping rule that matches. The rules can be replaced.
 * Thread-safe.
 */
public final class Decoder {
  /** Subtopic of the service's own status; not a sensor. */
  private static final String STATUS = "status";

  /** Subtopic of the service's own alerts; not a sensor. */
  private static final String ALERT = "alert";

  /** Subtopic of button presses, followed by a container id; not a sensor. */
  private static final String OPENING = "opening";

  private static final String NOTICE = "notice";

  private final String root;
  private final String prefix;
  private final int maxPayloadBytes;
  private volatile List<MappedReadings> rules;

  /**
   * Creates a decoder for one root topic.
   *
   * @param maxPayloadBytes longest accepted payload, in bytes; a longer one is rejected without
   *     reading it
   * @throws IllegalArgumentException when the root topic is invalid or the limit is not positive
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

  /** Replaces the mapping rules. */
  void setRules(List<MappingRule> replaced) {
    rules = replaced.stream().map(MappedReadings::of).toList();
  }

  /**
   * The topic filters to subscribe to: all topics below the root, and the filter of each mapping
   * rule.
   */
  public List<String> topicFilters() {
    Set<String> filters = new LinkedHashSet<>();
    filters.add(prefix + '#');
    rules.forEach(rule -> filters.add(rule.filter()));
    return new ArrayList<>(filters);
  }

  /**
   * Whether a mapping rule may read the topic: it is not the topic of a sensor in the service's own
   * format.
   */
  boolean mayBeMapped(String topic) {
    return routeOf(topic) == null;
  }

  /** The topic filters of the mapping rules. */
  public List<String> mappedTopics() {
    return rules.stream().map(MappedReadings::filter).toList();
  }

  /** The sensor whose readings messages on this topic carry; null for none. */
  public @Nullable String sensorOf(String topic) {
    Optional<SensorId> own =
        topic.startsWith(prefix) ? ownSensor(topic.substring(prefix.length())) : Optional.empty();
    return own.or(() -> mappedSensor(topic)).map(SensorId::name).orElse(null);
  }

  private static Optional<SensorId> ownSensor(String subtopic) {
    int slash = subtopic.indexOf('/');
    boolean readable = slash < 0 || Quantity.ofKey(subtopic.substring(slash + 1)).isPresent();
    return readable
        ? sensorNamed(slash < 0 ? subtopic : subtopic.substring(0, slash))
        : Optional.empty();
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

  /** Receives the parts of a message as they are decoded. */
  @FunctionalInterface
  public interface Parts {
    /**
     * Receives one part.
     *
     * @param last whether it is the last one; each message has exactly one last part
     * @throws InterruptedException when the thread is interrupted while waiting for space
     */
    void take(Decoded part, boolean last) throws InterruptedException;
  }

  /**
   * Decodes a message in parts of at most {@link ReadingCollector#MAX_PART_READINGS} readings,
   * which bounds memory use.
   */
  public void decode(Message message, Parts parts) throws InterruptedException {
    ReadingCollector collector = new ReadingCollector(message, parts);
    String container = openedContainer(message.topic());
    if (container != null) {
      readPress(container, message, collector);
    } else if (!ignores(message.topic())) {
      Route route = route(message.topic());
      if (route == null) {
        collector.reject(
            isOwn(message.topic()) ? RejectCode.TOPIC : RejectCode.UNMAPPED_TOPIC,
            whyNoRoute(message.topic()));
      } else if (canRead(message, collector)
          && (route.binary || isText(message.payload(), collector))) {
        route.reader.read(collector);
      }
    }
    collector.finish();
  }

  private @Nullable String openedContainer(String topic) {
    String parent = prefix + OPENING + '/';
    boolean isOpening = topic.startsWith(parent) && topic.indexOf('/', parent.length()) < 0;
    return isOpening ? topic.substring(parent.length()) : null;
  }

  private void readPress(String container, Message message, ReadingCollector collector) {
    boolean empty = message.payload().length == 0;
    if (empty || canRead(message, collector)) {
      String text = Text.beginning(message.payload());
      collector.add(ButtonPresses.read(container, text, collector));
    }
  }

  /** Reads a payload; chosen by the topic. */
  @FunctionalInterface
  private interface PayloadReader {
    void read(ReadingCollector collector) throws InterruptedException;
  }

  /**
   * The reader of a topic.
   *
   * @param binary whether the payload may be bytes that are no text
   */
  private record Route(PayloadReader reader, boolean binary) {}

  /**
   * Reads a message by one rule, without regard to the other rules.
   *
   * @return the readings and the reasons why there are none or fewer
   */
  MappingTrial tryRule(MappingRule rule, Message message) {
    List<MappedReadings> alone = List.of(MappedReadings.of(rule));
    Route route = mappedRoute(message.topic(), alone);
    if (route == null) {
      return MappingTrial.refused(
          "the topic "
              + Text.quote(message.topic())
              + " does not match "
              + Text.quote(rule.topic())
              + ": correct the topic of the rule");
    }
    if (!mayBeMapped(message.topic())) {
      return MappingTrial.refused(
          Text.quote(message.topic())
              + " is a topic of a sensor in this service's own format, which no rule can change."
              + " Let the sensor publish to a topic that is not below "
              + prefix);
    }
    MappingTrial.Parts parts = new MappingTrial.Parts();
    ReadingCollector collector = new ReadingCollector(message, parts);
    try {
      if (canRead(message, collector) && (route.binary || isText(message.payload(), collector))) {
        route.reader.read(collector);
      }
      collector.finish();
    } catch (InterruptedException e) {
      throw new IllegalStateException("the parts of a trial never wait", e);
    }
    return parts.trial();
  }

  /** Whether this service itself publishes to the topic. Messages on such topics are ignored. */
  boolean ignores(String topic) {
    return topic.equals(prefix + STATUS)
        || isMarker(topic)
        || topic.startsWith(prefix + ALERT + '/')
        || topic.startsWith(prefix + NOTICE + '/');
  }

  /** Whether the topic is a marker topic, below the status topic, of this or another service. */
  private boolean isMarker(String topic) {
    String parent = prefix + STATUS + '/';
    return topic.startsWith(parent) && Quantity.ofKey(topic.substring(parent.length())).isEmpty();
  }

  private @Nullable Route route(String topic) {
    Route own = routeOf(topic);
    return own == null ? mappedRoute(topic, rules) : own;
  }

  /** The route of a topic below the root topic, in the service's own format. */
  private @Nullable Route routeOf(String topic) {
    PayloadReader own =
        topic.startsWith(prefix) ? ownRoute(topic.substring(prefix.length())) : null;
    return own == null ? null : new Route(own, false);
  }

  private static @Nullable PayloadReader ownRoute(String subtopic) {
    int slash = subtopic.indexOf('/');
    String name = slash < 0 ? subtopic : subtopic.substring(0, slash);
    Optional<SensorId> sensor = sensorNamed(name);
    if (sensor.isEmpty()) {
      return null;
    }
    return slash < 0
        ? collector -> JsonReadings.read(sensor.get(), collector)
        : plainRoute(sensor.get(), subtopic.substring(slash + 1));
  }

  private static @Nullable PayloadReader plainRoute(SensorId sensor, String key) {
    Quantity quantity = Quantity.ofKey(key).orElse(null);
    return quantity == null
        ? null
        : collector ->
            PlainReadings.read(sensor, quantity, Unit.stored(quantity), Scale.NONE, collector);
  }

  private static @Nullable Route mappedRoute(String topic, List<MappedReadings> rules) {
    if (rules.isEmpty()) {
      return null;
    }
    List<String> levels = TopicPattern.levels(topic);
    for (MappedReadings rule : rules) {
      String name = rule.sensorIn(levels);
      SensorId sensor = name == null ? null : SensorNames.adapted(name).orElse(null);
      if (sensor != null) {
        return new Route(collector -> rule.read(sensor, collector), rule.isBinary());
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
            + " is not the topic of a sensor: use "
            + prefix
            + "<sensor> or "
            + prefix
            + "<sensor>/<quantity>, with <sensor> 1 to 64 of A-Z a-z 0-9 _ - (but not status,"
            + " alert, notice or opening) and <quantity> temperature, humidity, light, battery, co2"
            + " or mediumMoisture"
        : quoted
            + " is not below "
            + prefix
            + " and no mapping rule matches it: add a mapping rule";
  }

  private boolean canRead(Message message, ReadingCollector collector) {
    int size = message.payload().length;
    if (size == 0) {
      collector.reject(RejectCode.EMPTY, "empty payload: send a reading");
    } else if (size > maxPayloadBytes) {
      collector.reject(
          RejectCode.TOO_LARGE,
          "payload of "
              + size
              + " bytes is over the limit of "
              + maxPayloadBytes
              + ": send a backlog in several messages");
    } else if (!Times.canJudge(message.arrivedAt())) {
      collector.reject(
          RejectCode.SERVICE_CLOCK,
          "the clock of this service is wrong ("
              + message.arrivedAt()
              + "): set it, then send the message again");
    } else {
      return true;
    }
    return false;
  }

  private static boolean isText(byte[] payload, ReadingCollector collector) {
    int badByte = Text.firstBadByte(payload);
    if (badByte >= 0) {
      collector.reject(
          RejectCode.ENCODING, "not UTF-8 from byte " + (badByte + 1) + " on: send text in UTF-8");
    } else if (Text.isBlank(payload)) {
      collector.reject(RejectCode.EMPTY, "the payload has only blanks: send a reading");
    } else {
      return true;
    }
    return false;
  }
}
