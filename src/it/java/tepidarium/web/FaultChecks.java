package tepidarium.web;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;

/**
 * One hour at 30 °C in a box with base 15 °C, one reading every 10 min, with an 85 °C power-on
 * value in the middle and a −127 °C value 5 min before the end. All expected figures by hand.
 */
final class FaultChecks {
  private static final String SENSOR = "flaky";
  private static final String BOX = "/api/containers/flaky-box";
  private static final double ROUNDING = 1e-9;

  private final CheckedApi api;
  private final Grower grower;

  FaultChecks(CheckedApi api, Grower grower) {
    this.api = api;
    this.grower = grower;
  }

  void run() {
    publishAnHour();
    faultsAreKeptWithTheirReason();
    String decision =
        "{\"quantity\":\"temperature\",\"kind\":\"power-on\",\"from\":\""
            + grower.ago(90)
            + "\",\"to\":\""
            + grower.ago(90)
            + "\",\"by\":\"Ada\",\"excluded\":";
    // 15 °C above the base over 40 min; the lines to and from 85 °C are left out.
    figures(10, 1 / 3.0, 2, 30);
    JsonNode included = decide(decision + "false}").at("/faults/0");
    assertEquals("counted", included.path("state").asText());
    assertEquals("Ada", included.at("/decided/by").asText());
    // Two lines of 10 min with 42.5 °C above the base on average.
    figures(10 + 2 * 42.5 / 6, 0, 1, 85);
    assertEquals("excluded", decide(decision + "true}").at("/faults/0/state").asText());
    figures(10, 1 / 3.0, 2, 30);
    refusals();
  }

  private void publishAnHour() {
    api.post("/api/containers", "{\"name\":\"Flaky box\",\"kind\":\"box\"}", 201);
    List<String> entries = new ArrayList<>();
    for (int minute = 120; minute >= 60; minute -= 10) {
      entries.add(entry(minute, minute == 90 ? "85.0" : "30"));
    }
    entries.add(entry(65, "-127"));
    grower.publish(SENSOR, '[' + String.join(",", entries) + ']');
    grower.awaitHeard(SENSOR);
    api.put(
        "/api/sensors/" + SENSOR + "/placement",
        "{\"container\":\"flaky-box\",\"from\":\""
            + grower.ago(200)
            + "\",\"until\":\""
            + grower.ago(30)
            + "\"}");
    await().atMost(Duration.ofSeconds(30)).until(() -> faults().size() == 2);
  }

  private String entry(int minute, String temperature) {
    return "{\"temperature\":" + temperature + ",\"at\":\"" + grower.ago(minute) + "\"}";
  }

  private JsonNode faults() {
    return api.get(BOX + "/faults").path("faults");
  }

  private void faultsAreKeptWithTheirReason() {
    JsonNode refused = faults().path(0);
    assertEquals("not-connected", refused.path("kind").asText());
    assertEquals(grower.ago(65).toString(), refused.path("from").asText());
    assertTrue(refused.path("refused").asBoolean());
    assertEquals("excluded", refused.path("state").asText());
    JsonNode powerOn = faults().path(1);
    assertEquals("power-on", powerOn.path("kind").asText());
    assertEquals(grower.ago(90).toString(), powerOn.path("from").asText());
    assertEquals("excluded", powerOn.path("state").asText());
    assertTrue(powerOn.path("reason").asText().contains("DS18B20"));
    assertEquals(1, powerOn.path("readings").asInt());
    assertTrue(powerOn.path("decided").isNull());
    assertEquals(faults(), api.get("/api/sensors/" + SENSOR + "/faults").path("faults"));
    JsonNode summary = api.get("/api/sensors/" + SENSOR).path("faults");
    assertEquals(2, summary.path("count").asInt());
    assertEquals("not-connected", summary.path("newestKind").asText());
  }

  private JsonNode decide(String decision) {
    return api.call("POST", "/api/sensors/" + SENSOR + "/fault-decisions", decision, 200).json();
  }

