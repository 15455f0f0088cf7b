package tepidarium.stats;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.stream.DoubleStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import tepidarium.stats.KaplanMeier.Observed;

class SurvivalTest {
  private static final double NEVER = Double.POSITIVE_INFINITY;

  static Stream<JsonNode> curves() {
    return CheckRows.cases("time-to-event.json", "kaplan_meier").stream();
  }

  static Stream<JsonNode> turnbulls() {
    return CheckRows.cases("time-to-event.json", "turnbull").stream();
  }

  @ParameterizedTest
  @MethodSource("curves")
  void theCurveOfKaplanAndMeierIsThatOfTheSurvivalPackage(JsonNode check) {
    List<Observed> observed = new ArrayList<>();
    for (int i = 0; i < check.at("/input/time").size(); i++) {
      observed.add(
          new Observed(
              check.at("/input/time").path(i).asDouble(),
              check.at("/input/event").path(i).asInt() == 1));
    }
    KaplanMeier curve = KaplanMeier.of(observed);
    JsonNode expected = check.path("expected");
    assertEquals(expected.path("times").size(), curve.steps().size());
    for (int i = 0; i < curve.steps().size(); i++) {
      KaplanMeier.Step step = curve.steps().get(i);
      assertEquals(expected.path("times").path(i).asDouble(), step.time());
      assertEquals(expected.path("at_risk").path(i).asInt(), step.atRisk());
      assertEquals(expected.path("events").path(i).asInt(), step.events());
      assertEquals(expected.path("survival").path(i).asDouble(), step.survival(), 1e-6);
      if (expected.path("se_greenwood").path(i).isNull()) {
        assertTrue(Double.isNaN(step.error()));
      } else {
        assertEquals(expected.path("se_greenwood").path(i).asDouble(), step.error(), 1e-6);
        assertLimits(expected, "log", i, step.logLimits());
        assertLimits(expected, "loglog", i, step.logLogLimits());
      }
    }
    assertEquals(expected.path("median").asDouble(), curve.median().orElseThrow());
  }

  private static void assertLimits(
      JsonNode expected, String scale, int step, ConfidenceInterval limits) {
    String name = "ci95_" + scale;
    assertEquals(expected.path(name + "_low").path(step).asDouble(), limits.low(), 1e-6);
    assertEquals(expected.path(name + "_high").path(step).asDouble(), limits.high(), 1e-6);
  }

  @Test
  void theLogRankTestIsThatOfTheSurvivalPackage() {
    JsonNode check = CheckRows.cases("time-to-event.json", "logrank").get(0);
    List<Observed> first = new ArrayList<>();
    List<Observed> second = new ArrayList<>();
    for (JsonNode row : check.at("/input/rows")) {
      (row.path("group").asText().equals("Maintained") ? first : second)
          .add(new Observed(row.path("time").asDouble(), row.path("event").asInt() == 1));
    }
    LogRank test = LogRank.of(first, second);
    JsonNode expected = check.path("expected");
    assertEquals(expected.path("observed").path(0).asInt(), test.observed());
    assertEquals(expected.path("expected").path(0).asDouble(), test.expected(), 1e-5);
    assertEquals(expected.path("expected").path(1).asDouble(), test.expectedSecond(), 1e-5);
    assertEquals(expected.path("chi2").asDouble(), test.chiSquare(), 4e-6);
    assertEquals(expected.path("p").asDouble(), test.p(), 1e-7);
  }

  /** Freireich et al., Blood 21 (1963) 699-716, as in Cox (1972): weeks of remission. */
  @Test
  void theRemissionsOfFreireich() {
    List<Observed> treated = new ArrayList<>();
    DoubleStream.of(6, 6, 6, 7, 10, 13, 16, 22, 23)
        .forEach(t -> treated.add(new Observed(t, true)));
    DoubleStream.of(6, 9, 10, 11, 17, 19, 20, 25, 32, 32, 34, 35)
        .forEach(t -> treated.add(new Observed(t, false)));
    List<Observed> placebo = new ArrayList<>();
    DoubleStream.of(1, 1, 2, 2, 3, 4, 4, 5, 5, 8, 8, 8, 8, 11, 11, 12, 12, 15, 17, 22, 23)
        .forEach(t -> placebo.add(new Observed(t, true)));
    double[] expected = {0.8571, 0.8067, 0.7529, 0.6902, 0.6275, 0.5378, 0.4482};
    double[] found =
        KaplanMeier.of(treated).steps().stream().mapToDouble(KaplanMeier.Step::survival).toArray();
    for (int i = 0; i < expected.length; i++) {
      assertEquals(expected[i], found[i], 5e-5);
    }
    LogRank test = LogRank.of(treated, placebo);
    assertEquals(9, test.observed());
    assertEquals(19.25, test.expected(), 0.005);
    assertEquals(10.75, test.expectedSecond(), 0.005);
    assertEquals(16.79, test.chiSquare(), 0.005);
  }

