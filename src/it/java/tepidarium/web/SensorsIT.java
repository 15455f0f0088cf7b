package tepidarium.web;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.Locale;
import java.util.StringJoiner;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tepidarium.it.Publisher;
import tepidarium.it.RunningService;

/** Sensors over the API: reporting and battery, and changes of placements with their figures. */
class SensorsIT {
  private static final int DAYS = 10;
  private static final Instant NOW = Instant.now().truncatedTo(ChronoUnit.MINUTES);
  private static final Instant START = NOW.minus(Duration.ofDays(DAYS));
  private static final String A = "/api/sensors/a";

  private static RunningService service;
  private static CheckedApi api;
  private static Publisher sensors;

  /** The list before anybody asked for the activity of a sensor. */
  private static JsonNode withoutActivity;

  @BeforeAll
  static void start(@TempDir Path data) {
    service = RunningService.embedded(data);
    api = new CheckedApi(service.url());
    new tepidarium.it.Grower(service.api()).awaitBroker();
    sensors = Publisher.to(service.mqttPort());
    for (String name : new String[] {"Warm", "Cool"}) {
      api.post("/api/containers", "{\"name\":\"" + name + "\",\"kind\":\"jar\",\"base\":15}", 201);
    }
    send("a", 31);
    send("b", 31);
    sensors.send("tepidarium/b", "{\"temperature\":31,\"rssi\":-71,\"firmware\":\"1.4.2\"}");
    await()
        .atMost(Duration.ofSeconds(30))
        .until(
            () -> api.get("/api/health").at("/counts/stored").asInt() == 2 * (DAYS * 96 - 23) + 1);
    withoutActivity =
        await()
            .atMost(Duration.ofSeconds(30))
            .until(() -> api.get("/api/sensors?activity=false"), SensorsIT::isComplete);
  }

  /** Whether the list shows all readings and the status, which other threads pass on later. */
  private static boolean isComplete(JsonNode listed) {
    boolean complete = listed.size() == 2 && listed.at("/1/device/rssi").asInt() == -71;
    for (JsonNode sensor : listed) {
      complete &=
          sensor.path("firstHeard").asText().equals(START.plus(Duration.ofMinutes(15)).toString())
              && !Instant.parse(sensor.path("lastHeard").asText()).isBefore(NOW);
    }
    return complete;
  }

  /** Sensor b with its activity, which is calculated in the background. */
  private static JsonNode withActivity() {
    return await()
        .atMost(Duration.ofSeconds(30))
        .until(() -> api.get("/api/sensors/b"), sensor -> sensor.path("activity").isObject());
  }

  /** A reading every 15 min until now, with a gap of 6 h five days ago and a falling voltage. */
  private static void send(String sensor, double temperatureC) {
    StringJoiner backlog = new StringJoiner(",", "[", "]");
    for (int i = 0; i < DAYS * 96; i++) {
      Instant at = START.plus(Duration.ofMinutes(15L * i + 15));
      if (i > 480 && i < 504) {
        continue;
      }
      backlog.add(
          String.format(
              Locale.ROOT,
              "{\"temperature\":%s,\"battery\":%.3f,\"at\":\"%s\"}",
              temperatureC,
              3.6 + 0.02 * (DAYS - i / 96.0),
              at));
    }
    sensors.send("tepidarium/" + sensor, backlog.toString());
  }

  @AfterAll
  static void stop() {
    service.close();
  }

  private static String move(String container, Instant from) {
    return "{\"container\":"
        + (container == null ? null : '"' + container + '"')
        + ",\"from\":\""
        + from
        + "\"}";
  }

  @Test
  void aSensorTellsHowItReportsAndWhenItsBatteryMayBeEmpty() {
    assertTrue(withoutActivity.at("/1/activity").isNull());
    JsonNode b = withActivity();
    assertEquals(-71, b.at("/device/rssi").asInt());
    assertEquals("1.4.2", b.at("/device/firmware").asText());
    JsonNode activity = b.path("activity");
    assertEquals(900, activity.path("usualIntervalSeconds").asDouble());
    assertEquals(0, activity.path("lateSeconds").asDouble());
    assertFalse(activity.path("late").asBoolean());
    assertEquals(1, activity.at("/gaps/week/count").asInt(), activity.toString());
    assertEquals(6, activity.at("/gaps/week/hours").asDouble(), 0.3);
    JsonNode battery = activity.path("battery");
    // (3.60 − 3.30) V / 0.02 V a day
    assertEquals(15, battery.path("daysLeft").asDouble(), 0.5);
    assertTrue(battery.path("daysLeast").asDouble() <= battery.path("daysLeft").asDouble());
    JsonNode listed = null;
    for (JsonNode one : api.get("/api/sensors")) {
      listed = one.path("sensor").asText().equals("b") ? one : listed;
    }
    assertEquals(battery, listed.at("/activity/battery"));

    String details = "{\"name\":\"Lid\",\"note\":\"Two cells\",\"emptyVolts\":3.5}";
    JsonNode named = api.put("/api/sensors/b/details", details);
    assertEquals("Lid", named.path("name").asText());
    JsonNode recalculated = withActivity();
    assertEquals(5, recalculated.at("/activity/battery/daysLeft").asDouble(), 0.3);
    assertTrue(recalculated.at("/activity/battery/low").asBoolean());
    assertTrue(api.put("/api/sensors/b/details", "{}").path("note").isNull());
  }

