package tepidarium.web;

import java.time.Instant;
import java.util.LinkedHashMap;
import java.util.Map;
import tepidarium.reading.Reading;

/** The JSON of a reading: its sensor, its time and its values in stored units by quantity. */
public record ReadingJson(String sensor, Instant at, Map<String, Double> values) {
  public static ReadingJson of(Reading reading) {
    Map<String, Double> values = new LinkedHashMap<>();
    reading.values().forEach((quantity, value) -> values.put(quantity.key(), value));
    return new ReadingJson(reading.sensor().name(), reading.at(), values);
  }
}
