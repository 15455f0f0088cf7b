package tepidarium.web;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import biweekly.Biweekly;
import biweekly.ICalendar;
import biweekly.component.VEvent;
import com.fasterxml.jackson.databind.JsonNode;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import tepidarium.exchange.Table;
import tepidarium.web.ApiDocument.Operation;

/** A season written down over the API, with everything that can go wrong with it. */
final class SeedSeason {
  private static final byte[] JPEG = {(byte) 0xFF, (byte) 0xD8, (byte) 0xFF, 0, 1, 2};

  private final CheckedApi api;
  private final Grower grower;

  SeedSeason(CheckedApi api, Grower grower) {
    this.api = api;
    this.grower = grower;
  }

  void run() {
    species();
    String lot = "/api/lots/" + lot();
    String sowing = sow(lot);
    String group = api.get(sowing).at("/groups/0/id").asText();
    check(sowing, group);
    move(sowing, group);
    correct(sowing, group);
    names(sowing, group);
    seedlings(group);
    germination(sowing, group);
    statistics(sowing);
    comparison(lot);
    due(group);
    tables(sowing);
    refusals(lot, group);
  }

  private void species() {
    assertEquals(3, api.get("/api/species").size());
    String figures =
        "{\"base\":{\"value\":12,\"source\":\"own results\"},"
            + "\"ceiling\":{\"value\":30,\"source\":\"own results\"},"
            + "\"keepsDays\":{\"value\":10,\"source\":\"own results\"}}";
    String body = "{\"name\":\"Paw paw\",\"figures\":" + figures + "}";
    CheckedApi.Answer added = api.call("POST", "/api/species", body, 201);
    assertEquals("/api/species/paw-paw", added.header("location"));
    assertEquals(12, added.json().at("/figures/base/value").asDouble());
    assertTrue(added.json().at("/figures/fraction").isNull());
    assertEquals(added.json(), api.put("/api/species/paw-paw", body));
    api.post("/api/species", "{\"name\":\"Not needed\"}", 201);
    api.call("DELETE", "/api/species/not-needed", null, 204);
    api.call("DELETE", "/api/species/not-needed", null, 404);
  }

  private int lot() {
    String words =
        "{\"species\":\"paw-paw\",\"seeds\":%d,\"gatheredAt\":\"%s\",\"from\":\"ground\"}";
    CheckedApi.Answer added =
        api.call("POST", "/api/lots", words.formatted(40, grower.ago(1440)), 201);
    int id = added.json().path("id").asInt();
    assertEquals("/api/lots/" + id, added.header("location"));
    assertEquals(9, added.json().at("/freshness/daysLeft").asDouble(), 0.1);
    JsonNode changed = api.put("/api/lots/" + id, words.formatted(60, grower.ago(1440)));
    assertEquals(60, changed.path("seeds").asInt());
    assertEquals(60, api.get("/api/lots").path(id - 1).path("left").asInt());
    return id;
  }

  private String sow(String lot) {
    String body =
        "{\"lot\":%s,\"groups\":[{\"container\":\"jar-1\",\"seeds\":45},"
                .formatted(lot.substring(10))
            + "{\"container\":\"empty-tray\",\"seeds\":10}],\"at\":\""
            + grower.ago(140)
            + "\"}";
    CheckedApi.Answer sown = api.call("POST", "/api/sowings", body, 201);
    assertEquals(55, sown.json().at("/sowing/sown").asInt());
    assertEquals(5, api.get(lot).path("left").asInt());
    String path = sown.header("location");
    assertEquals(sown.json().path("sowing").path("groups"), api.get(path).path("groups"));
    assertEquals(1, api.get("/api/sowings").size());
    assertConflict("POST", "/api/sowings", body, "60 seeds, but 110");
    return path;
  }

