package tepidarium.stats;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.MethodSource;
import tepidarium.CheckCase;
import tepidarium.stats.IntervalFit.Estimate;
import tepidarium.stats.IntervalFit.Parameter;

class IntervalFitTest {
  private static final double NEVER = Double.POSITIVE_INFINITY;

  static Stream<JsonNode> plainCases() {
    return CheckRows.cases("time-to-event.json", "interval_censored_fit").stream();
  }

  static Stream<JsonNode> fractionCases() {
    return CheckRows.cases("time-to-event.json", "cure_fraction_lognormal").stream();
  }

  static Stream<JsonNode> ratioCases() {
    return CheckRows.cases("time-to-event.json", "interval_censored_two_groups").stream();
  }

  static Stream<JsonNode> dishes() {
    List<JsonNode> arms = new ArrayList<>();
    CheckCase.json("germination/two-crops.expected.json").forEach(arms::add);
    return arms.stream();
  }

  private static TimeFamily family(String name) {
    return TimeFamily.valueOf(name.toUpperCase(Locale.ROOT));
  }

  private static void near(JsonNode expected, double actual, double relative) {
    assertEquals(expected.asDouble(), actual, Math.abs(expected.asDouble()) * relative);
  }

  @ParameterizedTest
  @MethodSource("plainCases")
  void plainFitsAreThoseOfTheSurvivalPackage(JsonNode check) {
    TimeFamily family = family(check.at("/input/distribution").asText());
    List<Censored> rows = CheckRows.rows(check.at("/input/rows"), "");
    IntervalFit fit = IntervalFit.of(new TimeModel(family, false), rows);
    JsonNode expected = check.path("expected");
    near(expected.path("location"), fit.estimate().mu(), 1e-4);
    near(expected.path("scale"), fit.estimate().sigma(), 1e-4);
    assertEquals(expected.path("loglik").asDouble(), fit.estimate().logLikelihood(), 1e-4);
    near(expected.path("median"), fit.median(), 1e-4);
    near(expected.path("se_location"), fit.standardErrors()[0], 2e-3);
    near(expected.path("se_log_scale"), fit.standardErrors()[1], 2e-3);
    assertEquals(4 - 2 * expected.path("loglik").asDouble(), fit.aic(), 2e-4);
  }

  @ParameterizedTest
  @MethodSource("fractionCases")
  void fitsWithAFinalFractionAgreeWithAReferenceProgram(JsonNode check) {
    List<Censored> rows = CheckRows.rows(check.at("/input/rows"), "");
    IntervalFit fit = IntervalFit.of(new TimeModel(TimeFamily.LOGNORMAL, true), rows);
    JsonNode expected = check.path("expected");
    near(expected.path("germinable_fraction"), fit.estimate().finalFraction(), 2e-4);
    near(expected.path("mu"), fit.estimate().mu(), 2e-4);
    near(expected.path("sigma"), fit.estimate().sigma(), 2e-4);
    near(expected.path("median_day_of_germinable"), fit.median(), 2e-4);
    assertEquals(expected.path("loglik").asDouble(), fit.estimate().logLikelihood(), 1e-4);
    near(expected.path("se_mu"), fit.standardErrors()[0], 5e-3);
    near(expected.path("se_log_sigma"), fit.standardErrors()[1], 5e-3);
    near(expected.path("se_logit_p"), fit.standardErrors()[2], 5e-3);
    // The profile interval is not Wald's, but tells nearly the same where there is enough seed.
    ConfidenceInterval profile = fit.interval(Parameter.FINAL_FRACTION);
    assertEquals(expected.at("/fraction_ci95_wald_logit/0").asDouble(), profile.low(), 0.02);
    assertEquals(expected.at("/fraction_ci95_wald_logit/1").asDouble(), profile.high(), 0.02);
  }

  @ParameterizedTest
  @MethodSource("ratioCases")
  void theTimeRatioOfTwoGroupsIsThatOfTheSurvivalPackage(JsonNode check) {
    TimeFamily family = family(check.at("/input/distribution").asText());
    TimeRatio ratio =
        TimeRatio.of(
                family,
                CheckRows.rows(check.at("/input/rows"), "closet"),
                CheckRows.rows(check.at("/input/rows"), "mat"))
            .orElseThrow();
    JsonNode expected = check.path("expected");
    near(expected.path("intercept"), ratio.mu(), 2e-4);
    near(expected.path("log_time_ratio"), ratio.logRatio(), 2e-4);
    near(expected.path("time_ratio"), ratio.ratio(), 2e-4);
    near(expected.path("scale"), ratio.sigma(), 2e-4);
    near(expected.path("se_log_time_ratio"), ratio.error(), 2e-3);
    near(expected.path("lr_chi2"), ratio.chiSquare(), 2e-4);
    near(expected.path("lr_p"), ratio.p(), 2e-4);
    assertEquals(expected.path("loglik").asDouble(), ratio.logLikelihood(), 1e-4);
    assertEquals(expected.path("loglik_null").asDouble(), ratio.logLikelihoodOfOne(), 1e-4);
    assertEquals(ratio.p() < 0.05, !ratio.limits().contains(1));
  }

