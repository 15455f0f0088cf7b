package tepidarium.ingest;

import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonPointer;
import com.fasterxml.jackson.core.JsonToken;
import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import tepidarium.reading.Quantity;
import tepidarium.reading.SensorId;

/**
 * Reads messages by one mapping rule. Reads the payload as a stream and keeps only the values at
 * the rule's JSON Pointers. Immutable.
 */
final class MappedReadings {
  private final TopicPattern topic;
  private final List<Field> fields;
  private final @Nullable JsonPointer at;

  private MappedReadings(TopicPattern topic, List<Field> fields, @Nullable JsonPointer at) {
    this.topic = topic;
    this.fields = fields;
    this.at = at;
  }

  private record Field(Quantity quantity, Unit unit, JsonPointer pointer) {}

  static MappedReadings of(MappingRule rule) {
    return of(rule.topic(), rule.values(), rule.at());
  }

  /** Checks the parts of a rule. */
  static void check(String topic, Map<Quantity, MappedValue> values, @Nullable String at) {
    of(topic, values, at);
  }

  private static MappedReadings of(
      String topic, Map<Quantity, MappedValue> values, @Nullable String at) {
    TopicPattern pattern = TopicPattern.of(topic);
    checkWhole(values, at);
    List<Field> fields =
        values.entrySet().stream().map(e -> field(e.getKey(), e.getValue())).toList();
    checkDistinct(fields);
    return new MappedReadings(pattern, fields, at == null ? null : timePointer(at));
  }

  private static void checkWhole(Map<Quantity, MappedValue> values, @Nullable String at) {
    if (values.isEmpty()) {
      throw new IllegalArgumentException(
          "no quantity is mapped: add at least one of temperature, humidity, light, battery");
    }
    boolean plain = values.values().stream().anyMatch(MappedValue::isWholePayload);
    if (plain && (values.size() > 1 || at != null)) {
      throw new IllegalArgumentException(
          "a value without a pointer is the whole payload, so there can be no other field:"
              + " give each field a pointer, or remove the others");
    }
  }

  private static Field field(Quantity quantity, MappedValue value) {
    JsonPointer pointer = MappedValue.compile(value.pointer(), quantity.key());
    return new Field(quantity, value.unitFor(quantity), pointer);
  }

  private static void checkDistinct(List<Field> fields) {
    Set<JsonPointer> seen = new HashSet<>();
    for (Field field : fields) {
      if (!seen.add(field.pointer)) {
        throw new IllegalArgumentException(
            field.quantity.key()
                + " has the pointer "
                + field.pointer
                + ", which another quantity already has: use a different pointer");
      }
    }
  }

  private static JsonPointer timePointer(String at) {
    if (at.isEmpty()) {
      throw new IllegalArgumentException(
          "at is empty: point to the time, as in /time, or leave at out");
    }
    return MappedValue.compile(at, "at");
  }

  String filter() {
    return topic.filter();
  }

  /** The sensor's name in the topic; null if the topic does not match. */
  @Nullable String sensorIn(List<String> levels) {
    return topic.sensorIn(levels);
  }

  /** Reads the reading in the payload. */
  void read(SensorId sensor, ReadingCollector collector) throws InterruptedException {
    Field field = fields.get(0);
    if (field.pointer.matches()) {
      PlainReadings.read(sensor, field.quantity, field.unit, collector);
      return;
    }
    JsonPayload payload = JsonPayload.check(collector);
    if (payload == null) {
      return;
    }
    Found found = new Found(fields.size() + 1);
    List<Target> targets = targets();
    if (payload.isArray()) {
      int[] index = new int[1];
      payload.read(parser -> read(parser, elementOf(targets, index[0]++), found));
      found.kind = "an array";
    } else {
      payload.read(parser -> readTop(parser, targets, found));
    }
    keep(sensor, found, collector);
  }

  /** A value to find, with its pointer relative to the parser's position. */
  private record Target(int index, JsonPointer pointer) {}

  /** The values found so far: one for each field, then the time. */
  private static final class Found {
    final @Nullable JsonNode[] values;
    String kind = "";
    List<String> names = List.of();

    Found(int size) {
      values = new JsonNode[size];
    }

    String description() {
      return kind.isEmpty() ? Text.list(names.iterator()) : kind;
    }
  }

  private List<Target> targets() {
    List<Target> targets = new ArrayList<>();
    for (int i = 0; i < fields.size(); i++) {
      targets.add(new Target(i, fields.get(i).pointer));
    }
    if (at != null) {
      targets.add(new Target(fields.size(), at));
    }
    return targets;
  }

  private static List<Target> elementOf(List<Target> targets, int index) {
    return descend(targets, pointer -> pointer.matchElement(index));
  }

  private static List<Target> descend(
      List<Target> targets, Function<JsonPointer, @Nullable JsonPointer> step) {
    List<Target> matching = new ArrayList<>(targets.size());
    for (Target target : targets) {
      JsonPointer pointer = step.apply(target.pointer);
      if (pointer != null) {
        matching.add(new Target(target.index, pointer));
      }
    }
    return matching;
  }

  private static void readTop(JsonParser parser, List<Target> targets, Found found)
      throws IOException {
    if (parser.currentToken() == JsonToken.START_OBJECT) {
      found.names = readFields(parser, targets, found);
    } else {
      found.kind = Json.kind(parser);
    }
  }

  /** Reads the value at the parser's position and moves to its end. */
  private static void read(JsonParser parser, List<Target> targets, Found found)
      throws IOException {
    if (targets.isEmpty()) {
      parser.skipChildren();
      return;
    }
    boolean hasNested = targets.stream().anyMatch(target -> !target.pointer.matches());
    boolean descends = hasNested && parser.currentToken().isStructStart();
    JsonNode value = descends ? Json.placeholder(parser) : Json.value(parser);
    for (Target target : targets) {
      if (target.pointer.matches()) {
        found.values[target.index] = value;
      }
    }
    if (descends && parser.isExpectedStartArrayToken()) {
      for (int i = 0; parser.nextToken() != JsonToken.END_ARRAY; i++) {
        read(parser, elementOf(targets, i), found);
      }
    } else if (descends) {
      readFields(parser, targets, found);
    }
  }

  /** Reads the fields of an object and returns their names. */
  private static List<String> readFields(JsonParser parser, List<Target> targets, Found found)
      throws IOException {
    List<String> names = new ArrayList<>();
    while (parser.nextToken() == JsonToken.FIELD_NAME) {
      String name = parser.currentName();
      parser.nextToken();
      names.add(name);
      read(parser, descend(targets, pointer -> pointer.matchProperty(name)), found);
    }
    return names;
  }

  private void keep(SensorId sensor, Found found, ReadingCollector collector)
      throws InterruptedException {
    Values values = new Values(collector::reject);
    for (int i = 0; i < fields.size(); i++) {
      Field field = fields.get(i);
      values.add(field.quantity, field.unit, found.values[i]);
    }
    if (values.nothingFound()) {
      collector.reject(
          RejectCode.NO_QUANTITY,
          "no value at "
              + Text.list(fields.stream().map(field -> field.pointer.toString()).iterator())
              + "; found "
              + found.description()
              + ": correct the pointers of the mapping rule for "
              + filter());
    }
    if (values.anyValid()) {
      collector.add(sensor, Times.ofWhole(collector).of(found.values[fields.size()], null), values);
    } else {
      Times times = Times.ofWhole(collector).silently();
      collector.addFaults(sensor, times.of(found.values[fields.size()], null), values);
    }
  }
}
