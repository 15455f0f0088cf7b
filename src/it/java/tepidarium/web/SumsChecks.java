package tepidarium.web;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.List;
import java.util.Map;
import tepidarium.CheckCase;
import tepidarium.stats.Censored;
import tepidarium.stats.CheckRows;

/** The sums over HTTP against the independent check files; the sources are in the files. */
final class SumsChecks {
  private static final ObjectMapper JSON = new ObjectMapper();

  private final CheckedApi api;

  SumsChecks(CheckedApi api) {
    this.api = api;
  }

  private JsonNode ask(String sum, ObjectNode body) {
    return api.post("/api/sums/" + sum, body.toString(), 200);
  }

  private static ObjectNode count(JsonNode germinated, JsonNode sown) {
    return JSON.createObjectNode().put("germinated", germinated.asInt()).put("sown", sown.asInt());
  }

  private static void pair(JsonNode expected, JsonNode found) {
    assertEquals(expected.path(0).asDouble(), found.path(0).asDouble(), 1e-6);
    assertEquals(expected.path(1).asDouble(), found.path(1).asDouble(), 1e-6);
  }

  void fractions() {
    for (JsonNode check : CheckRows.cases("proportions.json", "one_proportion_interval")) {
      JsonNode found = ask("fraction", count(check.at("/input/x"), check.at("/input/n")));
      JsonNode expected = check.path("expected");
      assertEquals(expected.path("proportion").asDouble(), found.path("fraction").asDouble(), 1e-9);
      pair(expected.path("wilson95"), found.path("wilson"));
      pair(expected.path("clopper_pearson95"), found.path("exact"));
    }
  }

  void differences() {
    for (JsonNode check : CheckRows.cases("proportions.json", "difference_interval")) {
      ObjectNode body = JSON.createObjectNode();
      body.set("a", count(check.at("/input/x1"), check.at("/input/n1")));
      body.set("b", count(check.at("/input/x2"), check.at("/input/n2")));
      JsonNode found = ask("difference", body);
      JsonNode expected = check.path("expected");
      assertEquals(
          expected.path("difference").asDouble(), found.path("difference").asDouble(), 1e-9);
      pair(expected.path("newcombe95"), found.path("newcombe"));
      boolean equal = expected.path("difference").asDouble() == 0;
      assertEquals(equal, found.path("seedsEachForPower80").isNull());
    }
    JsonNode bags =
        api.post(
            "/api/sums/difference",
            "{\"a\":{\"germinated\":45,\"sown\":250},\"b\":{\"germinated\":3,\"sown\":16}}",
            200);
    assertEquals(41_856, bags.path("seedsEachForPower80").asLong());
    assertEquals(1, bags.path("fisherP").asDouble(), 1e-9);
  }

  void strata() {
    for (JsonNode check : CheckRows.cases("proportions.json", "stratified_two_by_two")) {
      ObjectNode body = JSON.createObjectNode();
      ArrayNode strata = body.putArray("strata");
      for (JsonNode stratum : check.at("/input/strata")) {
        ObjectNode both = strata.addObject();
        both.set("a", outcome(stratum.path("group1")));
        both.set("b", outcome(stratum.path("group2")));
      }
      JsonNode found = ask("stratified", body);
      JsonNode expected = check.path("expected");
      assertEquals(
          expected.path("chi2_no_continuity").asDouble(), found.path("chiSquare").asDouble(), 1e-6);
      assertEquals(expected.path("p").asDouble(), found.path("p").asDouble(), 1e-6);
      pair(expected.path("or_ci95"), found.path("oddsRatioInterval"));
    }
    JsonNode open =
        api.post(
            "/api/sums/stratified",
            "{\"strata\":[{\"a\":{\"germinated\":9,\"sown\":9},\"b\":{\"germinated\":0,\"sown\":9}}]}",
            200);
    assertTrue(open.path("oddsRatio").isNull());
    assertTrue(open.path("heterogeneity").isNull());
    assertTrue(open.at("/perStratum/interval").isNull());
  }

  private static ObjectNode outcome(JsonNode counts) {
    int hits = counts.path(0).asInt();
    return JSON.createObjectNode()
        .put("germinated", hits)
        .put("sown", hits + counts.path(1).asInt());
  }

  void replicates() {
    JsonNode found =
        api.post(
            "/api/sums/replicates",
            "{\"replicates\":[{\"germinated\":3,\"sown\":16},{\"germinated\":9,\"sown\":16},"
                + "{\"germinated\":4,\"sown\":16}]}",
            200);
    // All ways counted with exact fractions in Python.
    assertEquals(0.0686349665, found.path("p").asDouble(), 1e-9);
    assertTrue(found.path("exact").asBoolean());
    assertFalse(found.path("differ").asBoolean());
  }

