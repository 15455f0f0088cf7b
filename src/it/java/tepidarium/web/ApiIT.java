package tepidarium.web;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.net.http.HttpResponse;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.MethodOrderer;
import org.junit.jupiter.api.Order;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestMethodOrder;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;
import tepidarium.it.RunningService;
import tepidarium.web.ApiDocument.Operation;

/**
 * The running service against its own description: every call goes through {@link CheckedApi}, and
 * the last test finds out what was described but never answered.
 */
@TestMethodOrder(MethodOrderer.OrderAnnotation.class)
class ApiIT {
  private static final String JAR = "/api/containers/jar-1";

  private static RunningService service;
  private static CheckedApi api;
  private static Grower grower;

  @BeforeAll
  static void setUpAShelf(@TempDir Path data) {
    service = RunningService.embedded(data);
    api = new CheckedApi(service.url());
    grower = new Grower(api, service.mqttPort());
    grower.setUpShelf();
  }

  @AfterAll
  static void stop() {
    grower.close();
    service.close();
  }

  @Test
  void aContainerIsAddedChangedAndForgotten() {
    CheckedApi.Answer added =
        api.call("POST", "/api/containers", "{\"name\":\"Säcke & Co\",\"kind\":\"bag\"}", 201);
    assertEquals("sacke-co", added.json().path("id").asText());
    assertEquals("/api/containers/sacke-co", added.header("location"));
    assertEquals(15, added.json().path("base").asDouble());
    assertEquals(29.5, added.json().at("/band/temperature/low").asDouble());

    JsonNode changed =
        api.put(
            "/api/containers/sacke-co",
            "{\"name\":\"Bag\",\"kind\":\"bag\",\"heatSource\":\"closet\",\"base\":12,"
                + "\"ceiling\":35,\"band\":{\"temperature\":{\"low\":28,\"high\":33},"
                + "\"light\":{\"high\":5},\"humidity\":{\"low\":60}}}");
    assertEquals("sacke-co", changed.path("id").asText());
    assertEquals(changed, api.get("/api/containers/sacke-co"));
    assertEquals(35, changed.path("ceiling").asDouble());

    api.call("DELETE", "/api/containers/sacke-co", null, 204);
    api.call("GET", "/api/containers/sacke-co", null, 404);
  }

  @Test
  void aContainerShowsItsSensorsValuesLimitsAlertsAndHeat() {
    JsonNode jar = api.get(JAR);
    assertEquals(Grower.SENSOR, jar.path("sensors").path(0).asText());
    assertEquals("alert", jar.at("/limits/cold").asText());
    assertEquals("inside", jar.at("/limits/hot").asText());
    assertEquals(3.9, jar.at("/latest/battery/value").asDouble());
    assertTrue(jar.path("alerts").size() >= 2);
    assertTrue(jar.at("/heat/degreeHours").asDouble() > 0);
    JsonNode all = api.get("/api/containers");
    assertEquals("jar-1", all.path(0).path("id").asText());
    assertTrue(api.get("/api/containers/empty-tray").path("heat").isNull());
  }

  @Test
  void readingsAreThinnedInColumnsAndAGapIsNull() {
    String span = "?from=" + grower.ago(160) + "&to=" + grower.ago(0) + "&points=8";
    JsonNode readings = api.get(JAR + "/readings" + span);
    JsonNode temperature = readings.path("temperature");
    int points = temperature.path("at").size();
    int gaps = 0;
    for (int i = 0; i < points; i++) {
      gaps += temperature.path("mean").path(i).isNull() ? 1 : 0;
      assertTrue(
          i == 0
              || Instant.parse(temperature.path("at").path(i).asText())
                  .isAfter(Instant.parse(temperature.path("at").path(i - 1).asText())));
    }
    assertEquals(1, gaps);
    for (String column : List.of("min", "max", "mean")) {
      assertEquals(points, temperature.path(column).size());
    }
    assertEquals(grower.ago(160).toString(), readings.path("from").asText());
    assertTrue(api.get("/api/room").at("/temperature/at").size() >= 1);
  }

