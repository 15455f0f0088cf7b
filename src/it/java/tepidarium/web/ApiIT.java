package tepidarium.web;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.net.Socket;
import java.net.URI;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
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
import tepidarium.it.Publisher;
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
  void aPartOfTheContainersIsSearchedAndSorted() {
    for (int i = 1; i <= 3; i++) {
      String room = i == 2 ? "Part A" : "Part B";
      api.post(
          "/api/containers",
          "{\"name\":\"Part %d\",\"kind\":\"box\",\"room\":\"%s\"}".formatted(4 - i, room),
          201);
    }
    assertTrue(api.get("/api/containers").isArray());

    String names = "/api/containers?limit=2&sort=name&search=PART";
    JsonNode first = api.get(names);
    assertEquals(3, first.path("matching").asInt());
    assertEquals(api.get("/api/containers").size(), first.path("total").asInt());
    assertEquals(List.of("Part 1", "Part 2"), names(first));
    assertEquals(List.of("Part 3"), names(api.get(names + "&offset=2")));
    assertEquals(List.of("Part 2"), names(api.get(names + "&room=Part+A")));
    assertEquals(
        List.of("Part 3", "Part 2"), names(api.get("/api/containers?limit=2&search=part")));
    api.call("GET", "/api/containers?limit=0", null, 400);
    api.call("GET", "/api/containers?limit=1&sort=size", null, 400);
  }

  private static List<String> names(JsonNode part) {
    List<String> names = new ArrayList<>();
    part.path("containers").forEach(container -> names.add(container.path("name").asText()));
    return names;
  }

  @Test
  void aChangeThatDoesNotNameTheRoomKeepsIt() {
    api.post("/api/containers", "{\"name\":\"Jar\",\"kind\":\"jar\",\"room\":\" Bench 2 \"}", 201);
    assertEquals("Bench 2", api.get("/api/containers/jar").path("room").asText());

    assertTrue(
        api.get("/api/rooms").toString().contains("{\"name\":\"Bench 2\",\"containers\":1}"));

    String withoutRoom = "{\"name\":\"Jar\",\"kind\":\"jar\"}";
    assertEquals("Bench 2", api.put("/api/containers/jar", withoutRoom).path("room").asText());

    JsonNode moved =
        api.put("/api/containers/jar", "{\"name\":\"Jar\",\"kind\":\"jar\",\"room\":\"\"}");
    assertTrue(moved.path("room").isNull());
    assertTrue(api.put("/api/containers/jar", withoutRoom).path("room").isNull());
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
  void aFewHoursGiveNoVerdictOnHeatSourcesOrPlaces() {
    JsonNode compared = api.get("/api/compare/heat?containers=jar-1,empty-tray");
    assertEquals("cannot-tell", compared.at("/pairs/0/finding").asText());
    assertTrue(compared.at("/compared/1/measures/degreeHoursPerDay").isNull());
    JsonNode trial = api.get(JAR + "/trial");
    assertEquals("too-short", trial.path("outcome").asText());
    assertTrue(trial.path("rise").isNull());
  }

  @Test
  void unannouncedLightIsALeakAndAnnouncedLightAnOpening() {
    JsonNode leak = api.get(JAR + "/light?limit=5&joinSeconds=60&to=" + grower.ago(10));
    assertEquals(1, leak.path("events").size());
    assertEquals("other", leak.at("/events/0/kind").asText());
    assertTrue(leak.at("/events/0/advice").asText().contains("site"));
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
  void oneAnswerHasAllThatTheChartsOfContainersShow() {
    String span = "?from=" + grower.ago(150) + "&to=" + grower.ago(2);
    JsonNode charts = api.get("/api/charts" + span + "&points=40&containers=empty-tray,jar-1");
    assertEquals(2, charts.size());
    for (JsonNode chart : charts) {
      String path = "/api/containers/" + chart.path("container").asText();
      for (String part : List.of("light", "band", "openings", "events", "faults")) {
        assertEquals(api.get(path + '/' + part + span), chart.path(part), part);
      }
      assertEquals(api.get(path + "/readings" + span + "&points=40"), chart.path("readings"));
      JsonNode heat = api.get(path + "/heat");
      assertEquals(heat.path("base"), chart.at("/heat/base"));
      assertEquals(heat.path("byDay").size(), chart.at("/heat/byDay").size());
    }
    assertEquals("jar-1", charts.at("/1/container").asText());
    assertTrue(charts.at("/1/readings/temperature/at").size() > 10);
    api.call("GET", "/api/charts?containers=jar-1,attic", null, 404);
  }

  @Test
  void aRefusalNamesTheRuleWithItsFigures() {
    JsonNode low = api.call("GET", JAR + "/heat?base=-300", null, 400).json();
    assertEquals("range", low.path("rule").asText());
    assertEquals(-20, low.at("/figures/least").asDouble());
    assertEquals("°C", low.at("/figures/unit").asText());
    JsonNode higher = api.call("GET", JAR + "/heat?base=30&ceiling=20", null, 400).json();
    assertEquals("higher", higher.path("rule").asText());
    assertEquals(30, higher.at("/figures/than").asDouble());
    JsonNode other = api.call("GET", "/api/sensors?activity=yes", null, 400).json();
    assertTrue(other.path("rule").isMissingNode(), other.toString());
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
  void anOpeningThatNobodyRecordedIsSuggestedThenConfirmedOrDeclined() {
    grower.peekTwice("peeked-at", "peek");
    String openings = "/api/containers/peeked-at/openings";
    String suggested = openings + "/suggested";
    await().atMost(Duration.ofSeconds(30)).until(() -> api.get(suggested).size() == 2);
    JsonNode first = api.get(suggested).path(0);
    assertEquals(grower.ago(175).toString(), first.path("from").asText());
    assertEquals(-3, first.path("temperatureChange").asDouble(), 0.01);
    assertTrue(first.path("reason").asText().contains("3.0 °C"), first.toString());

    String stretch = "{\"from\":%s,\"until\":%s}";
    JsonNode confirmed =
        api.post(openings, stretch.formatted(first.path("from"), first.path("until")), 201);
    assertEquals(first.path("until"), confirmed.path("until"));
    JsonNode second = api.get(suggested);
    assertEquals(1, second.size());
    assertEquals(grower.ago(100).toString(), second.at("/0/from").asText());
    String none = stretch.formatted(second.at("/0/from"), second.at("/0/until"));
    api.call("POST", suggested + "/decline", none, 204);
    assertEquals(0, api.get(suggested).size());
    assertEquals(1, api.get(openings).size());
  }

  @Test
  void alertsAreCountedByContainerAndKind() {
    String span = "?from=" + grower.ago(160) + "&to=" + grower.ago(-30);
    JsonNode told = api.get("/api/alerts/performance" + span);
    assertEquals(3, told.path("raised").asInt(), told.toString());
    assertEquals(
        Set.of("cold", "dry", "light"),
        new TreeSet<>(told.path("groups").findValuesAsText("kind")));
    assertEquals("Jar 1", told.at("/groups/0/containerName").asText());
    assertEquals(3 / (190 / 1_440.0), told.path("perDay").asDouble(), 1e-6);
    assertTrue(told.at("/groups/0/hint").isNull());
    assertTrue(api.get("/api/alerts/performance").path("raised").asInt() >= 3);
  }

  @Test
  void theBandListsEveryExcursion() {
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
  void whatPeopleDidWithAContainerIsListed() {
    JsonNode events = api.get(JAR + "/events?from=" + grower.ago(201)).path("events");
    assertEquals("placed", events.at("/0/kind").asText());
    assertEquals(Grower.SENSOR, events.at("/0/sensor").asText());
    assertEquals(grower.ago(200).toString(), events.at("/0/at").asText());
    JsonNode later = api.get(JAR + "/events?from=" + grower.ago(199)).path("events");
    assertFalse(later.findValuesAsText("sensor").contains(Grower.SENSOR));
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

  /** What the changes do is tested in {@link SensorsIT}. */
  @Test
  void changesOfASensorAreAnsweredAsDescribed() {
    String lying = "/api/sensors/lies-about";
    grower.publish("lies-about", "{\"temperature\":21,\"rssi\":-61,\"firmware\":\"1.4\"}");
    await()
        .atMost(Duration.ofSeconds(10))
        .until(() -> api.get("/api/sensors").findValuesAsText("sensor").contains("lies-about"));
    api.put(lying + "/details", "{\"name\":\"Lid\"}");
    api.post(lying + "/move", "{\"container\":\"room\"}", 200);
    api.post(lying + "/replace", "{\"by\":\"" + Grower.SPARE + "\"}", 200);
    api.call("POST", lying + "/unretire", null, 200);
    api.post(lying + "/retire", "{}", 200);
    api.put(lying + "/placements", "{\"placements\":[]}");
    api.put("/api/sensors/" + Grower.SPARE + "/placements", "{\"placements\":[]}");
    api.call("PUT", lying + "/details", "{\"emptyVolts\":0}", 400);
    api.call("PUT", lying + "/placements", "{}", 400);
    for (String change : List.of("move", "retire", "replace", "unretire")) {
      String body = change.equals("unretire") ? null : "{\"from\":\"noon\"}";
      api.call("POST", "/api/sensors/no%20space/" + change, body, 400);
      api.call("POST", "/api/sensors/no-such/" + change, body, 404);
    }
    api.call("PUT", "/api/sensors/no-such/details", "{}", 404);
    api.call("PUT", "/api/sensors/no-such/placements", "{}", 404);
  }

  @Test
  void aSensorIsCalibratedByPoints() {
    String points = "/api/sensors/" + Grower.SPARE + "/calibration-points";
    assertEquals(0, api.get(points).path("points").size());
    String warm =
        "{\"quantity\":\"temperature\",\"reading\":21,\"trueValue\":20.7,\"uncertainty\":0.05,"
            + "\"method\":\"comparison\",\"note\":\"beside the reference\"}";
    JsonNode added = api.post(points, warm, 201);
    JsonNode now = added.at("/corrections/0/now");
    assertEquals(1, now.path("gain").asDouble(), 1e-9);
    assertEquals(-0.3, now.path("offset").asDouble(), 1e-9);
    assertEquals(20.7, now.path("corrected").asDouble(), 1e-9);
    // √(0.05² + 2 · 0.1² / 12), the newest reading being that of the point.
    assertEquals(0.064550, now.path("uncertainty").asDouble(), 1e-5);
    JsonNode sensor = api.get("/api/sensors/" + Grower.SPARE);
    assertEquals(20.7, sensor.at("/corrected/temperature").asDouble(), 1e-9);
    assertEquals(21, sensor.at("/latest/temperature/value").asDouble(), 1e-9);

    String ice = "{\"quantity\":\"temperature\",\"reading\":0.3,\"method\":\"icePoint\"}";
    JsonNode two = api.post(points, ice, 201);
    assertEquals(0.1 / Math.sqrt(3), two.at("/points/1/uncertainty").asDouble(), 1e-9);
    assertEquals(20.7 / 20.7, two.at("/corrections/0/now/gain").asDouble(), 1e-9);
    String again = api.call("POST", points, ice, 400).text();
    assertTrue(again.contains("remove the first"), again);
    String salt =
        "{\"quantity\":\"humidity\",\"reading\":77.1,\"method\":\"saturatedSalt\","
            + "\"salt\":\"sodiumChloride\",\"saltTemperature\":25}";
    assertEquals(75.29, api.post(points, salt, 201).at("/points/2/trueValue").asDouble(), 0.02);
    String dark = "{\"quantity\":\"light\",\"reading\":0,\"method\":\"dark\"}";
    String lamp =
        "{\"quantity\":\"light\",\"reading\":450,\"trueValue\":500,\"uncertainty\":25,"
            + "\"method\":\"knownLamp\"}";
    long darkId = api.post(points, dark, 201).at("/points/3/id").asLong();
    api.post(points, lamp, 201);
    api.call("DELETE", points + '/' + darkId, null, 400);
    JsonNode all = api.get(points).path("points");
    for (int i = all.size() - 1; i >= 0; i--) {
      api.call("DELETE", points + '/' + all.path(i).path("id").asLong(), null, 204);
    }
    assertEquals(0, api.get(points).path("corrections").size());
    api.call("DELETE", points + "/99999", null, 404);
    String settling = "/api/sensors/" + Grower.SPARE + "/settling?quantity=";
    assertEquals("waiting", api.get(settling + "light").path("state").asText());
    assertEquals(6, api.get(settling + "light").path("readingsNeeded").asInt());
    api.call("GET", settling + "warmth", null, 400);
    api.call("GET", "/api/sensors/no-such/settling?quantity=light", null, 404);
    api.call("GET", "/api/sensors/no-such/calibration-points", null, 404);
    api.call("POST", "/api/sensors/no-such/calibration-points", ice, 404);
  }

  @Test
  void aRoomSensorIsListedBeforeItIsHeard() {
    String body = "{\"container\":\"room\",\"from\":\"2026-03-01T06:00:00+01:00\"}";
    JsonNode placed = api.put("/api/sensors/not-heard/placement", body);
    assertEquals("2026-03-01T05:00:00Z", placed.at("/placements/0/from").asText());
    assertTrue(api.get("/api/sensors").findValuesAsText("sensor").contains("not-heard"));
  }

  @Test
  void sensorsOutsideTheContainersAreListedAlone() {
    String sensor = "/api/sensors/wanders";
    api.put(sensor + "/placement", "{\"container\":\"room\"}");
    assertTrue(outside().contains("wanders"), "in the room");
    assertFalse(outside().contains(Grower.SENSOR), "in a container");
    api.put(sensor + "/placement", "{\"container\":null}");
    assertTrue(outside().contains("wanders"), "without a place");
    api.post(sensor + "/retire", "{}", 200);
    assertFalse(outside().contains("wanders"), "retired");
    assertTrue(api.get("/api/sensors").findValuesAsText("sensor").contains("wanders"), "of all");
  }

  @Test
  void sensorsOfOneContainerAreListedAlone() {
    String sensor = "/api/sensors/moves";
    api.put(sensor + "/placement", "{\"container\":\"room\"}");
    assertTrue(inside("room").contains("moves"), "in the room");
    assertFalse(inside("jar-1").contains("moves"), "not there yet");
    assertTrue(inside("jar-1").contains(Grower.SENSOR), "in the container");
    assertFalse(inside("room").contains(Grower.SENSOR), "in the container, not in the room");
    api.put(sensor + "/placement", "{\"container\":\"jar-1\"}");
    assertTrue(inside("jar-1").contains("moves"), "moved there");
    api.put(sensor + "/placement", "{\"container\":null}");
    assertFalse(inside("jar-1").contains("moves"), "was there");
  }

  private static List<String> inside(String place) {
    return api.get("/api/sensors?activity=false&container=" + place).findValuesAsText("sensor");
  }

  private static List<String> outside() {
    return api.get("/api/sensors?activity=false&outside=true").findValuesAsText("sensor");
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
    // The watch that looks ahead once a minute may have raised more by now.
    List<String> all = kinds("all");
    assertTrue(all.containsAll(List.of("cold", "dry", "light")), all.toString());
    assertTrue(kinds("returned").contains("light"));
    assertFalse(kinds("returned").contains("cold"));
  }

  private static List<String> kinds(String state) {
    return api.get("/api/alerts?state=" + state).findValuesAsText("kind");
  }

  @Test
  void anAlertListsItsHistoryAndReturnsFromTheShelf() {
    JsonNode dry = grower.alert("dry");
    String path = "/api/alerts/" + dry.path("id").asInt();
    api.post(path + "/shelve", "{\"minutes\":60,\"by\":\"Ida\",\"reason\":\"spraying\"}", 200);
    api.post(path + "/unshelve", "{\"by\":\"Ada\"}", 200);
    JsonNode history = api.get(path);
    assertEquals("high", history.at("/alert/priority").asText());
    List<String> what = history.path("transitions").findValuesAsText("what");
    assertEquals("raised", what.get(0));
    assertTrue(what.containsAll(List.of("shelved", "unshelved")), what.toString());
    assertTrue(history.path("transitions").findValuesAsText("note").contains("spraying"));
    api.call("GET", "/api/alerts/999", null, 404);
    String filter = "?state=history&container=jar-1&limit=1&from=" + grower.ago(300);
    assertEquals(1, api.get("/api/alerts" + filter).size());
    assertEquals(0, api.get("/api/alerts" + filter + "&to=" + grower.ago(200)).size());
    assertEquals(0, api.get("/api/alerts?container=empty-tray").size());
    api.call("GET", "/api/alerts?container=attic", null, 404);
  }

  @Test
  void alertRulesAreOverriddenTakenBackAndPutOutOfService() {
    String path = "/api/containers/empty-tray/alert-rules";
    JsonNode before = api.get(path);
    assertEquals(11, before.path("rules").size());
    assertEquals(29.5, before.at("/rules/cold/effective/limit").asDouble());
    JsonNode changed =
        api.put(
            path,
            "{\"rules\":{\"silent\":{\"limit\":90,\"priority\":\"low\"},"
                + "\"battery\":{\"inService\":false}},\"by\":\"Ida\",\"reason\":\"on mains\"}");
    assertEquals(90, changed.at("/rules/silent/effective/limit").asDouble());
    assertEquals(90, changed.at("/rules/silent/overrides/limit").asDouble());
    assertEquals(30, changed.at("/rules/silent/defaults/limit").asDouble());
    assertEquals("on mains", changed.at("/rules/battery/outOfService/reason").asText());
    assertEquals("Ida", changed.at("/serviceChanges/0/by").asText());
    JsonNode limitGone = api.put(path, "{\"rules\":{\"silent\":{\"limit\":null}}}");
    assertEquals(30, limitGone.at("/rules/silent/effective/limit").asDouble());
    assertEquals("low", limitGone.at("/rules/silent/effective/priority").asText());
    JsonNode back = api.put(path, "{\"rules\":{\"silent\":null,\"battery\":{\"inService\":true}}}");
    assertEquals(before.path("rules"), back.path("rules"));
    assertEquals(2, back.path("serviceChanges").size());
  }

  @Test
  void anOpeningIsEndedEarly() {
    api.post("/api/containers", "{\"name\":\"Box 9\",\"kind\":\"box\"}", 201);
    String box = "/api/containers/box-9";
    api.call("POST", box + "/openings/end", "{}", 404);
    JsonNode opening = api.post(box + "/openings", "{\"minutes\":60}", 201);
    JsonNode ended = api.call("POST", box + "/openings/end", null, 200).json();
    assertEquals(opening.path("from"), ended.at("/0/from"));
    Instant until = Instant.parse(ended.at("/0/until").asText());
    assertTrue(until.isBefore(Instant.parse(opening.path("until").asText())));
    assertTrue(api.get(box).path("opening").isNull());
    api.call("DELETE", box, null, 204);
  }

  @Test
  void noticesAndNotifiersAreListedAndTested() {
    Set<String> names = new TreeSet<>(api.get("/api/notifiers").findValuesAsText("name"));
    assertEquals(Set.of("mqtt", "page"), names);
    JsonNode tested = api.call("POST", "/api/notifiers/mqtt/test", null, 200).json();
    assertTrue(tested.path("delivered").asBoolean(), tested.toString());
    assertTrue(tested.path("words").asText().contains("tepidarium/notice/test/low"));
    assertTrue(api.get("/api/notices?state=failed").isEmpty());
    api.call("GET", "/api/notices?state=lost", null, 400);
    JsonNode ofAlerts = api.get("/api/alerts/notices");
    assertEquals(
        new TreeSet<>(api.get("/api/alerts").findValuesAsText("id")),
        new TreeSet<>(ofAlerts.findValuesAsText("alert")));
    api.call("POST", "/api/notifiers/nobody/test", null, 404);
  }

  @Test
  void theServiceReportsItsHealthAndAddresses() {
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
    JsonNode rejects = api.get("/api/rejects?limit=100");
    assertTrue(
        rejects.findValuesAsText("reason").stream().anyMatch(words -> words.contains("warm")));
    assertEquals(api.document().root(), api.get("/api/openapi.json"));
  }

  @Test
  void readingsAreExportedInBothFormats() {
    String path = "/api/export/readings?container=jar-1&sensor=probe_7";
    CheckedApi.Answer csv = api.call("GET", path + "&calibrated=true", null, 200);
    assertTrue(
        csv.header("content-disposition").endsWith("\"jar-1-probe_7-calibrated-readings.csv\""),
        csv.header("content-disposition"));
    assertTrue(csv.text().startsWith("time,sensor,temperature (°C)"), csv.text());
    assertTrue(csv.text().lines().count() > 1, csv.text());
    String lines = api.call("GET", path + "&format=line-protocol", null, 200).text();
    assertEquals(csv.text().lines().count(), lines.lines().count());
    for (String wrong :
        List.of("format=pdf", "from=yesterday", "container=nowhere", "sensor=nobody")) {
      api.call("GET", "/api/export/readings?" + wrong, null, 400);
      api.call("GET", "/api/export/check?" + wrong, null, 400);
    }
    api.call("GET", "/api/export/readings?calibrated=perhaps", null, 400);
    api.call("GET", "/api/export/check?container=jar-1", null, 204);
  }

  @Test
  void anUnreadMessageIsReadOnceARuleIsSaved() {
    // The numbers 3000 and 3900, two bytes each.
    String payload = "{\"data\":\"C7gPPA==\"}";
    Publisher publisher = Publisher.to(service.mqttPort());
    publisher.attempt("field/node-7/up", payload);
    await()
        .atMost(Duration.ofSeconds(30))
        .until(
            () -> api.get("/api/messages").at("/messages/0/topic").asText().startsWith("field/"));
    assertTrue(api.get("/api/messages").at("/messages/0/base64").isMissingNode());
    JsonNode message = api.get("/api/messages/newest?topic=field/node-7/up");
    api.call("GET", "/api/messages/newest?topic=no/such", null, 404);
    api.call("GET", "/api/messages/newest?topic=", null, 400);
    assertEquals(payload, message.path("text").asText());

    String rule =
        "{\"topic\":\"field/{sensor}/up\",\"bytes\":{\"pointer\":\"/data\",\"encoding\":\"base64\"},"
            + "\"temperature\":{\"firstByte\":0,\"length\":2,\"signed\":true,\"factor\":0.01},"
            + "\"battery\":{\"firstByte\":2,\"length\":2,\"unit\":\"mV\"}}";
    JsonNode trial =
        api.post(
            "/api/mappings/trial",
            "{\"topic\":\"field/node-7/up\",\"base64\":\""
                + message.path("base64").asText()
                + "\",\"rule\":"
                + rule
                + "}",
            200);
    assertEquals(30, trial.at("/readings/0/values/temperature").asDouble(), trial.toString());
    assertEquals(3.9, trial.at("/readings/0/values/battery").asDouble(), trial.toString());
    assertEquals(0, trial.path("problems").size(), trial.toString());

    long id = api.post("/api/mappings", rule, 201).path("id").asLong();
    api.post("/api/mappings", rule, 400);
    // The service subscribes to the topic shortly after the rule was saved.
    await()
        .atMost(Duration.ofSeconds(30))
        .until(
            () -> {
              publisher.attempt("field/node-7/up", payload);
              return api.send("GET", "/api/sensors/node-7", null, Map.of()).statusCode() == 200;
            });
    assertEquals(30, api.get("/api/sensors/node-7").at("/latest/temperature/value").asDouble());
    assertEquals(id, api.get("/api/mappings").at("/saved/0/id").asLong());

    String wrong = "{\"topic\":\"field/{sensor}\",\"humidity\":{\"firstByte\":1}}";
    assertTrue(api.post("/api/mappings", wrong, 400).path("detail").asText().contains("add bytes"));
    api.post(
        "/api/mappings/trial", "{\"topic\":\"a\",\"base64\":\"?\",\"rule\":" + rule + "}", 400);
    api.call("DELETE", "/api/mappings/" + id, null, 204);
    api.call("DELETE", "/api/mappings/" + id, null, 404);
  }

  @Test
  void aFileIsUploadedLookedAtImportedAndRemoved() {
    String csv = "time;temp\n2026-03-01 06:00;29,5\n2026-03-01 06:10;hot\n2026-03-01 06:20;30\n";
    long id =
        api.call("POST", "/api/imports?name=old-box.csv", csv, 201).json().path("id").asLong();
    String path = "/api/imports/" + id;
    JsonNode preview = api.post(path + "/preview", "{\"zone\":\"+01:00\"}", 200);
    assertEquals("old-box", preview.at("/rows/0/sensor").asText());
    assertEquals("2026-03-01T05:00:00Z", preview.at("/rows/0/at").asText());
    assertTrue(preview.at("/rows/1/rejected").asText().contains("hot"), preview.toString());
    JsonNode mars = api.post(path + "/preview", "{\"zone\":\"Mars\"}", 400);
    assertTrue(mars.path("detail").asText().startsWith("Mars in \"Time zone\""), mars.toString());
    JsonNode column = api.post(path + "/preview", "{\"columns\":{\"Probe\":\"ignore\"}}", 400);
    assertTrue(
        column.path("detail").asText().startsWith("Probe in \"Columns\": the table has no such"),
        column.toString());
    api.call("GET", path + "/rejected.csv", null, 404);

    api.post(path + "/start", "{\"zone\":\"+01:00\"}", 200);
    await()
        .atMost(Duration.ofSeconds(30))
        .until(() -> api.get("/api/imports").at("/imports/0/state").asText().equals("done"));
    JsonNode done = api.get("/api/imports").at("/imports/0");
    assertEquals(2, done.path("stored").asInt(), done.toString());
    assertEquals(1, done.path("rejected").asInt(), done.toString());
    assertTrue(api.call("GET", path + "/rejected.csv", null, 200).text().contains("3,"));
    await()
        .atMost(Duration.ofSeconds(30))
        .until(() -> api.send("GET", "/api/sensors/old-box", null, Map.of()).statusCode() == 200);
    assertEquals(30, api.get("/api/sensors/old-box").at("/latest/temperature/value").asDouble());

    api.post(path + "/start", "{}", 400);
    api.call("POST", path + "/stop", null, 200);
    api.call("DELETE", path, null, 204);
    api.call("DELETE", path, null, 404);
    api.call("POST", path + "/preview", "{}", 404);
    api.call("POST", path + "/start", "{}", 404);
    api.call("POST", path + "/stop", null, 404);
    api.call("POST", "/api/imports?name=", csv, 400);
    assertEquals(0, api.get("/api/imports").path("imports").size());
  }

  @Test
  void profilesOfImportsAreKeptReplacedListedAndDeleted() {
    String closet = "/api/import-profiles/Closet%20(top)";
    api.put(closet, "{\"zone\":\"+01:00\"}");
    JsonNode kept =
        api.put(closet, "{\"decimal\":\"comma\",\"columns\":{\"2\":\"temperature:F\"}}");
    assertEquals("Closet (top)", kept.path("name").asText());
    JsonNode all = api.get("/api/import-profiles").path("profiles");
    assertEquals(1, all.size());
    assertEquals(kept, all.get(0));
    assertEquals("temperature:F", all.at("/0/choices/columns/2").asText());
    assertTrue(all.at("/0/choices/zone").isNull(), all.toString());
    for (String wrong : List.of("{}", "{\"zone\":\"Mars\"}", "{\"columns\":{\"2\":\"warm\"}}")) {
      String refusal = api.call("PUT", closet, wrong, 400).text();
      assertFalse(refusal.contains("--"), refusal);
    }
    api.call("PUT", "/api/import-profiles/-x", "{\"zone\":\"UTC\"}", 400);
    api.call("DELETE", closet, null, 204);
    api.call("DELETE", closet, null, 404);
  }

  @Test
  void theAnswerToARefusedUploadArrivesAfterTheWholeBody() {
    String body = "2026-03-01 06:00;29.5\n".repeat(400_000);
    RawHttp answer =
        RawHttp.exchange(
            service.url(),
            String.join(
                "\r\n",
                "POST /api/imports?name= HTTP/1.1",
                "Host: " + service.url().substring("http://".length()),
                "Content-Type: application/octet-stream",
                "Content-Length: " + body.length()),
            body);
    assertEquals(400, answer.status());
    assertTrue(answer.body().contains("name of the file"), answer.body());
  }

  /** Imports a file that needs no choices, and removes it. */
  private static void importFile(String name, String csv) {
    long id = api.call("POST", "/api/imports?name=" + name, csv, 201).json().path("id").asLong();
    api.post("/api/imports/" + id + "/start", "{}", 200);
    await()
        .atMost(Duration.ofSeconds(30))
        .until(() -> api.get("/api/imports").at("/imports/0/state").asText().equals("done"));
    api.call("DELETE", "/api/imports/" + id, null, 204);
  }

  @Test
  void anImportChangesTheHeatOfACardThatWasShownBefore() {
    StringBuilder warm = new StringBuilder("time,temperature\n");
    for (int minute = 0; minute < 60; minute += 10) {
      warm.append("2026-03-02T06:%02dZ,30%n".formatted(minute));
    }
    importFile("heat-log.csv", warm.toString());
    String card =
        api.call("POST", "/api/containers", "{\"name\":\"Heat log\",\"kind\":\"bag\"}", 201)
            .header("location");
    await()
        .atMost(Duration.ofSeconds(30))
        .until(() -> api.get("/api/sensors").findValuesAsText("sensor").contains("heat-log"));
    api.put(
        "/api/sensors/heat-log/placement",
        "{\"container\":\"heat-log\",\"from\":\"2026-03-02T00:00:00Z\","
            + "\"until\":\"2026-03-02T12:00:00Z\"}");
    double before = api.get(card).at("/heat/degreeHours").asDouble();
    assertEquals(before, api.get(card).at("/heat/degreeHours").asDouble());
    assertEquals((30 - 15) * 50 / 60.0, before, 0.01);

    importFile("heat-log.csv", "time,temperature\n2026-03-02T06:05Z,16\n");
    double dip = (30 - 16) * (5 / 60.0);
    await()
        .atMost(Duration.ofSeconds(10))
        .untilAsserted(
            () ->
                assertEquals(before - dip, api.get(card).at("/heat/degreeHours").asDouble(), 0.01));
    api.call("DELETE", card, null, 204);
  }

  @Test
  void theSiteTellsItsStateAndThereIsNoOther() {
    JsonNode site = api.get("/api/site");
    assertTrue(site.get("name").isNull());
    assertTrue(site.get("lease").isNull());
    assertFalse(site.get("machine").asText().isEmpty());
    assertEquals(0, site.at("/takeOvers/count").asInt());
    assertEquals(0, api.get("/api/sites").get("sites").size());
  }

  @Test
  void theServiceIsLiveAndReady() {
    assertTrue(api.get("/api/health/live").get("live").booleanValue());
    assertTrue(api.get("/api/health/ready").get("ready").booleanValue());
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
        String suffix =
            line.endsWith(" counter") ? "_total" : line.endsWith(" info") ? "_info" : "";
        described = line.split(" ", -1)[2] + suffix;
      } else if (!line.startsWith("# HELP ") && !line.startsWith("# UNIT ")) {
        String value = "\\d+(\\.\\d+)?(E\\d+)?";
        assertTrue(line.matches(described + "(\\{\\w+=\"[\\w.-]+\"})? " + value), line);
        names.add(described);
      }
    }
    assertEquals(13, names.size(), names.toString());
    String text = api.document().details(new Operation("GET", "/metrics")).toString();
    names.forEach(name -> assertTrue(text.contains(name), name + " is not described"));
  }

  @Test
  void theLiveStreamSendsAContainerAfterAReading() {
    Operation live = new Operation("GET", "/api/live");
    try (LiveEvents stream = LiveEvents.open(service.url())) {
      await().atMost(Duration.ofSeconds(10)).until(() -> stream.has("hello", "time"));
      grower.publish(Grower.SENSOR, "{\"temperature\":26.75}");
      String dry = "/api/alerts/" + grower.alert("dry").path("id").asInt();
      api.post(dry + "/acknowledge", "{}", 200);
      api.call("POST", "/api/notifiers/page/test", null, 200);
      await()
          .atMost(Duration.ofSeconds(10))
          .until(
              () ->
                  stream.has("container", "26.75")
                      && stream.has("sensor", "26.75")
                      && stream.has("notice", "\"kind\":\"test\"")
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
    new SeasonChecks(api).run();
  }

  @Test
  void faultyReadingsAreKeptExcludedAndIncluded() {
    new FaultChecks(api, grower).run();
  }

  @Test
  void sumsAreThoseOfThePublishedChecks() {
    SumsChecks checks = new SumsChecks(api);
    checks.fractions();
    checks.differences();
    checks.strata();
    checks.replicates();
    checks.seedsNeeded();
    checks.fits();
    checks.dishes();
    checks.air();
  }

  @ParameterizedTest
  @MethodSource("tepidarium.web.Refusal#all")
  void invalidInputIsRefusedWithTheNameOfItsField(Refusal refusal) {
    CheckedApi.Answer answer =
        api.call(refusal.method(), refusal.path(), refusal.body(), refusal.status());
    String detail = answer.json().path("detail").asText();
    assertTrue(detail.contains(refusal.word()), detail);
    assertEquals(refusal.status(), answer.json().path("status").asInt());
  }

  @ParameterizedTest
  @MethodSource("tepidarium.web.Refusal#figures")
  void aFigureWithAValueOutOfRangeIsRefusedWithTheNameOfItsField(Refusal refusal) {
    CheckedApi.Answer answer =
        api.call(refusal.method(), refusal.path(), refusal.body(), refusal.status());
    assertEquals(refusal.word(), answer.json().path("field").asText(), answer.json().toString());
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
      String path = operation.path();
      String length = path.equals("/api/imports") ? "3000000000" : "30000000";
      String most =
          switch (path) {
            case "/api/imports" -> "2147483648 bytes";
            case "/api/record" -> "8388608 bytes";
            default -> "1048576 bytes";
          };
      if (api.document().details(operation).has("requestBody")) {
        RawHttp answer =
            RawHttp.send(
                service.url(),
                operation.method() + ' ' + concrete(operation) + " HTTP/1.1",
                "Content-Length: " + length);
        assertEquals(413, answer.status());
        api.check(operation, answer.status(), answer.type(), answer.body());
        assertTrue(answer.body().contains(most), answer.body());
      }
    }
  }

  @Test
  void aSecondRecordIsRefusedWhileAnotherIsUploaded() throws IOException {
    URI address = URI.create(service.url());
    try (Socket first = new Socket(address.getHost(), address.getPort())) {
      String begun =
          "POST /api/record HTTP/1.1\r\nHost: %s\r\nContent-Type: application/zip\r\nContent-Length: 9\r\n\r\nhalf"
              .formatted(address.getAuthority());
      first.getOutputStream().write(begun.getBytes(StandardCharsets.US_ASCII));
      await()
          .until(
              () -> api.send("POST", "/api/record", "no zip file", Map.of()).statusCode() == 409);
      api.call("POST", "/api/record", "no zip file", 409);
    }
    await()
        .until(() -> api.send("POST", "/api/record", "no zip file", Map.of()).statusCode() == 400);
  }

  /** The path of an operation with names of things that there may be. */
  static String concrete(Operation operation) {
    return operation
        .path()
        .replace("{id}", "jar-1")
        .replace("{sensor}", Grower.SENSOR)
        .replace("{alert}", "1")
        .replace("{species}", "cacao")
        .replace("{lot}", "1")
        .replace("{sowing}", "1")
        .replace("{season}", "1")
        .replace("{group}", "1-1")
        .replace("{point}", "1")
        .replace("{mapping}", "1")
        .replace("{session}", "1")
        .replace("{person}", "1")
        .replace("{token}", "1")
        .replace("{import}", "1")
        .replace("{profile}", "closet")
        .replace("{entry}", "00000000-0000-0000-0000-000000000001")
        .replace("{table}", "lots")
        .replace("{day}", "2026-03-01")
        .replace("{name}", "page")
        .replace("{account}", "jar-1");
  }

  @Test
  void aDayEnteredByHandIsKeptCorrectedAndRemoved() {
    String days = JAR + "/day-extremes";
    api.put(days + "/2026-02-01", "{\"min\":1,\"max\":2}");
    JsonNode kept = api.put(days + "/2026-02-01", "{\"min\":-3.5,\"max\":12}");
    assertEquals(kept, api.get(days));
    assertEquals(1, kept.path("days").size());
    assertEquals(-3.5, kept.at("/days/0/min").asDouble());
    api.call("DELETE", days + "/2026-02-01", null, 204);
    api.call("DELETE", days + "/2026-02-01", null, 404);
    assertEquals(0, api.get(days).path("days").size());
  }

  @Test
  void aMissingOrUnreadableFileIsAProblem() {
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

  @Test
  void peopleAndTokensCanBeSetUpBeforeTheServiceAsksForALogin() {
    new PeopleChecks(api).all();
  }

  @Test
  void settingsAreListedChangedRefusedAndTried() {
    new SettingChecks(api).all();
  }

  /** Runs last: it looks back at what the others were answered. */
  @Test
  @Order(Integer.MAX_VALUE)
  void everyDescribedRouteWasCalled() {
    Set<String> unheard = new TreeSet<>(api.described());
    unheard.removeAll(api.answered());
    assertEquals(Set.of(), unheard);
  }
}
