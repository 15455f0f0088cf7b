package tepidarium;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.DynamicTest.dynamicTest;
import static tepidarium.reading.SampleRecords.HALF_HOUR;
import static tepidarium.reading.SampleRecords.whole;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDateTime;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Objects;
import java.util.stream.Stream;
import java.util.stream.StreamSupport;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import tepidarium.heat.DegreeHours;
import tepidarium.heat.HeatRule;
import tepidarium.heat.HeatSum;
import tepidarium.light.LightDose;
import tepidarium.light.LightEvent;
import tepidarium.light.LightEvents;
import tepidarium.reading.Samples;

/**
 * Real readings of a room against values an independent program computed from them. Source and
 * licence of the data stand in the README beside them.
 */
public class OfficeRoomTest {
  private static final double RELATIVE = 1e-6;
  private static final JsonNode EXPECTED = CheckCase.json("office-room/expected.json");
  private static final Samples TEMPERATURE = column(2);
  private static final Samples LIGHT = column(4);

  /** Its light, lux. */
  public static Samples light() {
    return LIGHT;
  }

  @TestFactory
  Stream<DynamicTest> degreeHours() {
    return each(EXPECTED.path("degreeHours"))
        .map(expected -> dynamicTest("degree-hours " + expected, () -> degreeHoursAgree(expected)));
  }

  private static void degreeHoursAgree(JsonNode expected) {
    JsonNode ceiling = expected.path("ceiling");
    HeatRule rule =
        new HeatRule(
            expected.path("base").asDouble(), ceiling.isNumber() ? ceiling.asDouble() : null);
    HeatSum sum = DegreeHours.of(TEMPERATURE, whole(TEMPERATURE), rule, HALF_HOUR);
    double value = expected.path("value").asDouble();
    assertEquals(value, sum.degreeHours(), value * RELATIVE);
    assertEquals(EXPECTED.path("coverageHours").asDouble(), sum.coveredHours(), RELATIVE);
    assertEquals(0, sum.gapMs());
  }

  private record Event(String start, String end, double peakLux) {
    static Event of(JsonNode node) {
      return new Event(
          node.path("start").asText(), node.path("end").asText(), node.path("peakLux").asDouble());
    }

    static Event of(LightEvent event) {
      return new Event(event.start().toString(), Objects.toString(event.end()), event.peakLux());
    }
  }

  @TestFactory
  Stream<DynamicTest> lightEvents() {
    return each(EXPECTED.path("lightEvents"))
        .map(
            expected ->
                dynamicTest(
                    "events above " + expected.path("limitLux") + " lux",
                    () -> lightEventsAgree(expected)));
  }

  private static void lightEventsAgree(JsonNode expected) {
    List<LightEvent> events =
        LightEvents.of(
            LIGHT,
            expected.path("limitLux").asDouble(),
            HALF_HOUR,
            Duration.ofSeconds(expected.path("joinSeconds").asInt()));
    assertEquals(
        each(expected.path("events")).map(Event::of).toList(),
        events.stream().map(Event::of).toList());
  }

  @Test
  void lightDose() {
    double expected = EXPECTED.path("lightDoseLuxHours").asDouble();
    LightDose dose = LightDose.of(LIGHT, whole(LIGHT), HALF_HOUR);
    assertEquals(expected, dose.luxHours(), expected * RELATIVE);
  }

  @Test
  void everyRowIsRead() {
    assertEquals(EXPECTED.path("rows").asInt(), TEMPERATURE.size());
    assertEquals(EXPECTED.path("rows").asInt(), LIGHT.size());
  }

  private static Stream<JsonNode> each(JsonNode array) {
    return StreamSupport.stream(array.spliterator(), false);
  }

  /** One column of the file by its place in a row: number, time, temperature, humidity, light. */
  private static Samples column(int index) {
    Samples.Builder builder = new Samples.Builder(4096);
    try (BufferedReader rows =
        new BufferedReader(
            new InputStreamReader(
                OfficeRoomTest.class.getResourceAsStream("/reference/office-room/office-room.csv"),
                StandardCharsets.UTF_8))) {
      rows.lines()
          .skip(1)
          .map(row -> row.replace("\"", "").split(",", -1))
          .forEach(row -> builder.add(utc(row[1]).toEpochMilli(), Double.parseDouble(row[index])));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return builder.build();
  }

  private static Instant utc(String text) {
    return LocalDateTime.parse(text.replace(' ', 'T')).toInstant(ZoneOffset.UTC);
  }
}