  /** One story: its steps need each other, and a service started once is faster. */
  @Test
  void aSensorIsPlacedMovedCorrectedReplacedAndRetired() {
    Instant third = START.plus(Duration.ofDays(2));
    Instant fifth = START.plus(Duration.ofDays(4));
    refused(
        "POST", A + "/move", move("warm", START.minusSeconds(3_600)), "before the first reading");
    JsonNode placed = api.post(A + "/move", move("warm", third), 200);
    JsonNode warm = placed.at("/containers/0");
    assertTrue(warm.path("before").isNull());
    double all = warm.at("/after/degreeHours").asDouble();
    assertEquals((31 - 15) * warm.at("/after/coveredHours").asDouble(), all, 1);
    assertEquals(1, warm.at("/after/shareInBand").asDouble(), 1e-9);
    refused("POST", A + "/move", move("cool", third.minusSeconds(60)), "overlaps");

    JsonNode moved = api.post(A + "/move", move("cool", fifth), 200);
    assertEquals(2, moved.path("containers").size());
    assertEquals(all, moved.at("/containers/0/before/degreeHours").asDouble(), 1e-6);
    assertEquals(2 * 24 * 16, moved.at("/containers/0/after/degreeHours").asDouble(), 5);
    assertEquals(
        api.get("/api/containers/cool/heat").path("degreeHours").asDouble(),
        moved.at("/containers/1/after/degreeHours").asDouble(),
        1e-6);

    String overlapping =
        "{\"placements\":["
            + "{\"container\":\"warm\",\"from\":\""
            + third
            + "\",\"until\":\""
            + fifth.plusSeconds(1)
            + "\"},{\"container\":\"cool\",\"from\":\""
            + fifth
            + "\"}]}";
    refused("PUT", A + "/placements", overlapping, "End that placement at or before this time");
    JsonNode joined =
        api.put(
            A + "/placements",
            "{\"placements\":[{\"container\":\"warm\",\"from\":\"" + third + "\"}]}");
    assertEquals(all, joined.at("/containers/0/after/degreeHours").asDouble(), 1e-6);
    assertTrue(joined.at("/containers/1/after").isNull());

    refused("POST", A + "/replace", "{\"by\":\"a\"}", "the same sensor");
    refused("POST", A + "/replace", "{}", "by is missing");
    api.call("POST", A + "/replace", "{\"by\":\"nobody\"}", 404);
    JsonNode replaced = api.post(A + "/replace", "{\"by\":\"b\",\"from\":\"" + fifth + "\"}", 200);
    assertEquals(fifth.toString(), replaced.at("/sensor/retired").asText());
    assertEquals("warm", replaced.at("/others/0/placements/0/container").asText());
    // The new sensor measured the same, so the heat of the container goes on without a change.
    assertEquals(all, replaced.at("/containers/0/after/degreeHours").asDouble(), 16);
    assertEquals("b", api.get("/api/containers/warm").at("/sensors/0").asText());

    assertTrue(api.call("POST", A + "/unretire", null, 200).json().at("/sensor/retired").isNull());
    JsonNode retired = api.post("/api/sensors/b/retire", "{}", 200);
    assertTrue(retired.at("/sensor/placements/0/until").isTextual());
    assertEquals(0, api.get("/api/containers/warm").path("sensors").size());
    assertTrue(
        api.post("/api/sensors/b/move", "{\"container\":\"room\"}", 200)
            .at("/sensor/retired")
            .isNull());
  }

  private static void refused(String method, String path, String body, String words) {
    String detail = api.call(method, path, body, 400).json().path("detail").asText();
    assertTrue(detail.contains(words), detail);
  }
}
