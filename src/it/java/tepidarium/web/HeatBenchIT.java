package tepidarium.web;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.nio.file.Path;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tepidarium.it.BenchShelf;
import tepidarium.it.Publisher;
import tepidarium.it.RunningService;

/** Comparisons and trials of a shelf whose truth is known, each answer held against the API. */
class HeatBenchIT {
  private static final String COMPARE = "/api/compare/heat";

  private static RunningService service;
  private static CheckedApi api;

  @BeforeAll
  static void setUpAShelf(@TempDir Path data) {
    service = RunningService.embedded(data);
    tepidarium.it.Grower grower = new tepidarium.it.Grower(service.api());
    grower.awaitBroker();
    new BenchShelf(grower, Publisher.to(service.mqttPort())).fill();
    api = new CheckedApi(service.url());
  }

  @AfterAll
  static void stop() {
    service.close();
  }

  @Test
  void aWarmerSourceIsFound() {
    JsonNode answer = api.get(COMPARE + "?sources=mat,lamp");
    assertEquals("sources", answer.path("by").asText());
    JsonNode pair = answer.path("pairs").path(0);
    assertEquals("more", pair.path("finding").asText(), pair.toString());
    // 33 °C less 30.5 °C, for a day.
    assertEquals(60, pair.at("/differences/degreeHoursPerDay/value").asDouble(), 0.5);
    assertEquals(4.8, pair.path("sensorError").asDouble(), 1e-9);
    assertEquals(1 / 3.0, pair.path("leastPermutationP").asDouble(), 1e-9);
    String verdict = answer.path("verdict").asText();
    assertTrue(verdict.endsWith("can still be chance: add a container to each."), verdict);
    JsonNode lamp = answer.path("compared").path(1);
    assertEquals(2, lamp.path("containers").size());
    assertEquals(0, lamp.at("/spread/value").asDouble(), 0.05);
    assertEquals(24, lamp.path("profile").size());
  }

  @Test
  void daysEnteredByHandAreEstimatedAndComparedButNeverAdded() {
    String days = "/api/containers/mat-1/day-extremes";
    LocalDate measured = LocalDate.now(ZoneOffset.UTC).minusDays(3);
    LocalDate before = LocalDate.now(ZoneOffset.UTC).minusDays(30);
    double soFar = api.get("/api/containers/mat-1/heat").path("degreeHours").asDouble();
    api.put(days + '/' + measured, "{\"min\":1,\"max\":2}");
    api.put(days + '/' + measured, "{\"min\":32.7,\"max\":33.3}");
    api.put(days + '/' + before, "{\"min\":20,\"max\":30}");
    JsonNode answer = api.get(days);
    assertEquals(2, answer.path("days").size());
    // Above the base of 15 °C all day: 24 times the mean less the base.
    assertEquals(240, answer.at("/days/0/estimate").asDouble(), 1e-9);
    assertTrue(answer.at("/days/0/measured").isNull());
    assertEquals(432, answer.at("/days/1/estimate").asDouble(), 1e-9);
    assertEquals(432, answer.at("/days/1/measured").asDouble(), 1);
    assertEquals(240, answer.path("unmeasured").asDouble(), 1e-9);
    assertEquals(1, answer.path("bothDays").asInt());
    assertEquals(0, answer.path("meanDifference").asDouble(), 1);
    assertEquals(soFar, api.get("/api/containers/mat-1/heat").path("degreeHours").asDouble(), 10);
    api.call("DELETE", days + '/' + before, null, 204);
    assertEquals(1, api.get(days).path("days").size());
  }

  @Test
  void equalContainersShowNoDifference() {
    JsonNode answer = api.get(COMPARE + "?containers=mat-1,mat-2&base=10&ceiling=36");
    JsonNode pair = answer.path("pairs").path(0);
    assertTrue(
        pair.path("finding").asText().equals("none-shown")
            || pair.path("finding").asText().equals("within-sensor-error"),
        pair.toString());
    assertEquals(10, answer.path("base").asDouble());
    JsonNode first = answer.path("compared").path(0);
    // 33 °C is 23 °C above that base.
    assertEquals(23 * 24, first.at("/measures/degreeHoursPerDay/value").asDouble(), 1);
    assertEquals(1, first.at("/measures/fractionInside/value").asDouble(), 0.01);
    assertTrue(first.path("spread").isNull());
  }

  @Test
  void oneRuleCountsForAll() {
    api.put(
        "/api/containers/lamp-2",
        "{\"name\":\"Lamp 2\",\"kind\":\"bag\",\"heatSource\":\"lamp\",\"base\":20}");
    JsonNode pair = api.get(COMPARE + "?containers=lamp-1,lamp-2").path("pairs").path(0);
    assertEquals(0, pair.at("/differences/degreeHoursPerDay/value").asDouble(), 0.5);
  }

  @Test
  void oneDayGivesNoVerdict() {
    JsonNode all = api.get(COMPARE + "?containers=mat-1,lamp-1");
    JsonNode pair =
        api.get(COMPARE + "?containers=mat-1,lamp-1&from=" + lastDay(all)).path("pairs").path(0);
    assertEquals("cannot-tell", pair.path("finding").asText(), pair.toString());
    assertTrue(pair.at("/differences/degreeHoursPerDay/low").isNull());
  }

  private static String lastDay(JsonNode answer) {
    return Instant.parse(answer.path("to").asText()).minusSeconds(86_400).toString();
  }

  @Test
  void theLampOnTrialShowsItsRiseAndTimeConstant() {
    JsonNode trial = api.get("/api/containers/lamp-1/trial?watts=40");
    assertEquals("told", trial.path("outcome").asText(), trial.toString());
    assertEquals(BenchShelf.LAMP_TAU_HOURS, trial.at("/timeConstantHours/value").asDouble(), 0.6);
    assertEquals(BenchShelf.LAMP_RISE_C, trial.at("/rise/value").asDouble(), 0.15);
    assertEquals(29.5 - BenchShelf.LAMP_RISE_C, trial.at("/low/roomBelow/value").asDouble(), 0.15);
    assertEquals(0.96, trial.at("/energy/kilowattHoursPerDay").asDouble(), 1e-9);
    assertTrue(trial.at("/energy/atMost").asBoolean());
    assertEquals(0.2, trial.path("sensorError").asDouble(), 1e-9);
    assertTrue(trial.path("coveredHours").asDouble() > 40, trial.toString());
  }

  @Test
  void aRegulatedPlaceIsRecognised() {
    JsonNode trial = api.get("/api/containers/mat-1/trial");
    assertEquals("regulated", trial.path("outcome").asText(), trial.toString());
    assertTrue(trial.path("low").isNull());
    assertTrue(trial.path("energy").isNull());
  }
}
