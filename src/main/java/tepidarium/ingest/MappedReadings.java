package tepidarium.ingest;

import com.fasterxml.jackson.core.JsonPointer;
import com.fasterxml.jackson.databind.JsonNode;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import tepidarium.reading.Quantity;
import tepidarium.reading.SensorId;

/** A mapping rule made ready for use: reads what fits its topic. Immutable. */
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
  void read(SensorId sensor, String text, Outcome outcome) {
    Field first = fields.get(0);
    if (first.pointer.matches()) {
      PlainReadings.read(sensor, first.quantity, first.unit, text, outcome);
      return;
    }
    JsonNode value = Json.parse(text, outcome);
    if (value != null) {
      readJson(sensor, value, outcome);
    }
  }

  private void readJson(SensorId sensor, JsonNode payload, Outcome outcome) {
    Values values = new Values(outcome::reject);
    for (Field field : fields) {
      values.take(field.quantity, field.unit, payload.at(field.pointer));
    }
    if (values.nothingFound()) {
      outcome.reject(
          "no value at "
              + Text.list(fields.stream().map(field -> field.pointer.toString()).iterator())
              + "; found "
              + Json.found(payload)
              + ": correct the pointers of the mapping rule for "
              + filter());
    }
    if (values.anyGood()) {
      JsonNode stamp = at == null ? null : payload.at(at);
      outcome.keep(sensor, Times.ofWhole(outcome).of(stamp, null), values);
    }
  }
}