  @Test
  void heatByDayAddsUpToTheWhole() {
    JsonNode heat = api.get(JAR + "/heat?base=10&ceiling=30");
    double sum = 0;
    for (JsonNode day : heat.path("byDay")) {
      sum += day.path("degreeHours").asDouble();
    }
    assertEquals(heat.path("degreeHours").asDouble(), sum, 1e-9);
    assertTrue(sum > 0);
    assertTrue(heat.path("upper").asDouble() > heat.path("degreeHours").asDouble());
    assertEquals(30, heat.path("ceiling").asDouble());
    assertTrue(api.get(JAR + "/heat").path("ceiling").isNull());
  }

  @Test
  void lightThatNobodyAnnouncedIsALeakAndOtherwiseAnOpening() {
    JsonNode leak = api.get(JAR + "/light?limit=5&joinSeconds=60&to=" + grower.ago(10));
    assertEquals(1, leak.path("events").size());
    assertEquals("leak", leak.at("/events/0/kind").asText());
    assertEquals(60, leak.at("/events/0/peakLux").asDouble());

    JsonNode opening = api.post("/api/containers/jar-1/openings", "{\"minutes\":5}", 201);
    assertEquals(opening, api.get(JAR + "/openings").path(0));
    assertEquals(opening.path("until"), api.get(JAR).at("/opening/until"));
    grower.publish(Grower.SENSOR, "{\"light\":200}");
    await()
        .atMost(Duration.ofSeconds(10))
        .until(() -> api.get(JAR + "/light").at("/events/1/kind").asText().equals("opening"));
  }

  @Test
  void aContainerWithoutASensorCanBeOpenedToo() {
    api.post("/api/containers/empty-tray/openings", "{}", 201);
    String later = "?to=" + Instant.now().plusSeconds(60);
    assertEquals(1, api.get("/api/containers/empty-tray/openings" + later).size());
    String before = "?from=" + grower.ago(60) + "&to=" + grower.ago(50);
    assertEquals(0, api.get("/api/containers/empty-tray/openings" + before).size());
  }

  @Test
  void theBandTellsEveryExcursion() {
    JsonNode band = api.get(JAR + "/band?from=" + grower.ago(150) + "&to=" + grower.ago(2));
    Set<String> kinds = new TreeSet<>();
    for (JsonNode excursion : band.path("excursions")) {
      kinds.add(excursion.path("kind").asText());
      boolean cold = excursion.path("kind").asText().equals("cold");
      assertEquals(cold, excursion.path("degreeHoursLost").isNumber());
    }
    assertEquals(Set.of("cold", "dry", "light"), kinds);
    assertEquals(1, band.at("/limits/hot/fractionInside").asDouble());
    assertTrue(
        api.get("/api/containers/empty-tray/band").at("/limits/hot/fractionInside").isNull());
  }

  @Test
  void aSensorIsPlacedMovedAndCalibrated() {
    String spare = "/api/sensors/" + Grower.SPARE;
    assertEquals(0, api.get(spare).path("placements").size());
    String there = "{\"container\":\"empty-tray\",\"until\":\"" + grower.ago(-60) + "\"}";
    assertEquals(1, api.put(spare + "/placement", there).path("placements").size());
    JsonNode moved = api.put(spare + "/placement", "{\"container\":null}");
    assertEquals(moved, api.get(spare));
    JsonNode calibrated =
        api.put(spare + "/calibration", "{\"temperatureOffset\":-0.4,\"humidityOffset\":2}");
    assertEquals(-0.4, calibrated.at("/calibration/temperatureOffset").asDouble());
    assertEquals(0.5, calibrated.at("/calibration/temperatureError").asDouble());
  }

  @Test
  void aRoomSensorIsListedBeforeItIsHeard() {
    String body = "{\"container\":\"room\",\"from\":\"2026-03-01T06:00:00+01:00\"}";
    JsonNode placed = api.put("/api/sensors/not-heard/placement", body);
    assertEquals("2026-03-01T05:00:00Z", placed.at("/placements/0/from").asText());
    assertTrue(api.get("/api/sensors").findValuesAsText("sensor").contains("not-heard"));
  }

