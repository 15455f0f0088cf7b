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
 * A mapping rule made ready for use: reads the messages that fit its topic. It reads the payload as
 * a stream and keeps only the values at its pointers. Immutable.
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

  /** Fails where the parts of a rule are wrong, and says why. */
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
          "it maps no quantity: add at least one of temperature, humidity, light, battery");
    }
    boolean plain = values.values().stream().anyMatch(MappedValue::isWholePayload);
    if (plain && (values.size() > 1 || at != null)) {
      throw new IllegalArgumentException(
          "a value without pointer is the whole payload and leaves no place for another field:"
              + " give each field a pointer, or make it the only one");
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
                + " of another quantity: point to its own field");
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

  /** What stands in the sensor's place, or null where the topic does not fit. */
  @Nullable String sensorIn(List<String> levels) {
    return topic.sensorIn(levels);
  }

  /** Takes the reading that the payload holds. */
  void read(SensorId sensor, Outcome outcome) throws InterruptedException {
    Field first = fields.get(0);
    if (first.pointer.matches()) {
      PlainReadings.read(sensor, first.quantity, first.unit, outcome);
      return;
    }
    JsonPayload payload = JsonPayload.check(outcome);
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
    keep(sensor, found, outcome);
  }

  /** A value to look for: where it stands, seen from where the parser stands. */
  private record Target(int number, JsonPointer pointer) {}

  /** The values found so far, in the order of the fields, then the time. */
  private static final class Found {
    final @Nullable JsonNode[] values;
    String kind = "";
    List<String> names = List.of();

    Found(int size) {
      values = new JsonNode[size];
    }

    String words() {
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
    return below(targets, pointer -> pointer.matchElement(index));
  }

  private static List<Target> below(
      List<Target> targets, Function<JsonPointer, @Nullable JsonPointer> step) {
    List<Target> below = new ArrayList<>(targets.size());
    for (Target target : targets) {
      JsonPointer pointer = step.apply(target.pointer);
      if (pointer != null) {
        below.add(new Target(target.number, pointer));
      }
    }
    return below;
  }

  private static void readTop(JsonParser parser, List<Target> targets, Found found)
      throws IOException {
    if (parser.currentToken() == JsonToken.START_OBJECT) {
      found.names = readFields(parser, targets, found);
    } else {
      found.kind = Json.kind(parser);
    }
  }

  /** Reads the value at which the parser stands; leaves it at the end of the value. */
  private static void read(JsonParser parser, List<Target> targets, Found found)
      throws IOException {
    if (targets.isEmpty()) {
      parser.skipChildren();
      return;
    }
    boolean below = targets.stream().anyMatch(target -> !target.pointer.matches());
    boolean open = below && parser.currentToken().isStructStart();
    JsonNode value = open ? Json.standIn(parser) : Json.value(parser);
    for (Target target : targets) {
      if (target.pointer.matches()) {
        found.values[target.number] = value;
      }
    }
    if (open && parser.isExpectedStartArrayToken()) {
      for (int i = 0; parser.nextToken() != JsonToken.END_ARRAY; i++) {
        read(parser, elementOf(targets, i), found);
      }
    } else if (open) {
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
      read(parser, below(targets, pointer -> pointer.matchProperty(name)), found);
    }
    return names;
  }

  private void keep(SensorId sensor, Found found, Outcome outcome) throws InterruptedException {
    Values values = new Values(outcome::reject);
    for (int i = 0; i < fields.size(); i++) {
      Field field = fields.get(i);
      values.take(field.quantity, field.unit, found.values[i]);
    }
    if (values.nothingFound()) {
      outcome.reject(
          RejectCode.NO_QUANTITY,
          "no value at "
              + Text.list(fields.stream().map(field -> field.pointer.toString()).iterator())
              + "; found "
              + found.words()
              + ": correct the pointers of the mapping rule for "
              + filter());
    }
    if (values.anyGood()) {
      outcome.keep(sensor, Times.ofWhole(outcome).of(found.values[fields.size()], null), values);
    }
  }
}
