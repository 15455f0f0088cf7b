package tepidarium.stats;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;

/** The cases come from proportions.json, computed with R's mantelhaen.test and by closed form. */
class StratifiedTest {
  static Stream<JsonNode> cases() {
    return CheckRows.cases("proportions.json", "stratified_two_by_two").stream();
  }

  private static Stratified read(JsonNode check) {
    List<ProportionDifference> strata = new ArrayList<>();
    for (JsonNode stratum : check.at("/input/strata")) {
      strata.add(
          new ProportionDifference(group(stratum.path("group1")), group(stratum.path("group2"))));
    }
    return new Stratified(strata);
  }

  private static Proportion group(JsonNode counts) {
    int hits = counts.path(0).asInt();
    return new Proportion(hits, hits + counts.path(1).asInt());
  }

  @ParameterizedTest
  @MethodSource("cases")
  void testAndCommonOddsRatioArePublished(JsonNode check) {
    Stratified all = read(check);
    JsonNode expected = check.path("expected");
    assertEquals(expected.path("chi2_no_continuity").asDouble(), all.chiSquare(), 1e-6);
    assertEquals(expected.path("p").asDouble(), all.p(), 1e-6);
    assertEquals(expected.path("common_odds_ratio").asDouble(), all.oddsRatio(), 1e-6);
    ConfidenceInterval limits = all.oddsRatioLimits();
    assertNotNull(limits);
    assertEquals(expected.at("/or_ci95/0").asDouble(), limits.low(), 1e-6);
    assertEquals(expected.at("/or_ci95/1").asDouble(), limits.high(), 2e-6);
  }

  /**
   * Second case, the Berkeley admissions: Breslow and Day's 18.826, p 0.002071 is published with
   * the data in several packages (value from memory). Both rows, Tarone's correction and the
   * difference were computed with SciPy, its root finder giving the expected counts.
   */
  @ParameterizedTest
  @CsvSource({
    "0, 0.2365684500, 0.8884434989, 0.2833333333",
    "1, 18.8255012521, 0.0020714014, -0.0172636261",
  })
  void strataThatDisagreeAreFound(int which, double chiSquare, double p, double difference) {
    Stratified all = read(CheckRows.cases("proportions.json", "stratified_two_by_two").get(which));
    Stratified.Heterogeneity found = all.heterogeneity();
    assertNotNull(found);
    assertEquals(chiSquare, found.chiSquare(), 1e-6);
    assertEquals(p, found.p(), 1e-8);
    assertEquals(difference, all.difference(), 1e-9);
  }

  /** A single stratum is a plain comparison: 56/70 against 48/80 is row (a) of Newcombe (1998). */
  @Test
  void oneStratumHasTheIntervalOfPlainProportions() {
    ConfidenceInterval limits = new Stratified(List.of(stratum(56, 70, 48, 80))).differenceLimits();
    assertEquals(0.0524, limits.low(), 5e-5);
    assertEquals(0.3339, limits.high(), 5e-5);
  }

  /** The interval was of width 0 where all or none germinated, however few the seeds. */
  @ParameterizedTest
  @CsvSource({"0, 0", "3, 3", "3, 0"})
  void fewSeedsLeaveTheDifferenceUncertainAlsoWhenAllOrNoneGerminate(int a, int b) {
    ConfidenceInterval limits =
        new Stratified(Collections.nCopies(2, stratum(a, 3, b, 3))).differenceLimits();
    assertTrue(limits.high() - limits.low() > 0.3, limits.toString());
  }

  /** Computed with R 4.2.2, mantelhaen.test(exact = TRUE). */
  @Test
  void fewSeedsAreTestedExactly() {
    exactP(0.005, stratum(3, 3, 0, 3), stratum(3, 3, 0, 3));
    exactP(0.32987012987, stratum(3, 4, 1, 3), stratum(2, 5, 1, 6));
    exactP(
        0.00249286805452, stratum(12, 20, 5, 20), stratum(9, 20, 4, 20), stratum(15, 20, 10, 20));
    exactP(0.0110379816262, stratum(1, 8, 6, 9), stratum(0, 5, 2, 4), stratum(2, 2, 3, 3));
    Double admissions =
        read(CheckRows.cases("proportions.json", "stratified_two_by_two").get(1)).exactP();
    assertNotNull(admissions);
    assertEquals(0.227762526798, admissions, 1e-10);
    ProportionDifference large = stratum(50_000, 100_000, 40_000, 100_000);
    assertNull(new Stratified(List.of(large, large)).exactP());
  }

  private static void exactP(double expected, ProportionDifference... strata) {
    Double found = new Stratified(List.of(strata)).exactP();
    assertNotNull(found);
    assertEquals(expected, found, 1e-10);
  }

  @Test
  void strataWithEqualDifferencesGiveNoInterval() {
    assertNull(new Stratified(Collections.nCopies(3, stratum(3, 3, 0, 3))).perStratum());
  }

  private static ProportionDifference stratum(int a, int of, int b, int than) {
    return new ProportionDifference(new Proportion(a, of), new Proportion(b, than));
  }

  /** All seeds together 64 of 100 against 36 of 100, but within each stratum 10 points apart. */
  @Test
  void aGoodSeasonDoesNotCountForTheTreatmentThatHadMoreSeedsInIt() {
    Stratified all = new Stratified(List.of(stratum(8, 20, 24, 80), stratum(56, 80, 12, 20)));
    assertEquals(0.1, all.difference(), 1e-12);
  }

  @Test
  void uninformativeCountsLeaveTheRatioUnknown() {
    Stratified none = new Stratified(List.of(stratum(0, 10, 0, 10), stratum(5, 5, 5, 5)));
    assertEquals(1, none.p());
    assertNull(none.oddsRatioLimits());
    assertNull(none.heterogeneity());
    Stratified clear = new Stratified(List.of(stratum(10, 10, 0, 10)));
    assertEquals(Double.POSITIVE_INFINITY, clear.oddsRatio());
    assertNull(clear.oddsRatioLimits());
    assertEquals(1, clear.difference());
    assertThrows(IllegalArgumentException.class, () -> new Stratified(List.of()));
  }

  /** 2 / 2^K, the fewest of all changes of sign. */
  @ParameterizedTest
  @CsvSource({"1, 1", "3, 0.25", "6, 0.03125"})
  void soFewStrataCannotGiveASmallerP(int strata, double least) {
    Stratified all = new Stratified(Collections.nCopies(strata, stratum(15, 20, 5, 20)));
    assertEquals(least, all.flips().leastP());
    assertEquals(least, all.flips().p());
    assertNull(new Stratified(Collections.nCopies(21, stratum(1, 2, 1, 2))).flips().p());
  }
}
