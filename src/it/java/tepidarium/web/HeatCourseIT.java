package tepidarium.web;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tepidarium.it.BenchShelf;
import tepidarium.it.Publisher;
import tepidarium.it.RunningService;

/**
 * Germination against heat on a shelf whose truth is known: a mat at 33 °C, and a lamp that keeps
 * about 30.5 °C. Every answer is held against the description of the API.
 */
class HeatCourseIT {
  private static final double BASE_C = 12;

  private static RunningService service;
  private static CheckedApi api;
  private static Instant sownAt;
  private static String sowing;

  @BeforeAll
  static void setUpAShelf(@TempDir Path data) {
    service = RunningService.embedded(data);
    tepidarium.it.Grower grower = new tepidarium.it.Grower(service.api());
    grower.awaitBroker();
    BenchShelf shelf = new BenchShelf(grower, Publisher.to(service.mqttPort()));
    shelf.fill();
    sownAt = shelf.end().minus(Duration.ofHours(230));
    api = new CheckedApi(service.url());
    String base = "{\"base\":{\"value\":12,\"source\":\"own results\"}}";
    api.post("/api/species", "{\"name\":\"Oil nut\",\"figures\":" + base + "}", 201);
    sowing = sow();
    int[] onTheMat = {0, 0, 0, 1, 3, 6, 8, 6, 4};
    int[] underTheLamp = {0, 0, 0, 0, 2, 4, 7, 8, 6};
    for (int day = 1; day <= onTheMat.length; day++) {
      check("1-1", day, onTheMat[day - 1]);
      check("1-2", day, underTheLamp[day - 1]);
    }
  }

  private static String sow() {
    String gathered = sownAt.minus(1, ChronoUnit.DAYS).toString();
    String lot = "{\"species\":\"oil-nut\",\"seeds\":80,\"gatheredAt\":\"%s\",\"from\":\"plant\"}";
    int id = api.post("/api/lots", lot.formatted(gathered), 201).path("id").asInt();
    String body =
        "{\"lot\":%d,\"groups\":[{\"container\":\"mat-1\",\"seeds\":40},"
            + "{\"container\":\"lamp-1\",\"seeds\":40}],\"at\":\"%s\"}";
    return api.call("POST", "/api/sowings", body.formatted(id, sownAt), 201).header("location");
  }

  private static void check(String group, int day, int germinated) {
    String body = "{\"germinated\":%d,\"at\":\"%s\"}".formatted(germinated, at(day));
    api.post("/api/groups/" + group + "/checks", body, 201);
  }

  private static Instant at(int day) {
    return sownAt.plus(Duration.ofDays(day));
  }

  @AfterAll
  static void stop() {
    service.close();
  }

  @Test
  void theCountsAreShownByHeat() {
    JsonNode course = api.get(sowing + "/heat-course");
    assertEquals(BASE_C, course.path("base").asDouble());
    int seeds = 0;
    for (JsonNode row : course.path("rows")) {
      seeds += row.path("count").asInt();
      assertTrue(row.path("measured").asBoolean());
      int to = row.path("toDay").asInt();
      if (to > 0 && row.path("group").asText().equals("1-1")) {
        assertHeatOfTheMat(row.path("to"), to);
      }
    }
    assertEquals(80, seeds);
    JsonNode fit = course.path("fit");
    assertTrue(fit.path("identified").asBoolean(), fit.toString());
    double median = fit.path("medianHeat").asDouble();
    assertTrue(fit.at("/medianInterval/0").asDouble() < median);
    assertTrue(fit.path("heatForTenth").asDouble() < median);
    double last = 0;
    for (JsonNode step : course.path("curve")) {
      assertTrue(step.path("from").asDouble() >= last, course.path("curve").toString());
      last = step.path("from").asDouble();
    }
  }

  /** The same sum as the container tells for that span and base; ±0.1 °C for all of it. */
  private void assertHeatOfTheMat(JsonNode dose, int day) {
    String span = "/heat?base=12&from=" + sownAt + "&to=" + at(day);
    JsonNode heat = api.get("/api/containers/mat-1" + span);
    double sum = heat.path("degreeHours").asDouble();
    assertEquals(sum, dose.path("likely").asDouble(), 1e-6);
    assertEquals(sum, dose.path("lower").asDouble(), 1e-6);
    assertEquals(sum, dose.path("upper").asDouble(), 1e-6);
    assertEquals(sum - 0.1 * 24 * day, dose.path("least").asDouble(), 1e-6);
    assertEquals(sum + 0.1 * 24 * day, dose.path("most").asDouble(), 1e-6);
    assertEquals(21 * 24 * day, sum, 0.01 * sum);
  }

