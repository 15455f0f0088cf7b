package tepidarium.web;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tepidarium.it.RunningService;
import tepidarium.it.SmallSeason;

/** The report of a season that was worked by hand, and the archive. */
class SeasonIT {
  private static RunningService service;
  private static CheckedApi api;
  private static SmallSeason season;

  @BeforeAll
  static void start(@TempDir Path data) {
    service = RunningService.embedded(data);
    season = SmallSeason.in(service);
    api = new CheckedApi(service.url());
  }

  @AfterAll
  static void stop() {
    service.close();
  }

  private static JsonNode report(double fromDay, double toDay) {
    return api.get("/api/seasons/report?from=" + season.day(fromDay) + "&to=" + season.day(toDay));
  }

  private static JsonNode whole() {
    return report(0, SmallSeason.DAYS);
  }

  @Test
  void theSowingsAreCountedWithTheirHeat() {
    JsonNode sowing = whole().path("sowings").path(0);
    assertEquals("In the closet", sowing.path("name").asText());
    assertEquals(22, sowing.path("germinated").asInt());
    assertEquals(5, sowing.path("culled").asInt());
    assertEquals(13, sowing.path("remaining").asInt());
    assertEquals(4, sowing.path("pottedOn").asInt());
    assertEquals("mould", sowing.at("/culledFor/0/reason").asText());
    // Wilson (1927) for 22 of 40, by hand.
    assertEquals(0.55, sowing.at("/fraction/value").asDouble(), 1e-12);
    assertEquals(0.39829, sowing.at("/fraction/low").asDouble(), 1e-5);
    assertEquals(0.69295, sowing.at("/fraction/high").asDouble(), 1e-5);
    assertEquals(4, sowing.path("firstFoundDay").asDouble(), 1e-9);
    assertEquals(8, sowing.path("lastCheckDay").asDouble(), 1e-9);
    // 6 of 40 by day 4, 22 by day 8: the twentieth in between.
    assertEquals(4, sowing.at("/halfBetween/0").asDouble(), 1e-9);
    assertEquals(8, sowing.at("/halfBetween/1").asDouble(), 1e-9);
    // 192 h at 16 °C above the base, less 12 h and two ramps of 15 minutes at 3.5 °C less.
    JsonNode heat = sowing.path("heat");
    assertEquals(192 * 16 - 3.5 * 12.25, heat.path("degreeHours").asDouble(), 1e-6);
    assertEquals(36, heat.path("ceiling").asDouble());
    assertEquals(0, heat.path("gapHours").asDouble(), 1e-9);
    assertEquals("Closet", sowing.at("/containers/0").asText());
  }

  @Test
  void aGapIsBoundedByZeroAndTheCeiling() {
    JsonNode tray = whole().path("sowings").path(1);
    assertEquals("Lychee, sowing 2", tray.path("name").asText());
    assertEquals(0, tray.at("/heat/degreeHours").asDouble());
    assertEquals(192, tray.at("/heat/gapHours").asDouble(), 1e-9);
    assertEquals(192 * (36 - 15), tray.at("/heat/upper").asDouble(), 1e-6);
    assertTrue(tray.path("halfBetween").isNull());
    JsonNode container = whole().path("containers").path(2);
    assertEquals("tray", container.path("id").asText());
    assertTrue(container.path("seeds").asBoolean());
    assertTrue(container.path("degreeHoursPerDay").isNull());
  }

  @Test
  void theClosetShowsItsColdHoursAndLightLeaks() {
    JsonNode closet = whole().path("containers").path(0);
    assertEquals(240, closet.path("coveredHours").asDouble(), 1e-6);
    double heat = 240 * 16 - 3.5 * 12.25;
    assertEquals(heat / 10, closet.path("degreeHoursPerDay").asDouble(), 1e-6);
    // The ramps cross 29.5 °C where 2 of their 3.5 °C are left.
    double outside = 12 + 0.5 * 2 / 3.5;
    assertEquals(1 - outside / 240, closet.path("fractionInTemperatureBand").asDouble(), 1e-6);
    assertEquals(27.5, closet.path("coldest").asDouble());
    assertEquals(31, closet.path("hottest").asDouble());
    assertEquals(1, closet.at("/cold/excursions").asInt());
    assertEquals(outside, closet.at("/cold/longestHours").asDouble(), 1e-3);
    assertEquals(12 * 2 + 0.25 * 2 * 2 / 3.5, closet.at("/cold/degreeHoursLost").asDouble(), 1e-3);
    assertEquals(0, closet.at("/hot/excursions").asInt());
    assertEquals(0, closet.path("dryHours").asDouble());
    assertEquals(240, closet.path("humidityCoveredHours").asDouble(), 1e-6);
    // From 40 lux to none in a quarter of an hour, twice; the third time it was open.
    assertEquals(2, closet.at("/leaks/count").asInt());
    assertEquals(2, closet.at("/leaks/byKind/0/days").asInt());
    assertEquals(10, closet.at("/leaks/doseLuxHours").asDouble(), 1e-6);
    assertEquals(1, closet.path("openings").asInt());
  }

