package tepidarium.ingest;

import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonToken;
import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.function.BiConsumer;
import org.jspecify.annotations.Nullable;
import tepidarium.reading.DeviceStatus;
import tepidarium.reading.Quantity;
import tepidarium.reading.SensorId;

/** Reads the service's own format: one JSON object, or an array of objects for a backlog. */
final class JsonReadings {
  private static final String EXAMPLE = "send an object such as {\"temperature\":30.2}";

  private static final Quantity[] QUANTITIES = Quantity.values();

  /** Indexes of the other fields, after those of the quantities. */
  private static final int AT = QUANTITIES.length;

  private static final int AGE = AT + 1;
  private static final int RSSI = AT + 2;
  private static final int FIRMWARE = AT + 3;

  /** Index of each known field, by name. */
  private static final Map<String, Integer> FIELDS = new HashMap<>();

  static {
    for (Quantity quantity : QUANTITIES) {
      FIELDS.put(quantity.key(), FIELDS.size());
    }
    FIELDS.put("at", AT);
    FIELDS.put("age", AGE);
    FIELDS.put("rssi", RSSI);
    FIELDS.put("firmware", FIRMWARE);
  }

  private JsonReadings() {}

  /** Reads all readings of the payload. */
  static void read(SensorId sensor, ReadingCollector collector) throws InterruptedException {
    JsonPayload payload = JsonPayload.check(collector);
    if (payload == null) {
      return;
    }
    if (payload.isArray()) {
      readBacklog(sensor, payload, collector);
    } else {
      payload.read(parser -> readObject(sensor, parser, Times.ofWhole(collector), collector));
    }
  }

  private static void readBacklog(SensorId sensor, JsonPayload payload, ReadingCollector collector)
      throws InterruptedException {
    int count = payload.entries();
    if (count == 0) {
      collector.reject(RejectCode.NO_QUANTITY, "an empty array: " + EXAMPLE + " in the array");
    }
    int[] number = new int[1];
    payload.read(
        parser -> {
          number[0]++;
          long from = parser.currentTokenLocation().getCharOffset();
          BiConsumer<RejectCode, String> rejects =
              (code, reason) ->
                  collector.reject(
                      code,
                      "entry " + number[0] + " of " + count + ": " + reason,
                      () -> payload.excerpt(from, parser.currentLocation().getCharOffset()));
          readObject(sensor, parser, Times.of(collector, count == 1, rejects), collector);
        });
  }

  private static void readObject(
      SensorId sensor, JsonParser parser, Times times, ReadingCollector collector)
      throws IOException, InterruptedException {
    BiConsumer<RejectCode, String> rejects = times.rejects();
    if (parser.currentToken() != JsonToken.START_OBJECT) {
      String kind = PayloadJson.kind(parser);
      parser.skipChildren();
      parser.finishToken();
      rejects.accept(RejectCode.NO_QUANTITY, kind + " instead of an object: " + EXAMPLE);
      return;
    }
    @Nullable JsonNode[] fields = new JsonNode[FIRMWARE + 1];
    List<String> names = readFields(parser, fields);
    Values values = new Values(rejects);
    for (int i = 0; i < QUANTITIES.length; i++) {
      values.add(QUANTITIES[i], Unit.stored(QUANTITIES[i]), fields[i]);
    }
    if (values.nothingFound()) {
      rejects.accept(
          RejectCode.NO_QUANTITY,
          "no value for any quantity; found " + Text.list(names.iterator()) + ": " + EXAMPLE);
    }
    if (values.anyValid()) {
      Times.Stamp stamp = times.of(fields[AT], fields[AGE]);
      collector.add(sensor, stamp, values);
      if (stamp != null) {
        collector.add(status(sensor, stamp.at(), fields));
      }
    } else {
      collector.addFaults(sensor, times.silently().of(fields[AT], fields[AGE]), values);
    }
  }

  /** What the sensor says about itself; null if nothing. A value that cannot be read is ignored. */
  private static @Nullable DeviceStatus status(
      SensorId sensor, Instant at, @Nullable JsonNode[] fields) {
    JsonNode rssi = PayloadJson.present(fields[RSSI]);
    JsonNode firmware = PayloadJson.present(fields[FIRMWARE]);
    return DeviceStatus.ofSent(
        sensor,
        at,
        rssi == null ? Double.NaN : Numbers.of(rssi),
        firmware != null && (firmware.isTextual() || firmware.isNumber())
            ? firmware.asText()
            : null);
  }

  /**
   * Reads the known fields.
   *
   * @return the names of the fields, as long as no quantity has a value
   */
  private static List<String> readFields(JsonParser parser, @Nullable JsonNode[] fields)
      throws IOException {
    List<String> names = new ArrayList<>(0);
    boolean found = false;
    while (parser.nextToken() == JsonToken.FIELD_NAME) {
      String name = parser.currentName();
      parser.nextToken();
      Integer field = FIELDS.get(name);
      if (field == null) {
        parser.skipChildren();
      } else {
        fields[field] = PayloadJson.value(parser);
        found |= field < AT && PayloadJson.present(fields[field]) != null;
      }
      if (!found) {
        names.add(name);
      }
    }
    return names;
  }
}
