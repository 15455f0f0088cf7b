package tepidarium.web.sums;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.List;
import org.junit.jupiter.api.Test;
import tepidarium.stats.Censored;
import tepidarium.stats.IntervalFit;
import tepidarium.stats.TimeFamily;
import tepidarium.stats.TimeModel;
import tepidarium.web.Json;

class SumsJsonTest {
  private static final double NEVER = Double.POSITIVE_INFINITY;

  /** 4 of 20 by day 8: the lognormal curve reaches half of all only beyond twice those days. */
  @Test
  void aMedianFarBeyondTheLastCheckIsNotReported() {
    List<Censored> rows =
        List.of(
            new Censored(0, 1, 2),
            new Censored(1, 3, 1),
            new Censored(5, 8, 1),
            new Censored(8, NEVER, 16));
    IntervalFit fit = IntervalFit.of(new TimeModel(TimeFamily.LOGNORMAL, false), rows);
    assertTrue(fit.median() > 16, "otherwise this test says nothing");
    JsonNode told = Json.MAPPER.valueToTree(SumsJson.Fit.of(fit));
    assertTrue(told.path("median").isNull(), told.toString());
    assertTrue(told.path("muInterval").isNull(), told.toString());
    assertTrue(told.path("medianReason").asText().contains("more than twice the time"));
    assertTrue(told.path("identified").asBoolean());
    assertEquals(fit.estimate().mu(), told.path("mu").asDouble(), 1e-12);
  }
}