  @Test
  void theNextTenthIsForecastForEachGroup() {
    JsonNode course = api.get(sowing + "/heat-course");
    assertTrue(course.path("noForecast").isNull(), course.path("noForecast").toString());
    JsonNode mat = course.path("forecasts").path(0);
    assertEquals("mat-1", mat.path("container").asText());
    assertEquals(12, mat.path("remaining").asInt());
    assertEquals(2, mat.path("seeds").asInt());
    assertEquals(21 * 24, mat.at("/heatPerDay/likely").asDouble(), 3);
    assertTrue(mat.at("/heatPerDay/low").asDouble() < 21 * 24 - 2);
    Instant at = Instant.parse(mat.path("at").asText());
    assertTrue(!at.isBefore(Instant.parse(mat.path("earliest").asText())));
    assertTrue(at.isBefore(Instant.now().plus(Duration.ofDays(3))), mat.toString());
    assertTrue(mat.path("words").asText().contains("2 of the 12 remaining seeds"), mat.toString());
  }

  @Test
  void aSpeciesCombinesTheResultsOfItsSowings() {
    JsonNode told = api.get("/api/species/oil-nut/thermal-time");
    assertEquals(1, told.path("sowings").size());
    assertEquals(80, told.path("seeds").asInt());
    assertEquals(55, told.path("germinated").asInt());
    assertTrue(told.at("/heatModel/aic").isNumber() && told.at("/clockModel/aic").isNumber());
    double first = told.at("/baseByLikelihood/profile/0/base").asDouble();
    assertEquals(0, first);
    assertEquals(26, told.at("/baseByLikelihood/profile").size());
    assertEquals(2, told.at("/baseByRegression/points").size());
    assertEquals(33, told.at("/baseByRegression/points/0/temperature").asDouble(), 0.2);
    assertTrue(told.at("/baseByRegression/reason").asText().endsWith("there are 2"));
    String words = told.path("verdictWords").asText();
    assertTrue(words.endsWith("."), words);
  }

  @Test
  void aSpeciesWithoutSowingsHasNoResult() {
    JsonNode none = api.get("/api/species/cacao/thermal-time");
    assertEquals(0, none.path("sowings").size());
    assertTrue(none.path("heatModel").isNull() && none.path("clockModel").isNull());
    assertEquals("cannotBeTold", none.path("verdict").asText());
    assertTrue(!none.at("/baseByLikelihood/identified").asBoolean());
  }

  @Test
  void noReadingsGiveNoHeat() {
    api.post("/api/containers", "{\"name\":\"Blind\",\"kind\":\"jar\"}", 201);
    String lot = api.get("/api/sowings/1").path("lot").asText();
    String gathered = sownAt.minusSeconds(86_400).toString();
    String more =
        "{\"species\":\"oil-nut\",\"seeds\":90,\"from\":\"plant\",\"gatheredAt\":\""
            + gathered
            + "\"}";
    api.put("/api/lots/" + lot, more);
    String body = "{\"lot\":%s,\"groups\":[{\"container\":\"blind\",\"seeds\":10}],\"at\":\"%s\"}";
    JsonNode sown = api.post("/api/sowings", body.formatted(lot, sownAt), 201);
    long id = sown.at("/sowing/id").asLong();
    api.post("/api/groups/" + id + "-1/checks", "{\"germinated\":3}", 201);
    JsonNode course = api.get("/api/sowings/" + id + "/heat-course");
    assertTrue(!course.at("/rows/0/measured").asBoolean());
    assertTrue(course.at("/fit/reason").asText().contains("less than half"));
    assertTrue(course.path("noForecast").asText().contains("less than half"));
    String undo = "/api/entries/" + sown.at("/entry/id").asText() + "/withdrawal";
    String check = api.get("/api/sowings/" + id + "/entries").path(1).path("id").asText();
    api.post("/api/entries/" + check + "/withdrawal", "{\"reason\":\"test\"}", 201);
    api.post(undo, "{\"reason\":\"test\"}", 201);
    api.call("GET", "/api/sowings/" + id + "/heat-course", null, 404);
  }
}
