package tepidarium.germination;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.Collections;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import tepidarium.stats.BetaBinomial;
import tepidarium.stats.CheckRows;
import tepidarium.stats.Proportion;

class SeedsNeededTest {
  static Stream<JsonNode> known() {
    return CheckRows.cases("proportions.json", "seeds_to_sow_known_rate").stream();
  }

  static Stream<JsonNode> uncertain() {
    return CheckRows.cases("proportions.json", "seeds_to_sow_uncertain_rate").stream();
  }

  @ParameterizedTest
  @MethodSource("known")
  void seedsForAKnownFraction(JsonNode check) {
    int wanted = check.at("/input/seedlings_wanted").asInt();
    double fraction = check.at("/input/germination_probability").asDouble();
    long seeds =
        SeedsNeeded.knownFraction(wanted, check.at("/input/assurance").asDouble(), fraction)
            .orElseThrow();
    JsonNode expected = check.path("expected");
    assertEquals(expected.path("seeds_to_sow").asLong(), seeds);
    assertEquals(
        expected.path("probability_reached").asDouble(),
        SeedsNeeded.binomialAtLeast(wanted, (double) seeds, fraction),
        1e-8);
    assertEquals(
        expected.path("probability_with_one_fewer").asDouble(),
        SeedsNeeded.binomialAtLeast(wanted, seeds - 1.0, fraction),
        1e-8);
  }

  @ParameterizedTest
  @MethodSource("uncertain")
  void seedsForAFractionKnownFromAResult(JsonNode check) {
    int wanted = check.at("/input/seedlings_wanted").asInt();
    BetaBinomial after =
        BetaBinomial.after(
            new Proportion(
                check.at("/input/observed_germinated").asInt(),
                check.at("/input/observed_sown").asInt()),
            check.at("/input/prior_alpha").asDouble(),
            check.at("/input/prior_beta").asDouble());
    long seeds =
        SeedsNeeded.after(wanted, check.at("/input/assurance").asDouble(), after).orElseThrow();
    JsonNode expected = check.path("expected");
    assertEquals(expected.path("seeds_to_sow").asLong(), seeds);
    assertEquals(
        expected.path("probability_reached").asDouble(), after.atLeast(wanted, seeds), 1e-6);
    assertEquals(expected.path("posterior_mean").asDouble(), after.mean(), 1e-9);
  }

  /** SciPy 1.10: negative binomial quantiles. */
  @ParameterizedTest
  @CsvSource({
    "12, 0.90, 0.18, 90",
    "20, 0.95, 0.20, 135",
    "1, 0.95, 0.15, 19",
    "7, 0.99, 1, 7",
    "1, 0.5, 0.5, 1",
    "1, 0.75, 0.5, 2",
    "1, 0.875, 0.5, 3",
  })
  void seedsForAFraction(int wanted, double confidence, double fraction, long seeds) {
    assertEquals(seeds, SeedsNeeded.knownFraction(wanted, confidence, fraction).orElseThrow());
  }

  /** SciPy 1.10: beta-binomial tail with Jeffreys' prior. */
  @ParameterizedTest
  @CsvSource({"12, 0.90, 45, 250, 94", "12, 0.90, 3, 16, 136"})
  void aSmallTrialCostsSeeds(int wanted, double confidence, int hits, int of, long seeds) {
    assertEquals(
        seeds, SeedsNeeded.afterResult(wanted, confidence, new Proportion(hits, of)).orElseThrow());
  }

  @Test
  void moreThanAThousandMillionIsNoAnswer() {
    assertTrue(SeedsNeeded.knownFraction(1000, 0.9, 1e-9).isEmpty());
    // ln 0.1 / ln(1 - 1e-8) = 230258508.1, so one more.
    assertEquals(230_258_509L, SeedsNeeded.knownFraction(1, 0.9, 1e-8).orElseThrow());
    assertTrue(SeedsNeeded.afterResult(1000, 0.9999, new Proportion(0, 5)).isEmpty());
  }