  @Test
  void alertsAreAcknowledgedAndShelved() {
    JsonNode cold = grower.alert("cold");
    assertEquals(24, cold.path("worst").asDouble());
    assertEquals("°C", cold.path("unit").asText());
    String path = "/api/alerts/" + cold.path("id").asInt();
    JsonNode seen = api.post(path + "/acknowledge", "{\"by\":\"Ida\"}", 200);
    assertEquals("Ida", seen.path("acknowledgedBy").asText());
    JsonNode aside = api.post(path + "/shelve", "{\"minutes\":0.5}", 200);
    assertTrue(aside.path("shelvedUntil").isTextual());
    assertFalse(api.get("/api/alerts").findValuesAsText("kind").contains("cold"));
    assertTrue(api.get("/api/alerts?state=shelved").findValuesAsText("kind").contains("cold"));
    assertTrue(api.get("/api/alerts?state=active").findValuesAsText("kind").contains("cold"));
    assertEquals(List.of("light"), returned());
    assertEquals(3, api.get("/api/alerts?state=all").size());
  }

  private static List<String> returned() {
    return api.get("/api/alerts?state=returned").findValuesAsText("kind");
  }

  @Test
  void theServiceTellsHowItIsAndHowToReachIt() {
    JsonNode health = api.get("/api/health");
    assertEquals("up", health.path("status").asText());
    JsonNode counts = health.path("counts");
    assertEquals(
        counts.path("received").asInt(),
        counts.path("stored").asInt()
            + counts.path("repeated").asInt()
            + counts.path("rejected").asInt()
            + counts.path("waiting").asInt());
    assertEquals(service.mqttPort(), api.get("/api/setup").at("/mqtt/port").asInt());
    JsonNode rejects = api.get("/api/rejects?limit=1");
    assertTrue(rejects.at("/rejects/0/reason").asText().contains("warm"));
    assertEquals(api.document().root(), api.get("/api/openapi.json"));
  }

  @Test
  void metricsAreOpenMetricsText() {
    CheckedApi.Answer metrics = api.call("GET", "/metrics", null, 200);
    assertTrue(metrics.header("content-type").contains("version=1.0.0"));
    List<String> lines = metrics.text().lines().toList();
    assertEquals("# EOF", lines.get(lines.size() - 1));
    Set<String> names = new TreeSet<>();
    String described = "";
    for (String line : lines.subList(0, lines.size() - 1)) {
      if (line.startsWith("# TYPE ")) {
        described = line.split(" ", -1)[2] + (line.endsWith(" counter") ? "_total" : "");
      } else if (!line.startsWith("# HELP ")) {
        assertTrue(line.matches(described + "(\\{\\w+=\"\\w+\"})? \\d+"), line);
        names.add(described);
      }
    }
    assertEquals(7, names.size(), names.toString());
    String text = api.document().details(new Operation("GET", "/metrics")).toString();
    names.forEach(name -> assertTrue(text.contains(name), name + " is not described"));
  }

  @Test
  void theLiveStreamTellsOfAContainerAfterAReading() {
    Operation live = new Operation("GET", "/api/live");
    try (LiveEvents stream = LiveEvents.open(service.url())) {
      await().atMost(Duration.ofSeconds(10)).until(() -> stream.has("hello", "time"));
      grower.publish(Grower.SENSOR, "{\"temperature\":26.75}");
      String dry = "/api/alerts/" + grower.alert("dry").path("id").asInt();
      api.post(dry + "/acknowledge", "{}", 200);
      await()
          .atMost(Duration.ofSeconds(10))
          .until(
              () ->
                  stream.has("container", "26.75")
                      && stream.has("sensor", "26.75")
                      && stream.has("alert", "\"acknowledged\":true"));
      api.check(live, stream.status(), stream.type(), "");
      for (LiveEvents.Event event : stream.events()) {
        List<String> faults = api.document().faultsOfEvent(live, event.name(), event.data());
        assertEquals(List.of(), faults, event.data());
      }
    }
    assertTrue(api.call("GET", "/api/live", null, 406).text().contains("text/event-stream"));
  }

  @Test
  void aSeasonIsWrittenDown() {
    new SeedSeason(api, grower).run();
  }

