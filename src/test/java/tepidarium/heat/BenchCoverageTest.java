package tepidarium.heat;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import tepidarium.stats.ProportionCoverage;
import tepidarium.stats.UnitsCoverage;

/** Small runs of what {@code src/bench/run coverage} runs at length. */
class BenchCoverageTest {
  /** 94 % of 200 is below 177 once in 1,000 times; the largest of eleven figures needs room. */
  @ParameterizedTest
  @ValueSource(ints = {4, 14})
  void intervalsOfTheBenchHoldTheTruth(int days) {
    List<BenchCoverage.Coverage> all = BenchCoverage.run(200, days, BenchCoverage.USUAL, days);
    assertEquals(11, all.size());
    for (BenchCoverage.Coverage one : all) {
      assertTrue(one.share() >= 0.885, all.toString());
    }
  }

  @ParameterizedTest
  @ValueSource(ints = {16, 250})
  void intervalsOfFractionsHoldTheTruth(int seeds) {
    List<ProportionCoverage.Coverage> all = ProportionCoverage.run(2_000, seeds, seeds);
    for (ProportionCoverage.Coverage one : all) {
      boolean chosen = one.name().startsWith("the same");
      assertTrue(one.share() >= 0.92 && (chosen || one.share() <= 0.985), all.toString());
    }
  }

  @ParameterizedTest
  @ValueSource(longs = {1, 2})
  void intervalsOfFewUnitsHoldTheTruth(long seed) {
    List<ProportionCoverage.Coverage> all = UnitsCoverage.run(2_000, seed);
    for (ProportionCoverage.Coverage one : all) {
      assertTrue(one.share() >= 0.9, all.toString());
    }
  }
}
