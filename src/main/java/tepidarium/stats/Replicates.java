package tepidarium.stats;

import java.util.List;
import org.apache.commons.numbers.combinatorics.LogBinomialCoefficient;
import org.jspecify.annotations.Nullable;

/**
 * Tests whether replicates, such as the containers of one sowing, differ by more than chance. The
 * null hypothesis is that every seed has the same probability. The statistic is Pearson's χ². Its p
 * is exact if there are at most 200,000 assignments of the germinated seeds to the replicates.
 * Otherwise p is from the χ² distribution.
 *
 * @param counts at least two replicates
 */
public record Replicates(List<Proportion> counts) {
  /** Significance level: replicates differ if p is below it. */
  public static final double LEVEL = 0.05;

  private static final double TOLERATED = 0.975;
  private static final double MAX_ASSIGNMENTS = 200_000;
  private static final double TIE = 1e-9;

  /**
   * The probability p of a difference at least as large by chance alone.
   *
   * @param exact whether all assignments were counted
   */
  public record Chance(double p, boolean exact) {}

  public Replicates {
    counts = List.copyOf(counts);
    if (counts.size() < 2) {
      throw new IllegalArgumentException(
          "at least two replicates are needed, not " + counts.size());
    }
  }

  /** The sum of all replicates. */
  public Proportion pooled() {
    return new Proportion(
        counts.stream().mapToInt(Proportion::hits).sum(),
        counts.stream().mapToInt(Proportion::trials).sum());
  }

  /** Pearson's χ², its degrees of freedom and the dispersion. */
  public Dispersion dispersion() {
    return Dispersion.within(List.of(counts));
  }

  public Chance chance() {
    Proportion all = pooled();
    if (all.hits() == 0 || all.hits() == all.trials()) {
      return new Chance(1, true);
    }
    double ways = counts.stream().mapToDouble(c -> c.trials() + 1.0).reduce(1, (a, b) -> a * b);
    return ways > MAX_ASSIGNMENTS
        ? new Chance(dispersion().p(), false)
        : new Chance(new Ways(counts, all).p(), true);
  }

  /** The maximum less the minimum fraction, 0 to 1. */
  public double range() {
    return counts.stream().mapToDouble(Proportion::fraction).max().orElseThrow()
        - counts.stream().mapToDouble(Proportion::fraction).min().orElseThrow();
  }

  /**
   * The maximum range that seed testing tolerates, 0 to 1: the 97.5 % point of the studentized
   * range times √(p (1 − p) / n). Null if the replicates have different numbers of seeds. Source:
   * this reproduces the tolerances of Miles, Proceedings of the International Seed Testing
   * Association 28 (1963) 525-686, within about one percentage point (value from memory).
   */
  public @Nullable Double toleratedRange() {
    int trials = counts.get(0).trials();
    if (counts.stream().anyMatch(c -> c.trials() != trials)) {
      return null;
    }
    double p = pooled().fraction();
    return StudentizedRange.quantile(TOLERATED, counts.size()) * Math.sqrt(p * (1 - p) / trials);
  }

  /**
   * The 95 % interval of the common fraction: Wilson's interval. If the dispersion is above 1, the
   * number of seeds is divided by it. Then Student's t with replicates − 1 degrees of freedom
   * replaces the normal quantile, because few replicates estimate the dispersion poorly. Source:
   * Rao and Scott, Biometrics 48 (1992) 577-585, effective sample size.
   */
  public ConfidenceInterval interval() {
    Proportion all = pooled();
    double factor = dispersion().factor();
    return factor > 1
        ? Proportion.wilson(
            all.fraction(), all.trials() / factor, Student.t95(dispersion().degreesOfFreedom()))
        : all.wilson();
  }

  /** Enumerates all assignments of hits to replicates, weighted by their probability. */
  private static final class Ways {
    private final int[] trials;
    private final int hits;
    private final double fraction;
    private final double seen;
    private double all;
    private double extreme;

    Ways(List<Proportion> counts, Proportion pooled) {
      this.trials = counts.stream().mapToInt(Proportion::trials).toArray();
      this.hits = pooled.hits();
      this.fraction = pooled.fraction();
      double sum = 0;
      for (Proportion count : counts) {
        sum += square(count.hits(), count.trials());
      }
      this.seen = sum * (1 - TIE) - TIE;
    }

    double p() {
      share(0, hits, 0, 0);
      return extreme / all;
    }

    private double square(int hits, int trials) {
      double apart = hits - trials * fraction;
      return apart * apart / trials;
    }

    private void share(int next, int left, double square, double logWays) {
      if (next == trials.length - 1) {
        if (left <= trials[next]) {
          double ways = Math.exp(logWays + logChoose(trials[next], left));
          all += ways;
          extreme += square + square(left, trials[next]) >= seen ? ways : 0;
        }
        return;
      }
      for (int k = 0; k <= Math.min(left, trials[next]); k++) {
        share(
            next + 1,
            left - k,
            square + square(k, trials[next]),
            logWays + logChoose(trials[next], k));
      }
    }

    private static double logChoose(int n, int k) {
      return LogBinomialCoefficient.value(n, k);
    }
  }
}
