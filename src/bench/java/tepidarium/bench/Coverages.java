package tepidarium.bench;

import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import tepidarium.germination.CoverageSimulation;
import tepidarium.germination.GerminationCoverage;
import tepidarium.heat.BenchCoverage;
import tepidarium.heat.TrialCoverage;
import tepidarium.stats.ProportionCoverage;
import tepidarium.stats.UnitsCoverage;

/** How often intervals that claim 95 % hold the truth, over simulations whose truth is known. */
final class Coverages {
  private static final String GOAL = "90 to 99 %";
  private static final long SEED = 1;
  private static final int[] SEEDS = {16, 50, 250};
  private static final int[] DAYS = {4, 7, 14, 28};

  /** Cheap, so that chance is small. */
  private static final int FRACTION_ROUNDS = 20_000;

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
    fractions(report);
    report.figure(
        "95 % intervals that hold the truth, few containers or openings",
        "told in figures.md", joined(UnitsCoverage.run(FRACTION_ROUNDS, SEED)));
    bench(report, BenchCoverage.USUAL, "weather that fades within half a day", "93 to 97 %");
    bench(
        report, BenchCoverage.LASTING, "weather that lasts for a day or two", "told in figures.md");
  }

  private void fractions(Report report) {
    for (int seeds : SEEDS) {
      report.figure(
          "95 % intervals that hold the truth, fractions of " + seeds + " seeds",
          "93 to 97 %; exact: at least 95 %",
          joined(ProportionCoverage.run(FRACTION_ROUNDS, seeds, SEED)));
    }
  }

  /** What the heat bench shows, for records of so many days. */
  private void bench(Report report, double persistence, String weather, String goal) {
    for (int days : DAYS) {
      report.figure(
          "95 % intervals that hold the truth, heat bench, " + days + " days, " + weather,
          goal,
          joined(BenchCoverage.run(rounds, days, persistence, SEED)));
    }
  }

  private static String joined(List<?> coverages) {
    return coverages.stream().map(Object::toString).collect(Collectors.joining(", "));
  }

  /** What the Tally shows, for a bag, a box and a tray of seeds. */
  private void germination(Report report) {
    for (int seeds : SEEDS) {
      report.figure(
          "95 % intervals that hold the truth, sowings of " + seeds + " seeds",
          "93 to 97 %",
          joined(GerminationCoverage.run(rounds, seeds, SEED)));
    }
  }

  private double percent(int held) {
    return 100.0 * held / rounds;
  }
}
