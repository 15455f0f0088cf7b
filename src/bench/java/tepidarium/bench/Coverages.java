package tepidarium.bench;

import java.util.Locale;
import tepidarium.germination.CoverageSimulation;
import tepidarium.heat.TrialCoverage;

/** How often intervals that claim 95 % hold the truth, over simulations whose truth is known. */
final class Coverages {
  private static final String GOAL = "90 to 99 %";
  private static final long SEED = 1;

  private final int rounds;

  Coverages(int rounds) {
    this.rounds = rounds;
  }

  void run(Report report) {
    CoverageSimulation.Coverage heat = CoverageSimulation.run(rounds, SEED);
    report.figure(
        "95 % intervals that hold the truth, " + rounds + " simulated sowings",
        GOAL,
        String.format(
            Locale.ROOT,
            "base temperature %.1f %%, heat needed %.1f %%, spread %.1f %%, final fraction %.1f %%",
            percent(heat.base()),
            percent(heat.mu()),
            percent(heat.sigma()),
            percent(heat.fraction())));
    report.figure(
        "95 % intervals that hold the truth, simulated trials of a place",
        GOAL, TrialCoverage.run(rounds, SEED).toString());
  }

  private double percent(int held) {
    return 100.0 * held / rounds;
  }
}