  @Test
  void sumsAreThoseOfThePublishedChecks() {
    SumsChecks checks = new SumsChecks(api);
    checks.fractions();
    checks.differences();
    checks.seedsNeeded();
    checks.fits();
    checks.dishes();
    checks.air();
  }

  @ParameterizedTest
  @MethodSource("tepidarium.web.Refusal#all")
  void whatMakesNoSenseIsRefusedByName(Refusal refusal) {
    CheckedApi.Answer answer =
        api.call(refusal.method(), refusal.path(), refusal.body(), refusal.status());
    String detail = answer.json().path("detail").asText();
    assertTrue(detail.contains(refusal.word()), detail);
    assertEquals(refusal.status(), answer.json().path("status").asInt());
  }

  @ParameterizedTest
  @ValueSource(strings = {"cross-site", "same-site"})
  void aPageOfAnotherSiteMayChangeNothing(String site) {
    Map<String, String> foreign = Map.of("Sec-Fetch-Site", site);
    int changes = 0;
    for (Operation operation : api.document().operations()) {
      if (!operation.method().equals("GET")) {
        String detail =
            api.call(operation.method(), concrete(operation), "{}", foreign, 403)
                .json()
                .path("detail")
                .asText();
        assertTrue(detail.contains("this service's own pages"), detail);
        changes++;
      }
    }
    assertTrue(changes > 0);
    api.call("GET", "/api/containers", null, foreign, 200);
  }

  @Test
  void aHugeBodyIsRefusedUnread() {
    for (Operation operation : api.document().operations()) {
      if (api.document().details(operation).has("requestBody")) {
        RawHttp answer =
            RawHttp.send(
                service.url(),
                operation.method() + ' ' + concrete(operation) + " HTTP/1.1",
                "Content-Length: 3000000");
        assertEquals(413, answer.status());
        api.check(operation, answer.status(), answer.type(), answer.body());
        assertTrue(answer.body().contains("1048576 bytes"), answer.body());
      }
    }
  }

  private static String concrete(Operation operation) {
    return operation
        .path()
        .replace("{id}", "jar-1")
        .replace("{sensor}", Grower.SENSOR)
        .replace("{alert}", "1")
        .replace("{species}", "cacao")
        .replace("{lot}", "1")
        .replace("{sowing}", "1")
        .replace("{group}", "1-1")
        .replace("{entry}", "00000000-0000-0000-0000-000000000001")
        .replace("{table}", "lots");
  }

  @Test
  void whatIsNotThereOrCannotBeReadIsAProblemToo() {
    problem(api.send("GET", "/api/nothing", null, Map.of()), 404, "/api/nothing");
    problem(api.send("POST", "/api/nothing", "{}", Map.of()), 404, "/api/nothing");
    HttpResponse<String> wrongMethod = api.send("PATCH", JAR, "{}", Map.of());
    problem(wrongMethod, 405, "PATCH");
    String allowed = wrongMethod.headers().firstValue("allow").orElse("");
    assertEquals(Set.of("GET", "PUT", "DELETE"), Set.of(allowed.split(", ", -1)));
    RawHttp unreadable = RawHttp.send(service.url(), "GET /api/containers/%zz HTTP/1.1");
    assertEquals(400, unreadable.status());
    assertEquals("application/problem+json", unreadable.type());
    assertProblem(unreadable.body(), "cannot be read");
  }

  private static void problem(HttpResponse<String> answer, int status, String word) {
    assertEquals(status, answer.statusCode());
    assertEquals(
        "application/problem+json", answer.headers().firstValue("content-type").orElse(""));
    assertProblem(answer.body(), word);
  }

  private static void assertProblem(String body, String word) {
    JsonNode schema = api.document().root().at("/components/schemas/Problem");
    assertEquals(List.of(), api.document().faults(schema, ApiDocument.json(body)));
    assertTrue(body.contains(word), body);
  }

  /** Runs last: it looks back at what the others were answered. */
  @Test
  @Order(Integer.MAX_VALUE)
  void everythingThatIsDescribedWasAnswered() {
    Set<String> unheard = new TreeSet<>(api.described());
    unheard.removeAll(api.answered());
    assertEquals(Set.of(), unheard);
  }
}