  @ParameterizedTest
  @MethodSource("turnbulls")
  void theCurveOfTurnbullIsTheLikeliest(JsonNode check) {
    List<Censored> rows = CheckRows.rows(check.at("/input/rows"), "");
    Turnbull curve = Turnbull.of(rows);
    JsonNode expected = check.at("/expected/intervals");
    assertEquals(expected.size(), curve.steps().size());
    for (int i = 0; i < expected.size(); i++) {
      Turnbull.Step step = curve.steps().get(i);
      assertEquals(expected.path(i).path("left").asDouble(), step.left());
      assertEquals(expected.path(i).path("right").asDouble(NEVER), step.right());
      assertEquals(expected.path(i).path("mass").asDouble(), step.mass(), 1e-4);
    }
    assertEquals(check.at("/expected/loglik").asDouble(), curve.logLikelihood(), 1e-4);
    List<Censored> more = new ArrayList<>(rows);
    more.add(new Censored(0, NEVER, 50));
    assertEquals(curve, Turnbull.of(more));
  }

  @Test
  void countsAtSharedChecksGiveTheirPlainFractions() {
    Turnbull curve =
        Turnbull.of(
            List.of(
                new Censored(0, 7, 2),
                new Censored(7, 14, 5),
                new Censored(14, 21, 1),
                new Censored(21, NEVER, 8)));
    assertEquals(2 / 16.0, curve.atLeastBy(7), 1e-9);
    assertEquals(7 / 16.0, curve.atLeastBy(14), 1e-9);
    assertEquals(2 / 16.0, curve.atLeastBy(10), 1e-9);
    assertEquals(7 / 16.0, curve.atMostBy(10), 1e-9);
    assertEquals(8 / 16.0, curve.atMostBy(50), 1e-9);
    assertEquals(new ConfidenceInterval(14, 21), curve.when(0.5));
    assertEquals(new ConfidenceInterval(NEVER, NEVER), curve.when(0.51));
    assertThrows(IllegalArgumentException.class, () -> Turnbull.of(List.of()));
  }

  @Test
  void theIntervalLogRankFindsADifferenceAndNoneWhereThereIsNone() {
    int found = 0;
    int foundWithoutNeed = 0;
    for (int round = 0; round < 200; round++) {
      List<Censored> one = group(10, 2 * round);
      found += IntervalLogRank.of(one, group(15, 2 * round + 1)).p() < 0.05 ? 1 : 0;
      foundWithoutNeed += IntervalLogRank.of(one, group(10, 2 * round + 1)).p() < 0.05 ? 1 : 0;
    }
    assertTrue(found > 180, found + " of 200");
    assertTrue(foundWithoutNeed <= 20, foundWithoutNeed + " of 200");
  }

  private static List<Censored> group(double median, int seed) {
    Random random = new Random(20260301 + seed);
    List<Censored> rows = new ArrayList<>();
    for (int i = 0; i < 40; i++) {
      rows.add(seen(median * Math.exp(0.4 * random.nextGaussian()), 2 + i % 3));
    }
    return rows;
  }

  @Test
  void theIntervalLogRankIsSymmetricInTheGroups() {
    List<Censored> early = group(10, 1);
    List<Censored> late = group(15, 2);
    assertTrue(IntervalLogRank.of(late, early).score() > 0);
    assertEquals(IntervalLogRank.of(early, late).p(), IntervalLogRank.of(late, early).p(), 1e-9);
    assertEquals(1, IntervalLogRank.of(early, early).p(), 1e-9);
    assertEquals(1, IntervalLogRank.of(early, List.of()).p());
  }

  private static Censored seen(double time, int every) {
    double left = Math.floor(time / every) * every;
    return left >= 30 ? new Censored(30, NEVER, 1) : new Censored(left, left + every, 1);
  }

  /**
   * Without ties and censoring its scores are those of Savage, and it is near the log-rank test.
   */
  @Test
  void theIntervalLogRankIsNearTheLogRankAtSharedChecks() {
    List<Censored> first = new ArrayList<>();
    List<Censored> second = new ArrayList<>();
    List<Observed> firstExact = new ArrayList<>();
    List<Observed> secondExact = new ArrayList<>();
    Random random = new Random(7);
    for (int i = 0; i < 200; i++) {
      double time = (i % 2 == 0 ? 100 : 125) * Math.exp(0.6 * random.nextGaussian());
      double check = Math.ceil(time);
      Censored row = check > 300 ? new Censored(300, NEVER, 1) : new Censored(check - 1, check, 1);
      Observed exact = new Observed(Math.min(check, 300), check <= 300);
      (i % 2 == 0 ? first : second).add(row);
      (i % 2 == 0 ? firstExact : secondExact).add(exact);
    }
    double exact = LogRank.of(firstExact, secondExact).chiSquare();
    assertEquals(exact, IntervalLogRank.of(first, second).chiSquare(), 0.1 * exact);
  }
}
