package tepidarium.app.demo;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;
import tepidarium.reading.Reading;
import tepidarium.reading.SensorId;
import tepidarium.web.Json;

/**
 * The readings of one message, in the order in which they stand in it.
 *
 * @param repeated whether the same message was sent before
 */
record Parcel(SensorId sensor, List<Reading> readings, boolean repeated) {
  @JsonInclude(JsonInclude.Include.NON_NULL)
  private record Entry(
      @Nullable Double temperature,
      @Nullable Double humidity,
      @Nullable Double light,
      @Nullable Double battery,
      Instant at) {
    static Entry of(Reading reading) {
      return new Entry(
          reading.temperatureC(),
          reading.humidityPercent(),
          reading.illuminanceLux(),
          reading.batteryV(),
          reading.at());
    }
  }

  Parcel {
    readings = List.copyOf(readings);
  }

  /** An object for one reading, an array for a backlog of them. */
  byte[] payload() {
    List<Entry> entries = readings.stream().map(Entry::of).toList();
    Object value = entries.size() == 1 ? entries.get(0) : entries;
    return Json.write(value).getBytes(StandardCharsets.UTF_8);
  }
}
