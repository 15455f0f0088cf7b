package tepidarium.stats;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import java.util.stream.StreamSupport;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;

class ProportionTest {
  static Stream<JsonNode> single() {
    return CheckRows.cases("proportions.json", "one_proportion_interval").stream();
  }

  static Stream<JsonNode> differences() {
    return CheckRows.cases("proportions.json", "difference_interval").stream();
  }

  static Stream<JsonNode> tables() {
    return CheckRows.cases("proportions.json", "two_by_two_tests").stream();
  }

  static Stream<JsonNode> sizes() {
    return CheckRows.cases("proportions.json", "sample_size_two_proportions").stream();
  }

  static Stream<JsonNode> powers() {
    return CheckRows.cases("proportions.json", "power_two_proportions").stream();
  }

  static Stream<JsonNode> permutations() {
    return CheckRows.cases("proportions.json", "container_permutation_test").stream();
  }

  static void between(JsonNode expected, ConfidenceInterval actual, double tolerance) {
    assertEquals(expected.path(0).asDouble(), actual.low(), tolerance);
    assertEquals(expected.path(1).asDouble(), actual.high(), tolerance);
  }

  @ParameterizedTest
  @MethodSource("single")
  void aFractionHasItsPublishedIntervals(JsonNode check) {
    Proportion p = new Proportion(check.at("/input/x").asInt(), check.at("/input/n").asInt());
    JsonNode expected = check.path("expected");
    assertEquals(expected.path("proportion").asDouble(), p.fraction(), 1e-9);
    between(expected.path("wilson95"), p.wilson(), 1e-6);
    between(expected.path("clopper_pearson95"), p.exact(), 1e-6);
  }

  /** Common practice, no source: 15 to 20 % of fresh seed. */
  @Test
  void moreSeedsGiveANarrowerInterval() {
    Proportion many = new Proportion(45, 250);
    Proportion few = new Proportion(3, 16);
    assertEquals(0.18, many.fraction());
    assertEquals(0.1875, few.fraction());
    assertEquals(0.137333, many.wilson().low(), 1e-6);
    assertEquals(0.232352, many.wilson().high(), 1e-6);
    assertEquals(0.134428, many.exact().low(), 1e-6);
    assertEquals(0.233338, many.exact().high(), 1e-6);
    assertEquals(0.065916, few.wilson().low(), 1e-6);
    assertEquals(0.430089, few.wilson().high(), 1e-6);
    assertEquals(0.040474, few.exact().low(), 1e-6);
    assertEquals(0.456457, few.exact().high(), 1e-6);
  }

  @ParameterizedTest
  @MethodSource("differences")
  void aDifferenceHasItsPublishedInterval(JsonNode check) {
    ProportionDifference d =
        new ProportionDifference(
            new Proportion(check.at("/input/x1").asInt(), check.at("/input/n1").asInt()),
            new Proportion(check.at("/input/x2").asInt(), check.at("/input/n2").asInt()));
    JsonNode expected = check.path("expected");
    assertEquals(expected.path("difference").asDouble(), d.difference(), 1e-9);
    between(expected.path("newcombe95"), d.newcombe(), 1e-6);
    ProportionDifference turned = new ProportionDifference(d.b(), d.a());
    assertEquals(-d.newcombe().low(), turned.newcombe().high(), 1e-12);
    assertEquals(d.fisherP(), turned.fisherP(), 1e-12);
  }

  /** Newcombe, Statistics in Medicine 17 (1998) 873-890, method 10; Fisher's p by SciPy 1.10. */
  @ParameterizedTest
  @CsvSource({
    "56, 70, 48, 80, 0.0524, 0.3339, 0.012521",
    "6, 7, 2, 7, 0.0582, 0.8062, 0.102564",
    "10, 10, 0, 20, 0.6791, 1, 0",
    "45, 250, 3, 16, -0.2538, 0.1249, 1",
  })
  void intervalAndTestOfADifference(
      int x1, int n1, int x2, int n2, double low, double high, double p) {
    ProportionDifference d =
        new ProportionDifference(new Proportion(x1, n1), new Proportion(x2, n2));
    assertEquals(low, d.newcombe().low(), 1e-4);
    assertEquals(high, d.newcombe().high(), 1e-4);
    assertEquals(p, d.fisherP(), 1e-6);
  }

  @ParameterizedTest
  @MethodSource("tables")
  void fishersTestIsExact(JsonNode check) {
    ProportionDifference d =
        new ProportionDifference(
            group(check.at("/input/group1")), group(check.at("/input/group2")));
    assertEquals(check.at("/expected/two_sided").asDouble(), d.fisherP(), 1e-7);
  }

  private static Proportion group(JsonNode counts) {
    int hits = counts.path("germinated").asInt();
    return new Proportion(hits, hits + counts.path("not_germinated").asInt());
  }