  /** Ritz, Pipper and Streibig, European Journal of Agronomy 45 (2013) 1-6; R survreg and optim. */
  @ParameterizedTest
  @MethodSource("dishes")
  void everyDishOfTheTwoCropsIsFittedOrRefusedAsItShould(JsonNode dish) {
    List<Censored> rows = CheckRows.twoCrops().get(dish.path("arm").asText());
    assertEquals(dish.path("seeds").asInt(), Censored.count(rows));
    assertEquals(dish.path("germinated").asInt(), Censored.met(rows));
    for (TimeFamily family : TimeFamily.values()) {
      JsonNode expected = dish.path(family.word());
      Estimate found = IntervalFit.of(new TimeModel(family, false), rows).estimate();
      near(expected.path("mu"), found.mu(), 1e-3);
      near(expected.path("sigma"), found.sigma(), 1e-3);
      assertEquals(expected.path("logLikelihood").asDouble(), found.logLikelihood(), 1e-3);
    }
    IntervalFit withFraction = IntervalFit.of(new TimeModel(TimeFamily.LOGNORMAL, true), rows);
    JsonNode expected = dish.path("lognormalWithFinalFraction");
    switch (dish.path("arm").asText()) {
      case "wheat 40" -> refused(withFraction, "neighbouring intervals");
      case "mungbean 10", "mungbean 16" -> refused(withFraction, "every seed germinated");
      default -> {
        Estimate found = withFraction.estimate();
        assertEquals(expected.path("finalFraction").asDouble(), found.finalFraction(), 1e-3);
        assertEquals(expected.path("logLikelihood").asDouble(), found.logLikelihood(), 1e-2);
        near(expected.path("mu"), found.mu(), 1e-3);
        near(expected.path("sigma"), found.sigma(), 2e-3);
      }
    }
  }

  private static void refused(IntervalFit fit, String words) {
    assertFalse(fit.identified(), fit.model().word());
    assertTrue(fit.reason().words().contains(words), fit.reason().words());
    assertThrows(IllegalStateException.class, fit::estimate);
    assertThrows(IllegalStateException.class, fit::aic);
  }

  private static List<Censored> rows(double... cells) {
    List<Censored> rows = new ArrayList<>();
    for (int i = 0; i < cells.length; i += 3) {
      rows.add(new Censored(cells[i], cells[i + 1], (int) cells[i + 2]));
    }
    return rows;
  }

  /**
   * Computed with R 4.2.2: each profile by optim, the ends by uniroot on the mean of pnorm of the
   * signed roots with Akaike weights.
   */
  @Test
  void theFinalFractionIsAveragedOverTheFamilies() {
    List<Censored> early =
        rows(9, 12, 3, 12, 15, 7, 15, 18, 9, 18, 21, 8, 21, 24, 5, 24, NEVER, 18);
    ConfidenceInterval open = IntervalFit.finalFraction(IntervalFit.all(early)).orElseThrow();
    assertEquals(0.539027686, open.low(), 1e-5);
    assertEquals(1, open.high());
    List<Censored> late = new ArrayList<>(rows(9, 12, 3, 12, 15, 8, 15, 18, 9, 18, 21, 7));
    late.addAll(rows(21, 24, 4, 24, 27, 2, 27, 30, 1, 30, NEVER, 16));
    ConfidenceInterval closed = IntervalFit.finalFraction(IntervalFit.all(late)).orElseThrow();
    assertEquals(0.552962878, closed.low(), 1e-5);
    assertEquals(0.819563402, closed.high(), 1e-5);
  }

  @ParameterizedTest
  @EnumSource(TimeFamily.class)
  void unidentifiedFitsAreRefusedWithAReason(TimeFamily family) {
    TimeModel plain = new TimeModel(family, false);
    TimeModel part = new TimeModel(family, true);
    for (TimeModel model : List.of(plain, part)) {
      refused(IntervalFit.of(model, List.of()), "no check was recorded");
      refused(IntervalFit.of(model, rows(0, NEVER, 5)), "no check was recorded");
      refused(IntervalFit.of(model, rows(7, NEVER, 5)), "no seed has germinated yet");
      refused(IntervalFit.of(model, rows(7, 14, 9)), "same two checks");
      refused(IntervalFit.of(model, rows(7, 14, 9, 14, NEVER, 3)), "same two checks");
      refused(IntervalFit.of(model, rows(7, 14, 4, 14, 21, 5)), "neighbouring");
      refused(IntervalFit.of(model, rows(0, 7, 4, 7, NEVER, 5)), "between the same two checks");
    }
    refused(IntervalFit.of(plain, rows(0, 7, 4, 21, NEVER, 5)), "grows without limit");
    refused(
        IntervalFit.of(part, rows(0, 7, 1, 7, 14, 2, 14, 21, 4, 21, 28, 6, 28, NEVER, 40)),
        "estimated final fraction is 1");
  }

