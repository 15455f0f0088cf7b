package tepidarium.ingest;

import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonPointer;
import com.fasterxml.jackson.core.JsonToken;
import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
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
  private final @Nullable MappedBytes bytes;

  private MappedReadings(
      TopicPattern topic,
      List<Field> fields,
      @Nullable JsonPointer at,
      @Nullable MappedBytes bytes) {
    this.topic = topic;
    this.fields = fields;
    this.at = at;
    this.bytes = bytes;
  }

  /**
   * A quantity of the rule.
   *
   * @param packed its place in the packed bytes; null if it is at the pointer
   */
  private record Field(
      Quantity quantity, Unit unit, JsonPointer pointer, @Nullable ByteField packed, Scale scale) {}

  static MappedReadings of(MappingRule rule) {
    return of(rule.topic(), rule.values(), rule.at(), rule.bytes());
  }

  /** Checks the parts of a rule. */
  static void check(
      String topic,
      Map<Quantity, MappedValue> values,
      @Nullable String at,
      @Nullable MappedBytes bytes) {
    of(topic, values, at, bytes);
  }

  private static MappedReadings of(
      String topic,
      Map<Quantity, MappedValue> values,
      @Nullable String at,
      @Nullable MappedBytes bytes) {
    TopicPattern pattern = TopicPattern.of(topic);
    checkWhole(values, at);
    List<Field> fields =
        values.entrySet().stream().map(e -> field(e.getKey(), e.getValue())).toList();
    checkDistinct(fields);
    checkBytes(fields, at, bytes);
    return new MappedReadings(pattern, fields, at == null ? null : timePointer(at), bytes);
  }

  private static void checkWhole(Map<Quantity, MappedValue> values, @Nullable String at) {
    if (values.isEmpty()) {
      throw new IllegalArgumentException(
          "no quantity is mapped: add at least one of temperature, humidity, light, battery, co2,"
              + " mediumMoisture");
    }
    boolean plain = values.values().stream().anyMatch(MappedValue::isWholePayload);
    if (plain && (values.size() > 1 || at != null)) {
      throw new IllegalArgumentException(
          "a value without a pointer is the whole payload, so there can be no other field:"
              + " give each field a pointer, or remove the others");
    }
  }

  private static Field field(Quantity quantity, MappedValue value) {
    String key = quantity.key();
    JsonPointer pointer = MappedValue.compile(value.pointer(), key);
    return new Field(
        quantity, value.unitFor(quantity), pointer, value.byteField(key), value.scale(key));
  }

  private static void checkDistinct(List<Field> fields) {
    Set<JsonPointer> seen = new HashSet<>();
    for (Field field : fields) {
      if (field.packed == null && !seen.add(field.pointer)) {
        throw new IllegalArgumentException(
            field.quantity.key()
                + " has the pointer "
                + field.pointer
                + ", which another quantity already has: use a different pointer");
      }
    }
  }

  private static void checkBytes(
      List<Field> fields, @Nullable String at, @Nullable MappedBytes bytes) {
    boolean packed = fields.stream().anyMatch(field -> field.packed != null);
    if (bytes == null) {
      if (packed) {
        throw new IllegalArgumentException(
            "a value has firstByte, but the rule does not say where the bytes are: add bytes, such"
                + " as bytes: {pointer: /data, encoding: base64}");
      }
      return;
    }
    if (!packed) {
      throw new IllegalArgumentException(
          "the rule has bytes, but no value has firstByte: add firstByte, or remove bytes");
    }
    MappedValue.compile(bytes.pointer(), "bytes");
    boolean inJson = at != null || fields.stream().anyMatch(field -> field.packed == null);
    if (bytes.isWholePayload() && inJson) {
      throw new IllegalArgumentException(
          "the whole payload is bytes, so nothing else can have a pointer: give bytes a pointer, or"
              + " remove the others");
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

  /** Whether the payload is bytes and not text. */
  boolean isBinary() {
    return bytes != null && bytes.isRaw();
  }

  /** Reads the reading in the payload. */
  void read(SensorId sensor, ReadingCollector collector) throws InterruptedException {
    Found found = new Found(fields.size() + 2);
    if (bytes != null && bytes.isWholePayload()) {
      keep(sensor, found, wholePayload(bytes, collector), collector);
      return;
    }
    Field field = fields.get(0);
    if (field.packed == null && field.pointer.matches()) {
      PlainReadings.read(sensor, field.quantity, field.unit, field.scale, collector);
      return;
    }
    JsonPayload payload = JsonPayload.check(collector);
    if (payload == null) {
      return;
    }
    List<Target> targets = targets();
    if (payload.isArray()) {
      int[] index = new int[1];
      payload.read(parser -> read(parser, elementOf(targets, index[0]++), found));
      found.kind = "an array";
    } else {
      payload.read(parser -> readTop(parser, targets, found));
    }
    byte[] packed = bytes == null ? null : packedAt(bytes, found, collector);
    keep(sensor, found, packed, collector);
  }

  private static byte @Nullable [] wholePayload(MappedBytes bytes, ReadingCollector collector) {
    byte[] payload = collector.message().payload();
    if (bytes.isRaw()) {
      return payload;
    }
    String text = PlainReadings.withoutQuotes(new String(payload, StandardCharsets.UTF_8).strip());
    return decoded(bytes, text, collector);
  }

  /** The bytes at the pointer; null, with a reject, if there are none. */
  private byte @Nullable [] packedAt(MappedBytes bytes, Found found, ReadingCollector collector) {
    JsonNode text = found.values[fields.size() + 1];
    if (text == null || !text.isTextual()) {
      collector.reject(
          RejectCode.NO_QUANTITY,
          "no text at "
              + bytes.pointer()
              + "; found "
              + found.description()
              + ": correct the pointer of bytes in the mapping rule for "
              + filter());
      return null;
    }
    return decoded(bytes, text.textValue(), collector);
  }

  private static byte @Nullable [] decoded(
      MappedBytes bytes, String text, ReadingCollector collector) {
    byte[] decoded = bytes.decode(text);
    if (decoded == null) {
      collector.reject(
          RejectCode.ENCODING,
          bytes.place()
              + " is not "
              + bytes.encoding()
              + ": "
              + Text.quote(text)
              + "; correct the encoding of bytes in the mapping rule");
    }
    return decoded;
  }

  /** A value to find, with its pointer relative to the parser's position. */
  private record Target(int index, JsonPointer pointer) {}

  /** The values found so far: one for each field, then the time, then the text of the bytes. */
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
      if (fields.get(i).packed == null) {
        targets.add(new Target(i, fields.get(i).pointer));
      }
    }
    if (at != null) {
      targets.add(new Target(fields.size(), at));
    }
    if (bytes != null) {
      targets.add(new Target(fields.size() + 1, JsonPointer.compile(bytes.pointer())));
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
      found.kind = PayloadJson.kind(parser);
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
    JsonNode value = descends ? PayloadJson.placeholder(parser) : PayloadJson.value(parser);
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

  /** Adds the reading of all values found; {@code packed} is null if there are no bytes. */
  private void keep(
      SensorId sensor, Found found, byte @Nullable [] packed, ReadingCollector collector)
      throws InterruptedException {
    Values values = new Values(collector::reject);
    for (int i = 0; i < fields.size(); i++) {
      Field field = fields.get(i);
      ByteField place = field.packed;
      if (place == null) {
        values.add(field.quantity, field.unit, field.scale, found.values[i]);
      } else if (packed != null) {
        addPacked(field, place, packed, values, collector);
      }
    }
    boolean anyPointer = fields.stream().anyMatch(field -> field.packed == null);
    if (values.nothingFound() && anyPointer) {
      collector.reject(
          RejectCode.NO_QUANTITY,
          "no value at "
              + Text.list(
                  fields.stream()
                      .filter(field -> field.packed == null)
                      .map(field -> field.pointer.toString())
                      .iterator())
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

  private static void addPacked(
      Field field, ByteField place, byte[] packed, Values values, ReadingCollector collector) {
    if (place.isIn(packed)) {
      values.add(field.quantity, field.unit, field.scale, place.read(packed));
    } else {
      collector.reject(
          RejectCode.NO_QUANTITY,
          field.quantity.key()
              + " is at "
              + place.place()
              + ", but the message has only "
              + packed.length
              + ": correct firstByte or length in the mapping rule");
    }
  }
}