  void seedsNeeded() {
    for (JsonNode check : CheckRows.cases("proportions.json", "seeds_to_sow_known_rate")) {
      ObjectNode body =
          JSON.createObjectNode()
              .put("wanted", check.at("/input/seedlings_wanted").asInt())
              .put("confidence", check.at("/input/assurance").asDouble())
              .put("fraction", check.at("/input/germination_probability").asDouble());
      assertEquals(
          check.at("/expected/seeds_to_sow").asLong(),
          ask("seeds-needed", body).path("seeds").asLong());
    }
    JsonNode small =
        api.post(
            "/api/sums/seeds-needed",
            "{\"wanted\":12,\"confidence\":0.9,\"germinated\":3,\"sown\":16}",
            200);
    assertEquals(136, small.path("seeds").asLong());
    long alike =
        seedsAfterLots("[{\"germinated\":18,\"sown\":100},{\"germinated\":18,\"sown\":100}]");
    long unlike =
        seedsAfterLots("[{\"germinated\":4,\"sown\":100},{\"germinated\":32,\"sown\":100}]");
    assertTrue(alike >= 90 && unlike > 2 * alike, alike + " and " + unlike);
  }

  private long seedsAfterLots(String lots) {
    String body = "{\"wanted\":12,\"confidence\":0.9,\"lots\":" + lots + '}';
    return api.post("/api/sums/seeds-needed", body, 200).path("seeds").asLong();
  }

  void fits() {
    for (JsonNode check : CheckRows.cases("time-to-event.json", "interval_censored_fit")) {
      JsonNode fit =
          fit(
              CheckRows.rows(check.at("/input/rows"), ""),
              check.at("/input/distribution").asText());
      JsonNode expected = check.path("expected");
      near(expected.path("location"), fit.path("mu"), 1e-4);
      near(expected.path("scale"), fit.path("sigma"), 1e-4);
      near(expected.path("median"), fit.path("median"), 1e-4);
      double log = expected.path("loglik").asDouble();
      assertEquals(log, fit.path("logLikelihood").asDouble(), 1e-4);
      assertEquals(4 - 2 * log, fit.path("aic").asDouble(), 2e-4);
    }
    for (JsonNode check : CheckRows.cases("time-to-event.json", "cure_fraction_lognormal")) {
      JsonNode fit = fit(CheckRows.rows(check.at("/input/rows"), ""), "lognormalWithFinalFraction");
      near(check.at("/expected/germinable_fraction"), fit.path("finalFraction"), 2e-4);
      near(check.at("/expected/mu"), fit.path("mu"), 2e-4);
      near(check.at("/expected/sigma"), fit.path("sigma"), 2e-4);
      assertTrue(
          fit.at("/finalFractionInterval/0").asDouble() < fit.path("finalFraction").asDouble());
    }
  }

  void dishes() {
    Map<String, List<Censored>> dishes = CheckRows.twoCrops();
    for (JsonNode dish : CheckCase.json("germination/two-crops.expected.json")) {
      String arm = dish.path("arm").asText();
      JsonNode fit = fit(dishes.get(arm), "lognormalWithFinalFraction");
      if (arm.equals("wheat 40") || arm.startsWith("mungbean")) {
        assertFalse(fit.path("identified").asBoolean(), arm);
        assertFalse(fit.path("reason").asText().isEmpty(), arm);
        for (String number : List.of("mu", "sigma", "finalFraction", "logLikelihood", "aic")) {
          assertTrue(fit.path(number).isNull(), arm + ": " + number);
        }
      } else {
        JsonNode expected = dish.path("lognormalWithFinalFraction");
        assertEquals(
            expected.path("finalFraction").asDouble(),
            fit.path("finalFraction").asDouble(),
            1e-3,
            arm);
      }
    }
  }

  private JsonNode fit(List<Censored> rows, String model) {
    ObjectNode body = JSON.createObjectNode();
    ArrayNode intervals = body.putArray("intervals");
    for (Censored row : rows) {
      ObjectNode interval = intervals.addObject().put("from", row.left()).put("count", row.count());
      if (row.open()) {
        interval.putNull("to");
      } else {
        interval.put("to", row.right());
      }
    }
    for (JsonNode fit : ask("germination", body).path("fits")) {
      if (fit.path("model").asText().equals(model)) {
        return fit;
      }
    }
    throw new AssertionError("no " + model);
  }

  private static void near(JsonNode expected, JsonNode found, double relative) {
    double value = expected.asDouble();
    assertEquals(value, found.asDouble(), Math.abs(value) * relative);
  }

  void air() {
    for (JsonNode check : CheckRows.cases("humidity.json", "vpd_single_reading")) {
      ObjectNode body =
          JSON.createObjectNode()
              .put("temperature", check.at("/input/temp_c").asDouble())
              .put("humidity", check.at("/input/rh_pct").asDouble());
      assertEquals(
          check.at("/expected/vpd_kpa").asDouble(),
          ask("air", body).path("deficit").asDouble(),
          1e-6);
    }
    JsonNode wet = api.post("/api/sums/air", "{\"temperature\":30,\"humidity\":96}", 200);
    assertEquals(4.2431, wet.path("saturationPressure").asDouble(), 5e-5);
    // WMO-No. 8 gives 29.291 °C by another formula.
    assertEquals(29.291, wet.path("dewPoint").asDouble(), 0.005);
    JsonNode dry = api.post("/api/sums/air", "{\"temperature\":30,\"humidity\":0}", 200);
    assertTrue(dry.path("dewPoint").isNull());
  }
}