  @Test
  void sowingsAndHeatSourcesAreCompared() {
    JsonNode report = whole();
    assertEquals(3, report.path("pairs").size());
    JsonNode pair = report.path("pairs").path(0);
    assertEquals(1, pair.path("first").asInt());
    assertEquals(2, pair.path("second").asInt());
    // 22 of 40 against 8 of 40, by hand: method 10 of Newcombe (1998), Fisher (1935), Fleiss 4.14.
    assertEquals(0.35, pair.at("/difference/value").asDouble(), 1e-12);
    assertEquals(0.13836, pair.at("/difference/low").asDouble(), 1e-5);
    assertEquals(0.52164, pair.at("/difference/high").asDouble(), 1e-5);
    assertEquals(0.0023996, pair.path("fisherP").asDouble(), 1e-7);
    assertEquals(29, pair.path("seedsEach").asInt());
    JsonNode sources = report.path("heatSources");
    // 18 °C above the base less 16, for a day, and a tenth of what the cold hours lost.
    JsonNode gain = sources.at("/pairs/0/degreeHoursPerDay/value");
    assertEquals(-(48 + 3.5 * 12.25 / 10), gain.asDouble(), 1e-6);
    assertEquals("only-these-containers", sources.at("/pairs/0/finding").asText());
    assertEquals(42, report.at("/species/0/germinated").asInt());
    assertEquals(100, report.at("/species/0/sown").asInt());
    // Closet and mat held seeds and were measured.
    double perDay = (2 * 384 + 48 - 3.5 * 12.25 / 10) / 2;
    assertEquals(perDay, report.at("/heat/degreeHoursPerDay").asDouble(), 1e-6);
    assertEquals(2, report.at("/heat/containers").asInt());
  }

  @Test
  void lessonsAreInOrder() {
    JsonNode lessons = whole().path("lessons");
    assertEquals(
        List.of("sowings", "blind", "light", "culled", "cold", "undecided"),
        lessons.findValuesAsText("kind"));
    assertEquals(
        "Closet was below 29.5 °C for 5 % of the measured time (12 h). Compared with that limit it lost"
            + " 24.3 °C·h.",
        lessons.path(4).path("words").asText());
  }

  @Test
  void aKeptSeasonStaysAsItWasAndIsComparedWith() {
    String body =
        "{\"name\":\" First half \",\"from\":\"%s\",\"to\":\"%s\",\"remark\":\"new closet\"}"
            .formatted(season.day(0), season.day(5));
    JsonNode frozen = report(0, 5);
    CheckedApi.Answer kept = api.call("POST", "/api/seasons", body, 201);
    String path = kept.header("location");
    assertEquals("First half", kept.json().path("name").asText());
    assertEquals(80, kept.json().path("sown").asInt());
    assertEquals(6, kept.json().path("germinated").asInt());
    assertEquals(kept.json(), api.get("/api/seasons").path(0));
    String detail =
        api.call("POST", "/api/seasons", body.replace(" First", "first"), 409)
            .json()
            .path("detail")
            .asText();
    assertTrue(detail.contains("\"first half\" is kept already"), detail);

    String usual = api.get("/api/seasons/report").path("from").asText();
    assertEquals(season.day(5.5).toString(), usual, "the first sowing that it did not have");
    JsonNode second = report(5, SmallSeason.DAYS);
    assertEquals(1, second.path("sowings").size());
    assertEquals(2, second.path("earlierSowings").asInt());
    JsonNode lychee = second.at("/earlier/0/species/0");
    assertEquals(40, lychee.at("/then/sown").asInt(), "nobody had looked into the tray yet");
    assertEquals(12, lychee.at("/now/germinated").asInt());
    // 12 of 20 less 6 of 40, by hand: method 10 of Newcombe (1998).
    assertEquals(0.45, lychee.at("/difference/value").asDouble(), 1e-12);
    assertEquals(0.19436, lychee.at("/difference/low").asDouble(), 1e-5);
    assertEquals(0.64782, lychee.at("/difference/high").asDouble(), 1e-5);
    // Then seeds lay in the closet and in the tray, of which the closet was measured.
    double then = (120 * 16 - 3.5 * 12.25) / 5;
    assertEquals(then, second.at("/earlier/0/heat/then").asDouble(), 1e-6);
    assertEquals("earlier", second.at("/lessons/0/kind").asText());
    assertTrue(whole().path("earlier").isEmpty(), "a season is not compared with a part of itself");

    api.put(
        "/api/containers/closet",
        "{\"name\":\"Closet\",\"kind\":\"bag\",\"heatSource\":\"closet\",\"base\":12}");
    try {
      assertFalse(report(0, 5).equals(frozen));
      JsonNode shown = api.get(path);
      assertEquals("new closet", shown.path("remark").asText());
      assertEquals(frozen, shown.path("report"));
    } finally {
      api.put(
          "/api/containers/closet",
          "{\"name\":\"Closet\",\"kind\":\"bag\",\"heatSource\":\"closet\"}");
    }
    api.call("DELETE", path, null, 204);
    api.call("GET", path, null, 404);
    assertTrue(api.get("/api/seasons").isEmpty());
  }

  @Test
  void withoutASpanTheReportGoesFromTheFirstSowingToNow() {
    JsonNode report = api.get("/api/seasons/report");
    assertEquals(season.day(0).toString(), report.path("from").asText());
    assertEquals(3, report.path("sowings").size());
    String path = "/api/seasons/report?to=";
    JsonNode ahead = api.get(path + season.day(100));
    assertFalse(season.day(11).toString().compareTo(ahead.path("to").asText()) < 0);
  }
}
