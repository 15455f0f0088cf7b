package tepidarium.series;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Objects;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tepidarium.heat.DegreeHours;
import tepidarium.heat.HeatRule;
import tepidarium.it.Influx;
import tepidarium.reading.Quantity;
import tepidarium.reading.Reading;
import tepidarium.reading.Readings;
import tepidarium.reading.Samples;
import tepidarium.reading.SensorId;
import tepidarium.reading.Span;
import tepidarium.series.influx.InfluxReadings;

/** Compares figures from real room readings in InfluxDB with those of an independent program. */
class InfluxOfficeRoomIT {
  private static final SensorId SENSOR = new SensorId("room");
  private static final Duration HALF_HOUR = Duration.ofMinutes(30);

  private static String resource(String name) throws IOException {
    try (InputStream in =
        Objects.requireNonNull(
            InfluxOfficeRoomIT.class.getResourceAsStream("/reference/office-room/" + name), name)) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    }
  }

  /** A row; its time has no zone and is read as UTC. */
  private static Reading reading(String row) {
    String[] cells = row.replace("\"", "").split(",", -1);
    return Readings.ofAir(
        SENSOR,
        Instant.parse(cells[1].replace(' ', 'T') + "Z"),
        Double.valueOf(cells[2]),
        Double.valueOf(cells[3]),
        Double.valueOf(cells[4]),
        null);
  }

  @Test
  void degreeHoursAgree(@TempDir Path folder) throws IOException {
    JsonNode expected = new ObjectMapper().readTree(resource("expected.json"));
    List<Reading> readings =
        resource("office-room.csv").lines().skip(1).map(InfluxOfficeRoomIT::reading).toList();
    try (Influx influx = Influx.started(folder);
        InfluxReadings store = new InfluxReadings(influx.address("room"))) {
      assertEquals(new WriteResult(readings.size(), 0), store.write(readings));
      Span all = Span.ofMillis(0, Long.MAX_VALUE);
      Samples samples = store.read(SENSOR, all).getOrDefault(Quantity.TEMPERATURE, Samples.EMPTY);
      Span span = Span.ofMillis(samples.firstMs(), samples.lastMs());

      assertTrue(expected.get("degreeHours").size() > 0);
      for (JsonNode line : expected.get("degreeHours")) {
        JsonNode ceiling = line.get("ceiling");
        HeatRule rule =
            new HeatRule(
                line.get("base").doubleValue(), ceiling.isNumber() ? ceiling.doubleValue() : null);
        double value = line.get("value").doubleValue();
        double found = DegreeHours.of(samples, span, rule, HALF_HOUR).degreeHours();
        assertEquals(value, found, value * 1e-6, line::toString);
      }
    }
  }
}
