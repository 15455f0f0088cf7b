package tepidarium.ingest;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.List;
import java.util.function.Consumer;
import java.util.stream.Stream;
import tepidarium.reading.Quantity;
import tepidarium.reading.SensorId;

/** Readings in this service's own form: an object, or an array of them as a backlog. */
final class JsonReadings {
  private static final String EXAMPLE = "send an object such as {\"temperature\":30.2}";

  /** Where each quantity stands in an object; worked out once, as this runs for every reading. */
  private static final List<Field> FIELDS =
      Stream.of(Quantity.values()).map(q -> new Field(q, q.key(), Unit.stored(q))).toList();

  private JsonReadings() {}

  private record Field(Quantity quantity, String key, Unit unit) {}

  /** Takes every reading that the value holds. */
  static void read(SensorId sensor, JsonNode value, Outcome outcome) {
    if (value.isArray()) {
      readBacklog(sensor, value, outcome);
    } else {
      readObject(sensor, value, Times.ofWhole(outcome), outcome);
    }
  }

  private static void readBacklog(SensorId sensor, JsonNode entries, Outcome outcome) {
    if (entries.isEmpty()) {
      outcome.reject("an empty array: " + EXAMPLE + " in it");
    }
    Message message = outcome.message();
    int count = entries.size();
    for (int i = 0; i < count; i++) {
      JsonNode entry = entries.get(i);
      int number = i + 1;
      Consumer<String> rejects =
          reason -> outcome.reject("entry " + number + " of " + count + ": " + reason, entry);
      Times times = new Times(message.arrivedAt(), message.retained(), count == 1, rejects);
      readObject(sensor, entry, times, outcome);
    }
  }

  private static void readObject(SensorId sensor, JsonNode object, Times times, Outcome outcome) {
    Consumer<String> rejects = times.rejects();
    if (!object.isObject()) {
      rejects.accept(Json.kind(object) + " in place of an object: " + EXAMPLE);
      return;
    }
    Values values = new Values(rejects);
    for (Field field : FIELDS) {
      values.take(field.quantity, field.unit, object.get(field.key));
    }
    if (values.nothingFound()) {
      rejects.accept("no quantity with a value; found " + Json.found(object) + ": " + EXAMPLE);
    }
    if (values.anyGood()) {
      outcome.keep(sensor, times.of(object.get("at"), object.get("age")), values);
    }
  }
}
