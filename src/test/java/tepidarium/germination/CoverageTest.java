package tepidarium.germination;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

/** 95 % intervals hold the truth about so often; 51 or fewer of 60 would happen once in 200. */
class CoverageTest {
  @Test
  void theIntervalsHoldTheTruthAboutAsOftenAsTheySay() {
    CoverageSimulation.Coverage found = CoverageSimulation.run(60, 20260301);
    assertEquals(60, found.identified(), found.toString());
    for (int held : new int[] {found.base(), found.mu(), found.sigma(), found.fraction()}) {
      assertTrue(held >= 52, found.toString());
    }
  }

  /** Of 40 rounds, 33 or fewer would happen once in 200. */
  @Test
  void theIntervalsOfTheTallyHaveTheStatedCoverage() {
    for (GerminationCoverage.Coverage found : GerminationCoverage.run(40, 50, 20260301)) {
      assertTrue(found.held() > 0.85 * found.shown(), found.toString());
    }
  }
}