  private void check(String sowing, String group) {
    String body =
        "{\"germinated\":9,\"culled\":[{\"count\":2,\"reason\":\"mould\"}],\"by\":\"Ida\","
            + "\"rootLengthsCm\":[1.5,2],\"at\":\""
            + grower.ago(30)
            + "\"}";
    Map<String, String> key = Map.of("Idempotency-Key", '"' + UUID.randomUUID().toString() + '"');
    String path = "/api/groups/" + group + "/checks";
    JsonNode first = api.call("POST", path, body, key, 201).json();
    JsonNode again = api.call("POST", path, body, key, 201).json();
    assertEquals(first.path("entry"), again.path("entry"));
    assertEquals(44, again.at("/sowing/ungerminated").asInt());
    assertEquals(2, api.get(sowing + "/entries").size());
    String other = body.replace("9", "8");
    String detail = api.call("POST", path, other, key, 409).json().path("detail").asText();
    assertTrue(detail.contains("different contents"), detail);
    assertFalse(first.at("/entry/photo").asBoolean());
    photo(first.at("/entry/id").asText());
    assertTrue(api.call("POST", path, body, key, 201).json().at("/entry/photo").asBoolean());
    assertConflict("POST", path, "{\"germinated\":35}", "counts 35 newly germinated");
    assertConflict(
        "POST",
        path,
        "{\"at\":\"" + grower.ago(60) + "\",\"germinated\":36}",
        "the check of group");
  }

  private void photo(String entry) {
    String path = "/api/entries/" + entry + "/photo";
    Operation put = new Operation("PUT", "/api/entries/{entry}/photo");
    api.call("GET", path, null, 404);
    HttpResponse<byte[]> kept = api.sendBytes("PUT", path, JPEG);
    api.check(put, kept.statusCode(), "", "");
    assertEquals(204, kept.statusCode());
    assertEquals("image/jpeg", api.call("GET", path, null, 200).header("content-type"));
    assertArrayEquals(JPEG, api.sendBytes("GET", path, new byte[0]).body());
    assertEquals(400, api.call("PUT", path, "not a picture", 400).status());
    api.call("PUT", "/api/entries/" + UUID.randomUUID() + "/photo", "x", 404);
  }

  private void move(String sowing, String group) {
    String path = "/api/groups/" + group + "/moves";
    String body = "{\"to\":\"empty-tray\",\"germinated\":9,\"at\":\"" + grower.ago(20) + "\"}";
    JsonNode moved = api.post(path, body, 201);
    String part = moved.at("/entry/move/splitInto").asText();
    assertTrue(part.endsWith("-3"), part);
    JsonNode ways = api.get("/api/groups/" + part + "/path").path("ways");
    assertEquals("jar-1", ways.at("/0/legs/0/container").asText());
    assertEquals(grower.ago(20).toString(), ways.at("/0/legs/1/from").asText());
    assertConflict("POST", path, "{\"to\":\"empty-tray\",\"germinated\":1}", "moves 1 germinated");
    assertConflict("DELETE", "/api/containers/jar-1", null, "lie in it");
    assertEquals(55, api.get(sowing).path("sown").asInt());
  }

  private void correct(String sowing, String group) {
    JsonNode check = api.get(sowing + "/entries").path(1);
    String path = "/api/entries/" + check.path("id").asText();
    JsonNode corrected =
        api.post(
            path + "/correction",
            "{\"reason\":\"recounted\",\"check\":{\"germinated\":10,"
                + "\"culled\":[{\"count\":2,\"reason\":\"mould\"}]}}",
            201);
    assertEquals(check.path("at"), corrected.at("/entry/at"));
    assertEquals(10, corrected.at("/sowing/everGerminated").asInt());
    assertEquals(corrected.at("/entry/id"), api.get(sowing + "/entries").at("/1/correctedBy"));
    assertConflict("POST", path + "/withdrawal", "{}", "no longer valid");
    String now = "/api/entries/" + corrected.at("/entry/id").asText();
    assertConflict("POST", now + "/correction", "{\"check\":{\"germinated\":1}}", "the move of");
    String last = api.get(sowing).path("lastEntry").asText();
    assertEquals(corrected.at("/entry/id").asText(), last);

    JsonNode look = api.post("/api/groups/" + group + "/checks", "{\"remark\":\"wet\"}", 201);
    String undo = "/api/entries/" + look.at("/entry/id").asText() + "/withdrawal";
    JsonNode undone = api.post(undo, "{\"reason\":\"another jar\"}", 201);
    assertEquals(
        corrected.at("/sowing/groups/0/lastCheck"), undone.at("/sowing/groups/0/lastCheck"));
  }