  private void figures(double degreeHours, double leftOutHours, int stretches, double highest) {
    String hour = "?from=" + grower.ago(120) + "&to=" + grower.ago(60);
    JsonNode heat = api.get(BOX + "/heat" + hour);
    assertEquals(degreeHours, heat.path("degreeHours").asDouble(), ROUNDING);
    assertEquals(leftOutHours, heat.path("gapHours").asDouble(), ROUNDING);
    assertEquals(leftOutHours, heat.path("leftOutHours").asDouble(), ROUNDING);
    // The thread that watches the containers follows a decision a little later.
    await()
        .atMost(Duration.ofSeconds(30))
        .untilAsserted(
            () ->
                assertEquals(
                    leftOutHours, api.get(BOX).at("/heat/leftOutHours").asDouble(), ROUNDING));
    // What the gap could have added at the band's high limit.
    double high = api.get(BOX).at("/band/temperature/high").asDouble();
    assertEquals(degreeHours + leftOutHours * (high - 15), heat.path("upper").asDouble(), ROUNDING);
    JsonNode band = api.get(BOX + "/band" + hour);
    assertEquals(1 - leftOutHours, band.path("coveredHours").asDouble(), ROUNDING);
    assertEquals(highest > high ? 1 : 0, band.path("excursions").size());
    JsonNode readings = api.get(BOX + "/readings" + hour);
    double max = 0;
    for (JsonNode value : readings.at("/temperature/max")) {
      max = Math.max(max, value.asDouble());
    }
    assertEquals(highest, max, ROUNDING);
    for (JsonNode figure : List.of(heat, band, readings)) {
      JsonNode leftOut = figure.at("/leftOut/0");
      assertEquals("temperature", leftOut.path("quantity").asText());
      assertEquals(leftOutHours, leftOut.path("hours").asDouble(), ROUNDING);
      assertEquals(stretches, leftOut.path("stretches").asInt());
    }
    assertEquals(0, api.get(BOX + "/light" + hour).path("leftOut").size());
    assertEquals(
        stretches,
        api.get("/api/compare/heat?containers=flaky-box,empty-tray&from=" + grower.ago(300))
            .at("/compared/0/faultsLeftOut/0/stretches")
            .asInt());
  }

  private void refusals() {
    String decisions = "/api/sensors/" + SENSOR + "/fault-decisions";
    String whole =
        "\"from\":\"2026-03-01T00:00:00Z\",\"to\":\"2026-03-02T00:00:00Z\",\"excluded\":true";
    String swapped =
        "\"from\":\"2026-03-02T00:00:00Z\",\"to\":\"2026-03-01T00:00:00Z\",\"excluded\":true";
    refused("POST", decisions, "{\"kind\":\"stuck\"}", 400, "needed");
    refused("POST", decisions, "{\"kind\":\"broken\"," + whole + '}', 400, "kind");
    refused("POST", decisions, "{\"kind\":\"stuck\"," + swapped + '}', 400, "to must not");
    String future =
        "\"from\":\"2026-03-02T00:00:00Z\",\"to\":\"2100-03-01T00:00:00Z\",\"excluded\":true";
    refused("POST", decisions, "{\"kind\":\"stuck\"," + future + '}', 400, "later than now");
    refused(
        "POST",
        decisions,
        "{\"kind\":\"stuck\",\"quantity\":\"smell\"," + whole + '}',
        400,
        "quantity");
    refused(
        "POST",
        "/api/sensors/nobody/fault-decisions",
        "{\"kind\":\"stuck\"," + whole + '}',
        404,
        "nobody");
    refused("GET", "/api/sensors/nobody/faults", null, 404, "nobody");
    refused("GET", "/api/sensors/" + SENSOR + "/faults?from=noon", null, 400, "from");
    refused("GET", BOX + "/faults?from=noon", null, 400, "from");
    refused("GET", "/api/containers/attic/faults", null, 404, "attic");
  }

  private void refused(String method, String path, String body, int status, String word) {
    String detail = api.call(method, path, body, status).json().path("detail").asText();
    assertTrue(detail.contains(word), detail);
  }
}
