package tepidarium.it;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertAll;
import static org.junit.jupiter.api.Assertions.assertEquals;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Real readings of a room, sent over MQTT, against figures of an independent program. */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class OfficeRoomIT {
  private static final String FROM = "2015-02-02T14:19:00Z";
  private static final String TO = "2015-02-04T10:43:00Z";
  private static final double RELATIVE = 1e-6;
  private static final Duration SOON = Duration.ofSeconds(60);

  private RunningService service;
  private Api api;
  private JsonNode expected;

  /** One container gets a message for each row, the other all rows in one message. */
  @BeforeAll
  void sendTheReadings(@TempDir Path folder) throws IOException {
    expected = new ObjectMapper().readTree(resource("expected.json"));
    service = RunningService.embedded(folder);
    api = service.api();
    Grower grower = new Grower(api);
    grower.awaitBroker();
    for (String name : List.of("rows", "backlog")) {
      String id = grower.container(name);
      grower.place(name + "-sensor", id, Instant.parse(FROM));
    }
    List<String> rows = rows();
    assertEquals(expected.get("rows").intValue(), rows.size());
    Publisher publisher = Publisher.to(service.mqttPort());
    publisher.lines("tepidarium/rows-sensor", rows);
    publisher.version5().send("tepidarium/backlog-sensor", "[" + String.join(",", rows) + "]");
    await().atMost(SOON).until(() -> grower.count("stored") == 2L * rows.size());
  }

  @AfterAll
  void stopTheService() {
    service.close();
  }

  private static String resource(String name) throws IOException {
    try (InputStream in =
        Objects.requireNonNull(
            OfficeRoomIT.class.getResourceAsStream("/reference/office-room/" + name), name)) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    }
  }

  /** Each row as a sensor would send it; the times have no zone and are read as UTC. */
  private static List<String> rows() throws IOException {
    List<String> rows = new ArrayList<>();
    for (String line : resource("office-room.csv").lines().skip(1).toList()) {
      String[] cells = line.replace("\"", "").split(",", -1);
      rows.add(
          "{\"at\":\"%sZ\",\"temperature\":%s,\"humidity\":%s,\"light\":%s}"
              .formatted(cells[1].replace(' ', 'T'), cells[2], cells[3], cells[4]));
    }
    return rows;
  }

  private JsonNode ask(String container, String what, String more) {
    return api.get(
        "/api/containers/" + container + "/" + what + "?from=" + FROM + "&to=" + TO + more);
  }

  private static void assertClose(JsonNode expected, JsonNode actual) {
    double value = expected.doubleValue();
    assertEquals(value, actual.doubleValue(), value * RELATIVE);
  }

  @ParameterizedTest
  @ValueSource(strings = {"rows", "backlog"})
  void degreeHoursAgree(String container) {
    assertAll(
        nodes(expected.get("degreeHours"))
            .map(
                line ->
                    () -> {
                      JsonNode ceiling = line.get("ceiling");
                      JsonNode heat =
                          ask(
                              container,
                              "heat",
                              "&base="
                                  + line.get("base")
                                  + (ceiling.isNull() ? "" : "&ceiling=" + ceiling));
                      assertClose(line.get("value"), heat.get("degreeHours"));
                      assertClose(expected.get("coverageHours"), heat.get("coveredHours"));
                      assertEquals(0, heat.get("gapHours").doubleValue());
                    }));
  }

  @ParameterizedTest
  @ValueSource(strings = {"rows", "backlog"})
  void lightEventsAgree(String container) {
    assertAll(
        nodes(expected.get("lightEvents"))
            .map(
                line ->
                    () -> {
                      JsonNode light =
                          ask(
                              container,
                              "light",
                              "&limit="
                                  + line.get("limitLux")
                                  + "&joinSeconds="
                                  + line.get("joinSeconds"));
                      assertEquals(
                          nodes(line.get("events")).map(OfficeRoomIT::event).toList(),
                          nodes(light.get("events")).map(OfficeRoomIT::event).toList());
                    }));
  }

  @ParameterizedTest
  @ValueSource(strings = {"rows", "backlog"})
  void theLightDoseAgrees(String container) {
    JsonNode light = ask(container, "light", "");
    assertClose(expected.get("lightDoseLuxHours"), light.get("doseLuxHours"));
  }

  private static String event(JsonNode event) {
    return event.get("start") + " " + event.get("end") + " " + event.get("peakLux").doubleValue();
  }

  private static Stream<JsonNode> nodes(JsonNode array) {
    return array.valueStream();
  }
}