  private void seedlings(String group) {
    api.post("/api/groups/" + group + "/checks", "{\"pottedOn\":1}", 201);
    String path = "/api/groups/" + group + "/survival";
    JsonNode counted = api.post(path, "{\"alive\":1}", 201);
    assertEquals(1, counted.at("/sowing/alive").asInt());
    assertConflict("POST", path, "{\"alive\":2}", "at most 1");
  }

  /** The names of sowings at the checks that the events of a container list. */
  private List<String> checkNames(String container) {
    return api.get("/api/containers/" + container + "/events?from=" + grower.ago(1440))
        .findValuesAsText("sowingName");
  }

  private void names(String sowing, String group) {
    String path = "/api/groups/" + group + "/name";
    JsonNode named = api.post(path, "{\"name\":\"North\"}", 201);
    assertEquals("North", named.at("/sowing/groups/0/name").asText());
    assertEquals("named", named.at("/entry/kind").asText());
    JsonNode plain = api.post(path, "{\"name\":\" \"}", 201);
    assertTrue(plain.at("/sowing/groups/0/name").isNull());
    JsonNode late = api.post(sowing + "/name", "{\"name\":\"Late\"}", 201);
    assertEquals("Late", late.at("/sowing/name").asText());
    assertTrue(checkNames(late.at("/sowing/groups/0/container").asText()).contains("Late"));
    String undo = "/api/entries/" + late.at("/entry/id").asText();
    api.call("POST", undo + "/correction", "{\"check\":{}}", 400);
    api.post(undo + "/withdrawal", "{\"reason\":\"a slip\"}", 201);
    api.call("POST", "/api/groups/99-1/name", "{\"name\":\"x\"}", 404);
    api.call("POST", "/api/sowings/99/name", "{\"name\":\"x\"}", 404);
    for (String what : new String[] {path, sowing + "/name"}) {
      api.call("POST", what, "{\"name\":\"" + "x".repeat(61) + "\"}", 400);
      assertConflict(
          "POST", what, "{\"name\":\"x\",\"at\":\"2001-01-01T00:00:00Z\"}", "earlier than");
    }
  }

  private void germination(String sowing, String group) {
    JsonNode told = api.get(sowing + "/germination");
    assertEquals(10, told.path("germinated").asInt());
    // Nobody looked at the ten seeds in the tray.
    assertEquals(10, told.path("notLookedAt").asInt());
    assertEquals(10.0 / 45, told.at("/fraction/fraction").asDouble(), 1e-12);
    int seeds = 0;
    for (JsonNode row : told.path("rows")) {
      seeds += row.path("count").asInt();
    }
    assertEquals(55, seeds);
    JsonNode check = told.at("/checks/0");
    assertEquals(110 / 1440.0, check.path("day").asDouble(), 1e-6);
    JsonNode heat = check.path("heat");
    // The jar alone, over the same stretch and with the same base and ceiling.
    JsonNode jar =
        api.get(
            "/api/containers/jar-1/heat?base=12&ceiling=30&from="
                + grower.ago(140)
                + "&to="
                + grower.ago(30));
    for (String sum : new String[] {"degreeHours", "coveredHours", "gapHours", "lower", "upper"}) {
      assertEquals(jar.path(sum).asDouble(), heat.path(sum).asDouble(), 1e-9, sum);
    }
    assertTrue(heat.path("degreeHours").asDouble() > 0);
    againstHeat(sowing, heat);
    assertEquals(2, api.get("/api/groups/" + group + "/path").path("checks").size());
  }

  private void againstHeat(String sowing, JsonNode heat) {
    JsonNode row = api.get(sowing + "/heat-course").at("/rows/0/to");
    assertEquals(heat, row, "one definition of heat along a path");
    assertTrue(row.path("likely").asDouble() > heat.path("lower").asDouble());
    JsonNode species = api.get("/api/species/paw-paw/thermal-time");
    assertEquals("cannotBeTold", species.path("verdict").asText());
    JsonNode keeping = api.get("/api/species/paw-paw/viability");
    assertFalse(keeping.path("identified").asBoolean());
    assertEquals(1, keeping.path("notFinal").asInt(), "seeds remain, watched for hours only");
    assertTrue(keeping.path("reason").asText().contains("3 different numbers of days"));
  }