  @ParameterizedTest
  @MethodSource("sizes")
  void trialsNeededForAPowerArePublished(JsonNode check) {
    double n =
        ProportionDifference.trialsEach(
            check.at("/input/p1").asDouble(),
            check.at("/input/p2").asDouble(),
            check.at("/input/power").asDouble(),
            check.at("/input/alpha_two_sided").asDouble());
    assertEquals(check.at("/expected/n_per_group_normal").asDouble(), n, 0.02);
    assertEquals(check.at("/expected/rounded_up").asInt(), Math.ceil(n));
  }

  /** Fleiss, Statistical Methods for Rates and Proportions, eq. 4.14 without continuity. */
  @ParameterizedTest
  @CsvSource({
    "18, 100, 30, 100, 198",
    "15, 100, 25, 100, 250",
    "60, 100, 40, 100, 97",
    "45, 250, 3, 16, 41856",
    "0, 10, 10, 10, 2",
  })
  void seedsEachForAPowerOf80Percent(int x1, int n1, int x2, int n2, long seeds) {
    ProportionDifference d =
        new ProportionDifference(new Proportion(x1, n1), new Proportion(x2, n2));
    assertEquals(seeds, d.trialsEachForPower80().orElseThrow());
  }

  @Test
  void noNumberOfSeedsDistinguishesEqualFractions() {
    ProportionDifference d = new ProportionDifference(new Proportion(1, 3), new Proportion(2, 6));
    assertTrue(d.trialsEachForPower80().isEmpty());
    assertEquals(1, d.fisherP());
  }

  @ParameterizedTest
  @MethodSource("powers")
  void powerOfGivenGroups(JsonNode check) {
    double power =
        ProportionDifference.power(
            check.at("/input/p1").asDouble(),
            check.at("/input/p2").asDouble(),
            check.at("/input/n_per_group").asInt(),
            0.05);
    assertEquals(check.at("/expected/power_normal").asDouble(), power, 1e-4);
  }

  @ParameterizedTest
  @MethodSource("permutations")
  void allArrangementsOfContainersAreCounted(JsonNode check) {
    int seeds = check.at("/input/seeds_per_container").asInt();
    ContainerPermutation test =
        ContainerPermutation.of(
            bags(check.at("/input/germinated_group1"), seeds),
            bags(check.at("/input/germinated_group2"), seeds));
    JsonNode expected = check.path("expected");
    assertEquals(expected.path("mean_difference").asDouble(), test.difference(), 1e-9);
    assertEquals(expected.path("as_extreme").asLong(), test.asExtreme());
    assertEquals(expected.path("arrangements").asLong(), test.arrangements());
    assertEquals(expected.path("two_sided_p").asDouble(), test.p(), 1e-9);
  }

  private static List<Proportion> bags(JsonNode germinated, int seeds) {
    return StreamSupport.stream(germinated.spliterator(), false)
        .map(hits -> new Proportion(hits.asInt(), seeds))
        .toList();
  }

  @Test
  void bagsDifferMoreThanByChance() {
    JsonNode check = CheckRows.cases("proportions.json", "overdispersion").get(0);
    List<List<Proportion>> kinds = List.of(new ArrayList<>(), new ArrayList<>());
    for (int i = 0; i < check.at("/input/sown").size(); i++) {
      kinds
          .get(check.at("/input/group").path(i).asInt())
          .add(
              new Proportion(
                  check.at("/input/germinated").path(i).asInt(),
                  check.at("/input/sown").path(i).asInt()));
    }
    Dispersion dispersion = Dispersion.within(kinds);
    JsonNode expected = check.path("expected");
    assertEquals(expected.path("pearson_chi2").asDouble(), dispersion.chiSquare(), 1.6e-4);
    assertEquals(expected.path("df").asInt(), dispersion.degreesOfFreedom());
    assertEquals(expected.path("dispersion").asDouble(), dispersion.factor(), 2.6e-5);
    Proportion a = whole(kinds.get(0));
    Proportion b = whole(kinds.get(1));
    assertEquals(expected.path("se_quasi").asDouble(), dispersion.logOddsError(a, b), 7e-6);
    assertEquals(
        expected.path("se_binomial").asDouble(), new Dispersion(0, 6).logOddsError(a, b), 4e-6);
    assertTrue(dispersion.p() < 0.05);
  }

  private static Proportion whole(List<Proportion> bags) {
    return new Proportion(
        bags.stream().mapToInt(Proportion::hits).sum(),
        bags.stream().mapToInt(Proportion::trials).sum());
  }

  @Test
  void impossibleCountsAreRefused() {
    assertThrows(IllegalArgumentException.class, () -> new Proportion(5, 4));
    assertThrows(IllegalArgumentException.class, () -> new Proportion(-1, 4));
    assertThrows(IllegalArgumentException.class, () -> new Proportion(0, 0));
  }
}