  @Test
  void twoTimesAreEnoughForAPlainFitAndAreMetExactly() {
    IntervalFit fit =
        IntervalFit.of(
            new TimeModel(TimeFamily.LOGNORMAL, false), rows(0, 7, 4, 7, 14, 3, 14, NEVER, 5));
    Estimate found = fit.estimate();
    double by7 = TimeFamily.LOGNORMAL.below((Math.log(7) - found.mu()) / found.sigma());
    double by14 = TimeFamily.LOGNORMAL.below((Math.log(14) - found.mu()) / found.sigma());
    assertEquals(4 / 12.0, by7, 1e-6);
    assertEquals(7 / 12.0, by14, 1e-6);
  }

  @ParameterizedTest
  @MethodSource("fractionCases")
  void emptyRowsAndSplitRowsChangeNothing(JsonNode check) {
    List<Censored> rows = CheckRows.rows(check.at("/input/rows"), "");
    List<Censored> other = new ArrayList<>();
    for (Censored row : rows) {
      for (int i = 0; i < row.count(); i++) {
        other.add(0, new Censored(row.left(), row.right(), 1));
      }
    }
    other.add(new Censored(0, NEVER, 1000));
    other.add(new Censored(3, 4, 0));
    for (TimeFamily family : TimeFamily.values()) {
      TimeModel model = new TimeModel(family, true);
      assertEquals(IntervalFit.of(model, rows).estimate(), IntervalFit.of(model, other).estimate());
    }
  }

  @ParameterizedTest
  @MethodSource("fractionCases")
  void anotherUnitOfTimeMovesMuAndNothingElse(JsonNode check) {
    List<Censored> days = CheckRows.rows(check.at("/input/rows"), "");
    List<Censored> hours =
        days.stream()
            .map(row -> new Censored(24 * row.left(), 24 * row.right(), row.count()))
            .toList();
    for (IntervalFit fit : IntervalFit.all(days)) {
      Estimate inDays = fit.estimate();
      Estimate inHours = IntervalFit.of(fit.model(), hours).estimate();
      assertEquals(inDays.mu() + Math.log(24), inHours.mu(), 1e-6);
      assertEquals(inDays.sigma(), inHours.sigma(), 1e-6);
      assertEquals(inDays.logLikelihood(), inHours.logLikelihood(), 1e-8);
    }
  }

  @ParameterizedTest
  @MethodSource("fractionCases")
  void profileIntervalsHoldTheEstimateAndAreWhereTheLikelihoodHasDropped(JsonNode check) {
    List<Censored> rows = CheckRows.rows(check.at("/input/rows"), "");
    for (IntervalFit fit : IntervalFit.all(rows)) {
      Estimate found = fit.estimate();
      assertNull(fit.reason());
      assertTrue(fit.interval(Parameter.MU).contains(found.mu()));
      assertTrue(fit.interval(Parameter.SIGMA).contains(found.sigma()));
      assertTrue(fit.interval(Parameter.FINAL_FRACTION).contains(found.finalFraction()));
      double low = fit.interval(Parameter.MU).low();
      double best = Double.NEGATIVE_INFINITY;
      // A search over a net, by no derivative, for the likeliest of the others at that end.
      for (double logSigma = -2; logSigma < 1; logSigma += 0.005) {
        if (fit.model().withFinalFraction()) {
          for (double logit = 0; logit < 4; logit += 0.02) {
            best = Math.max(best, fit.likelihood().value(new double[] {low, logSigma, logit}));
          }
        } else {
          best = Math.max(best, fit.likelihood().value(new double[] {low, logSigma}));
        }
      }
      assertEquals(found.logLikelihood() - 1.920729, best, 0.01);
    }
  }

  @Test
  void theLeastAicIsChosenAmongWhatIsIdentified() {
    List<IntervalFit> wheat = IntervalFit.all(CheckRows.twoCrops().get("wheat 10"));
    assertEquals(6, wheat.size());
    IntervalFit best = IntervalFit.best(wheat).orElseThrow();
    assertTrue(best.model().withFinalFraction());
    wheat.stream()
        .filter(IntervalFit::identified)
        .forEach(fit -> assertTrue(best.aic() <= fit.aic()));
    assertTrue(IntervalFit.best(IntervalFit.all(rows(7, 14, 9))).isEmpty());
  }

  @Test
  void anIntervalMustRunForward() {
    assertThrows(IllegalArgumentException.class, () -> new Censored(5, 5, 1));
    assertThrows(IllegalArgumentException.class, () -> new Censored(-1, 5, 1));
    assertThrows(IllegalArgumentException.class, () -> new Censored(Double.NaN, 5, 1));
    assertThrows(IllegalArgumentException.class, () -> new Censored(1, Double.NaN, 1));
    assertThrows(IllegalArgumentException.class, () -> new Censored(1, 5, -1));
  }
}
