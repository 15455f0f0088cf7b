package tepidarium.app.demo;

import java.nio.charset.StandardCharsets;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import tepidarium.reading.Reading;
import tepidarium.reading.SensorId;
import tepidarium.web.Json;

/**
 * One MQTT message of a sensor, with its readings in order.
 *
 * @param repeated whether the same message was sent before
 */
record SensorMessage(SensorId sensor, List<Reading> readings, boolean repeated) {
  private static final int BEST_SIGNAL_DBM = -48;
  private static final int DIFFERENT_SIGNALS = 38;

  SensorMessage {
    readings = List.copyOf(readings);
  }

  /** Returns the JSON payload: an object for one reading, an array for several. */
  byte[] payload() {
    List<Map<String, Object>> entries = readings.stream().map(SensorMessage::entry).toList();
    Object value = entries.size() == 1 ? entries.get(0) : entries;
    return Json.write(value).getBytes(StandardCharsets.UTF_8);
  }

  private static Map<String, Object> entry(Reading reading) {
    Map<String, Object> entry = new LinkedHashMap<>();
    reading.values().forEach((quantity, value) -> entry.put(quantity.key(), value));
    entry.put("at", reading.at());
    int number = Math.floorMod(reading.sensor().name().hashCode(), DIFFERENT_SIGNALS);
    entry.put("rssi", BEST_SIGNAL_DBM - number);
    entry.put("firmware", "1.4.2");
    return entry;
  }
}
