package tepidarium.bench;

import java.util.Locale;
import java.util.stream.Collectors;
import tepidarium.germination.CoverageSimulation;
import tepidarium.germination.GerminationCoverage;
import tepidarium.heat.TrialCoverage;

/** How often intervals that claim 95 % hold the truth, over simulations whose truth is known. */
final class Coverages {
  private static final String GOAL = "90 to 99 %";
  private static final long SEED = 1;
  private static final int[] SEEDS = {16, 50, 250};

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
    germination(report);
  }

  /** What the Tally shows, for a bag, a box and a tray of seeds. */
  private void germination(Report report) {
    for (int seeds : SEEDS) {
      report.figure(
          "95 % intervals that hold the truth, sowings of " + seeds + " seeds",
          "93 to 97 %",
          GerminationCoverage.run(rounds, seeds, SEED).stream()
              .map(GerminationCoverage.Coverage::toString)
              .collect(Collectors.joining(", ")));
    }
  }

  private double percent(int held) {
    return 100.0 * held / rounds;
  }
}