  /** Ten of 55 at one check, and again 0 at later ones: the same numbers as the sums give. */
  private void statistics(String sowing) {
    JsonNode told = api.get(sowing + "/germination");
    JsonNode measures = told.path("measures");
    double day = told.at("/checks/0/day").asDouble();
    assertEquals(day, measures.path("meanTime").asDouble(), 1e-9);
    assertEquals(0, measures.at("/meanBetween/0").asDouble(), 1e-9);
    assertEquals(1, measures.path("synchrony").asDouble(), 1e-12);
    assertEquals(day, measures.at("/curve/0/to").asDouble(), 1e-9);
    double sum = 0;
    for (JsonNode step : measures.path("curve")) {
      sum += step.path("fraction").asDouble();
    }
    assertEquals(1, sum, 1e-6);
    StringBuilder rows = new StringBuilder();
    for (JsonNode row : told.path("rows")) {
      rows.append(rows.isEmpty() ? "" : ",")
          .append("{\"from\":" + row.path("from") + ",\"to\":" + row.path("to"))
          .append(",\"count\":" + row.path("count") + "}");
    }
    JsonNode sums = api.post("/api/sums/germination", "{\"intervals\":[" + rows + "]}", 200);
    assertEquals(sums, told.path("fits"));
  }

  private void comparison(String lot) {
    String body =
        "{\"lot\":%s,\"groups\":[{\"container\":\"jar-1\",\"seeds\":5}],\"at\":\"%s\"}"
            .formatted(lot.substring(10), grower.ago(130));
    JsonNode other = api.post("/api/sowings", body, 201);
    JsonNode told = api.get("/api/compare/germination?sowings=1,2");
    assertTrue(told.path("difference").isNull(), "nobody looked at the second");
    assertEquals(5, told.at("/b/notLookedAt").asInt());
    assertTrue(told.at("/b/fraction/fraction").isNull());
    assertTrue(told.at("/b/lastCheckDay").isNull());
    JsonNode look =
        api.post(
            "/api/groups/" + other.at("/sowing/groups/0/id").asText() + "/checks",
            "{\"at\":\"" + grower.ago(10) + "\"}",
            201);
    JsonNode sums =
        api.post(
            "/api/sums/difference",
            "{\"a\":{\"germinated\":10,\"sown\":45},\"b\":{\"germinated\":0,\"sown\":5}}",
            200);
    assertEquals(sums, api.get("/api/compare/germination?sowings=1,2").path("difference"));
    String unlook = "/api/entries/" + look.at("/entry/id").asText() + "/withdrawal";
    api.post(unlook, "{}", 201);
    for (String wrong : new String[] {"1", "1,1", "1,x", "1,2,3"}) {
      api.call("GET", "/api/compare/germination?sowings=" + wrong, null, 400);
    }
    api.call("GET", "/api/compare/germination?sowings=1,77", null, 404);
    assertEquals(0, api.get("/api/compare/heat-sources?species=paw-paw").path("pairs").size());
    api.call("GET", "/api/compare/heat-sources?species=nothing", null, 404);
    api.call("GET", "/api/compare/heat-sources", null, 400);
    String undo = "/api/entries/" + other.at("/entry/id").asText() + "/withdrawal";
    assertTrue(api.post(undo, "{}", 201).path("sowing").isNull());
  }

