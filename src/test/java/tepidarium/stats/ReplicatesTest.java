package tepidarium.stats;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;
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

class ReplicatesTest {
  static Stream<JsonNode> limits() {
    return CheckRows.cases("proportions.json", "replicate_range_limit").stream();
  }

  private static Replicates of(String counts) {
    return new Replicates(
        Stream.of(counts.split(" "))
            .map(count -> count.split("/"))
            .map(c -> new Proportion(Integer.parseInt(c[0]), Integer.parseInt(c[1])))
            .toList());
  }

  @ParameterizedTest
  @MethodSource("limits")
  void theToleratedRangeIsThatOfSeedTesting(JsonNode check) {
    int seeds = check.at("/input/seeds_per_replicate").asInt();
    int hits = check.at("/input/mean_percent").asInt() * seeds / 100;
    Replicates all =
        new Replicates(
            Collections.nCopies(
                check.at("/input/replicates").asInt(), new Proportion(hits, seeds)));
    Double tolerated = all.toleratedRange();
    assertNotNull(tolerated);
    assertEquals(check.at("/expected/range_limit_percent").asDouble(), 100 * tolerated, 0.02);
  }

  /** SciPy 1.17, studentized_range.ppf with 1e7 degrees of freedom. */
  @ParameterizedTest
  @CsvSource({
    "2, 0.975, 3.169822",
    "3, 0.975, 3.682268",
    "4, 0.95, 3.633160",
    "8, 0.975, 4.604857"
  })
  void quantilesOfTheStudentizedRange(int k, double probability, double q) {
    assertEquals(q, StudentizedRange.quantile(probability, k), 1e-5);
  }

  /** All ways counted with exact fractions in Python; χ² by SciPy 1.17. */
  @ParameterizedTest
  @CsvSource({
    "3/16 9/16 4/16, 5.8125, 0.0686349665",
    "0/10 5/10 1/10 2/10, 8.75, 0.0484893736",
    "12/20 14/25 5/18, 4.7008669355, 0.1091467181",
    "5/5 5/6, 0.9166666667, 1",
  })
  void fewReplicatesAreTestedExactly(String counts, double chiSquare, double p) {
    Replicates all = of(counts);
    assertEquals(chiSquare, all.dispersion().chiSquare(), 1e-9);
    assertEquals(p, all.chance().p(), 1e-9);
    assertTrue(all.chance().exact());
  }

  @Test
  void manyReplicatesUseTheChiSquareDistribution() {
    Replicates all = of("80/100 90/100 85/100 60/100");
    assertFalse(all.chance().exact());
    assertEquals(all.dispersion().p(), all.chance().p());
    assertTrue(all.chance().p() < Replicates.LEVEL);
    assertEquals(0.3, all.range(), 1e-12);
  }

  /**
   * χ² = 19.95 with 2 degrees of freedom, so 60 seeds count as 6.015; t = 4.302653. Computed with R
   * 4.2.2: prop.test(…)$statistic, qt(0.975, 2) and Wilson's formula.
   */
  @Test
  void replicatesThatDifferWidenTheInterval() {
    Replicates alike = of("7/20 6/20 7/20");
    assertEquals(alike.pooled().wilson(), alike.interval());
    ConfidenceInterval unlike = of("14/20 1/20 5/20").interval();
    assertEquals(0.03070016, unlike.low(), 1e-6);
    assertEquals(0.88755554, unlike.high(), 1e-6);
  }

  @Test
  void replicatesThatCannotBeTestedSaySo() {
    assertEquals(1, of("0/5 0/5").chance().p());
    assertNull(of("1/5 2/6").toleratedRange());
    assertThrows(IllegalArgumentException.class, () -> new Replicates(List.of()));
  }
}
