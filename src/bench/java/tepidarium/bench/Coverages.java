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

/**
 * Measures how often intervals that claim 95 % hold the truth, over simulations whose truth is
 * known. With 3,000 rounds chance alone moves a share by up to 0.8 points (95 %).
 */
final class Coverages {
  private static final String GOAL = "93 to 97 %";
  private static final long SEED = 1;
  private static final int[] SEEDS = {16, 50, 250};
  private static final int[] DAYS = {4, 7, 14, 28};

  /** Cheap, so that chance is small. */
  private static final int FRACTION_ROUNDS = 20_000;

  /** The fits of base temperatures and of trials take most of the time. */
  private static final int SLOW_PART = 4;

  private final int rounds;
  private final int slowRounds;

  /**
   * With so many rounds.
   *
   * @param rounds a multiple of 12, so that each family of curves is the true one equally often
   */
  Coverages(int rounds) {
    this.rounds = rounds;
    this.slowRounds = rounds / SLOW_PART;
  }

  void run(Report report) {
    CoverageSimulation.Coverage heat = CoverageSimulation.run(slowRounds, SEED);
    report.figure(
        "95 % intervals that hold the truth, heat model, " + slowRounds + " rounds",
        GOAL,
        String.format(
            Locale.ROOT,
            "base temperature %.1f %%, heat needed %.1f %%, spread %.1f %%, final fraction %.1f %%",
            percent(heat.base()),
            percent(heat.mu()),
            percent(heat.sigma()),
            percent(heat.fraction())));
    report.figure(
        "95 % intervals that hold the truth, trials of a place, " + slowRounds + " rounds",
        GOAL,
        TrialCoverage.run(slowRounds, SEED).toString());
    germination(report);
    fractions(report);
    report.figure(
        "95 % intervals that hold the truth, few containers or openings, "
            + FRACTION_ROUNDS
            + " rounds",
        "told in figures.md",
        joined(UnitsCoverage.run(FRACTION_ROUNDS, SEED)));
    bench(report, BenchCoverage.USUAL, "weather that fades within half a day", GOAL);
    bench(
        report, BenchCoverage.LASTING, "weather that lasts for a day or two", "told in figures.md");
  }

  private void fractions(Report report) {
    for (int seeds : SEEDS) {
      report.figure(
          "95 % intervals that hold the truth, fractions of "
              + seeds
              + " seeds, "
              + FRACTION_ROUNDS
              + " rounds",
          "93 to 97 %; exact: at least 95 %",
          joined(ProportionCoverage.run(FRACTION_ROUNDS, seeds, SEED)));
    }
  }

  /** What the heat bench shows, for records of so many days. */
  private void bench(Report report, double persistence, String weather, String goal) {
    for (int days : DAYS) {
      report.figure(
          "95 % intervals that hold the truth, heat bench, "
              + days
              + " days, "
              + weather
              + ", "
              + rounds
              + " rounds",
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
          "95 % intervals that hold the truth, sowings of "
              + seeds
              + " seeds, "
              + rounds
              + " rounds",
          GOAL,
          joined(GerminationCoverage.run(rounds, seeds, SEED)));
    }
  }

  private double percent(int held) {
    return 100.0 * held / slowRounds;
  }
}