  private void due(String group) {
    JsonNode due = api.get("/api/checks-due");
    assertEquals(2, due.size());
    JsonNode tally = api.get("/api/tally");
    assertEquals(group, tally.at("/sowings/0/groups/0/id").asText());
    JsonNode label = api.get("/api/labels").at("/labels/0");
    assertTrue(label.path("link").asText().endsWith("/tally.html?container=jar-1"));
    assertEquals(1, label.at("/sowings/0/sowing").asInt());
    api.call("GET", "/api/containers/jar-1/label.svg", null, 200);
    api.call("GET", "/api/containers/attic/label.svg", null, 404);
    String text = api.call("GET", "/api/checks-due.ics", null, 200).text();
    for (String line : text.split("\r\n", -1)) {
      assertTrue(line.length() <= 75, line);
    }
    ICalendar calendar = Biweekly.parse(text).first();
    assertEquals(2, calendar.getEvents().size());
    VEvent event = calendar.getEvents().get(0);
    assertTrue(event.getSummary().getValue().startsWith("Check "));
    assertFalse(event.getDateStart().getValue().hasTime());
    Instant at = Instant.parse(due.at("/0/at").asText());
    String day = at.atZone(ZoneOffset.UTC).toLocalDate().toString().replace("-", "");
    assertTrue(text.contains("DTSTART;VALUE=DATE:" + day), text);
    String later = api.call("GET", "/api/checks-due.ics", null, 200).text();
    assertEquals(event.getUid().getValue(), firstUid(later));
  }

  private static String firstUid(String text) {
    return Biweekly.parse(text).first().getEvents().get(0).getUid().getValue();
  }

  private void tables(String sowing) {
    for (Table table : Table.values()) {
      String name = table.key();
      String csv = api.call("GET", "/api/export/" + name + ".csv", null, 200).text();
      JsonNode taken = api.post("/api/import/" + name, csv, 200);
      assertEquals(name, taken.path("table").asText());
      assertEquals(0, taken.path("added").asInt());
    }
    api.call("GET", "/api/record.zip", null, 200);
    byte[] zip = api.sendBytes("GET", "/api/record.zip", new byte[0]).body();
    HttpResponse<byte[]> answer = api.sendBytes("POST", "/api/record", zip);
    String taken = new String(answer.body(), StandardCharsets.UTF_8);
    assertEquals(200, answer.statusCode(), taken);
    api.check(api.document().operation("POST", "/api/record"), 200, "application/json", taken);
    assertEquals(Table.values().length, taken.split("\"added\":0[,}]", -1).length - 1, taken);
    api.call("POST", "/api/record", "no zip", 400);
    JsonNode refused =
        api.call("POST", "/api/import/lots", "lot,seeds\r\n7,x\r\n0,1\r\n", 400).json();
    String detail = refused.path("detail").asText();
    assertTrue(detail.contains("line 2: seeds must") && detail.contains("line 3: lot"), detail);
    JsonNode lines = refused.at("/table/lines");
    assertEquals(List.of("2", "3"), lines.findValuesAsText("line"));
    assertEquals(List.of("seeds", "lot"), lines.findValuesAsText("field"));
    assertEquals(List.of("number", "whole"), lines.findValuesAsText("rule"));
    api.call("POST", "/api/import/bags", "", 404);
    api.call("GET", "/api/export/bags.csv", null, 404);
    assertEquals(55, api.get(sowing).path("sown").asInt());
  }

  private void refusals(String lot, String group) {
    String small =
        "{\"species\":\"paw-paw\",\"seeds\":5,\"gatheredAt\":\"" + grower.ago(1440) + "\"}";
    assertConflict("PUT", lot, small, "has 5 seeds");
    assertConflict("DELETE", "/api/species/paw-paw", null, "seed lot");
    api.call("GET", "/api/groups/" + group + "9/path", null, 404);
    api.call("PUT", lot, "{}", 400);
    String entry = "/api/entries/" + api.get("/api/sowings").at("/0/lastEntry").asText();
    String kind = "{\"check\":{\"germinated\":1}}";
    assertConflict("POST", entry + "/correction", kind, "of another kind, survival");
    api.call("POST", entry + "/correction", "{}", 400);
    String long301 = "{\"reason\":\"" + "x".repeat(301) + "\"}";
    api.call("POST", entry + "/withdrawal", long301, 400);
  }

  private void assertConflict(String method, String path, String body, String word) {
    String detail = api.call(method, path, body, 409).json().path("detail").asText();
    assertTrue(detail.contains(word), detail);
  }
}