  /**
   * Brute force in NumPy and SciPy: 1500 means by 400 spreads, beta-binomial tails summed term by
   * term. The last bound is what the integration promises, 0.5 % of the answer.
   */
  @ParameterizedTest
  @CsvSource({
    "20, 0.90, 1526, 6/300 6/300 6/300 6/300 6/300 6/300 6/300 6/300 6/300 6/300",
    "20, 0.95, 1778, 6/300 6/300 6/300 6/300 6/300 6/300 6/300 6/300 6/300 6/300",
    "12, 0.90, 130, 18/100 20/100 19/100",
  })
  void severalLotsAgreeWithBruteForce(int wanted, double confidence, long seeds, String lots) {
    List<Proportion> past =
        Stream.of(lots.split(" "))
            .map(lot -> lot.split("/"))
            .map(lot -> new Proportion(Integer.parseInt(lot[0]), Integer.parseInt(lot[1])))
            .toList();
    long found = SeedsNeeded.afterLots(wanted, confidence, past).orElseThrow();
    assertEquals(seeds, found, 0.005 * seeds);
  }

  @Test
  void hugeLotsGiveTheAnswerOfAKnownFraction() {
    List<Proportion> lots = Collections.nCopies(100, new Proportion(200_000, 1_000_000));
    long known = SeedsNeeded.knownFraction(20, 0.9, 0.2).orElseThrow();
    assertEquals(known, SeedsNeeded.afterLots(20, 0.9, lots).orElseThrow(), 1);
  }

  @Test
  void aHundredThousandWantedIsAnswered() {
    List<Proportion> lots = Collections.nCopies(10, new Proportion(6, 300));
    long seeds = SeedsNeeded.afterLots(100_000, 0.9, lots).orElseThrow();
    assertTrue(seeds > 5_200_000 && seeds < 8_000_000, "" + seeds);
  }

  @Test
  void lotsThatDifferCostMoreSeedsThanLotsThatDoNot() {
    List<Proportion> alike =
        List.of(new Proportion(18, 100), new Proportion(20, 100), new Proportion(19, 100));
    List<Proportion> different =
        List.of(new Proportion(2, 100), new Proportion(35, 100), new Proportion(20, 100));
    long pooled = SeedsNeeded.afterResult(12, 0.9, new Proportion(57, 300)).orElseThrow();
    long forAlike = SeedsNeeded.afterLots(12, 0.9, alike).orElseThrow();
    long forDifferent = SeedsNeeded.afterLots(12, 0.9, different).orElseThrow();
    assertTrue(pooled < forAlike, pooled + " and " + forAlike);
    assertTrue(forAlike < forDifferent, forAlike + " and " + forDifferent);
    assertTrue(BetaBinomial.fit(alike).spread() < 0.001);
    assertEquals(0.19, BetaBinomial.fit(alike).mean(), 0.001);
    BetaBinomial fit = BetaBinomial.fit(different);
    assertTrue(fit.spread() > 0.05);
    // No other mean and spread close by is likelier.
    for (double step : new double[] {-0.01, 0.01}) {
      assertTrue(
          fit.logLikelihood(different)
              >= BetaBinomial.ofMean(fit.mean() + step, fit.spread()).logLikelihood(different));
      assertTrue(
          fit.logLikelihood(different)
              >= BetaBinomial.ofMean(fit.mean(), fit.spread() + step).logLikelihood(different));
    }
  }

  @Test
  void theProbabilitiesOfAllCountsAddUpToOne() {
    BetaBinomial after = BetaBinomial.after(new Proportion(3, 16));
    double sum = 0;
    for (int k = 20; k >= 0; k--) {
      sum += Math.exp(after.logProbability(k, 20));
      assertEquals(sum, after.atLeast(k, 20), 1e-9);
    }
    assertEquals(1, sum, 1e-9);
  }

  @Test
  void invalidInputIsRefused() {
    assertThrows(IllegalArgumentException.class, () -> SeedsNeeded.knownFraction(0, 0.9, 0.5));
    assertThrows(IllegalArgumentException.class, () -> SeedsNeeded.knownFraction(1, 1, 0.5));
    assertThrows(IllegalArgumentException.class, () -> SeedsNeeded.knownFraction(1, 0.9, 0));
    assertThrows(
        IllegalArgumentException.class,
        () -> SeedsNeeded.afterLots(1, 0.9, List.of(new Proportion(1, 2))));
    assertThrows(
        IllegalArgumentException.class,
        () -> BetaBinomial.fit(List.of(new Proportion(2, 2), new Proportion(2, 2))));
  }
}
