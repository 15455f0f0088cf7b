package tepidarium.stats;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.SplittableRandom;

/**
 * Counts how often the intervals of fractions hold the truth, over true fractions from 5 to 95 %.
 * The benchmark runs the large number, a test a small one.
 */
public final class ProportionCoverage {
  private static final int STRATA = 4;
  private static final int GROUPS = 4;

  private final Map<String, int[]> counts = new LinkedHashMap<>();
  private final SplittableRandom random;

  private ProportionCoverage(long seed) {
    this.random = new SplittableRandom(seed);
  }

  /** How often an interval held the truth, of those rounds that had one. */
  public record Coverage(String name, int held, int shown) {
    public double share() {
      return (double) held / shown;
    }

    @Override
    public String toString() {
      return String.format(Locale.ROOT, "%s %.1f %%", name, 100 * share());
    }
  }

  /** Runs so many rounds with so many seeds in each sowing, group or stratum. */
  public static List<Coverage> run(int rounds, int seeds, long seed) {
    ProportionCoverage all = new ProportionCoverage(seed);
    for (int i = 0; i < rounds; i++) {
      all.round(seeds);
    }
    return all.counts.entrySet().stream()
        .map(e -> new Coverage(e.getKey(), e.getValue()[0], e.getValue()[1]))
        .toList();
  }

  private void round(int seeds) {
    double p = 0.05 + 0.9 * random.nextDouble();
    double other = 0.05 + 0.9 * random.nextDouble();
    Proportion first = drawn(seeds, p);
    count("fraction (Wilson)", first.wilson(), p);
    count("fraction (exact)", first.exact(), p);
    ConfidenceInterval difference = new ProportionDifference(first, drawn(seeds, other)).newcombe();
    count("difference of two sowings", difference, p - other);
    strata(seeds);
    groups(seeds, p);
    unlike(seeds);
  }

  /** Lots of different quality; the second source is better by a tenth in each. */
  private void strata(int seeds) {
    List<ProportionDifference> strata = new ArrayList<>();
    for (int i = 0; i < STRATA; i++) {
      double base = 0.1 + 0.6 * random.nextDouble();
      strata.add(new ProportionDifference(drawn(seeds, base + 0.1), drawn(seeds, base)));
    }
    count("difference within lots", new Stratified(strata).differenceLimits(), 0.1);
    double ratio = 2.5;
    strata.clear();
    for (int i = 0; i < STRATA; i++) {
      double base = 0.1 + 0.6 * random.nextDouble();
      double odds = ratio * base / (1 - base);
      strata.add(new ProportionDifference(drawn(seeds, odds / (1 + odds)), drawn(seeds, base)));
    }
    ConfidenceInterval limits = new Stratified(strata).oddsRatioLimits();
    if (limits != null) {
      count("odds ratio within lots", limits, ratio);
    }
  }

  /** Groups alike, so that the dispersion is chance alone. */
  private void groups(int seeds, double p) {
    List<Proportion> groups = new ArrayList<>();
    for (int i = 0; i < GROUPS; i++) {
      groups.add(drawn(seeds, p));
    }
    count("fraction of several groups", new Replicates(groups).interval(), p);
  }

  /** Groups that differ: fractions spread by ± 25 points. */
  private void unlike(int seeds) {
    double p = 0.3 + 0.4 * random.nextDouble();
    List<Proportion> groups = new ArrayList<>();
    for (int i = 0; i < GROUPS; i++) {
      groups.add(drawn(seeds, p + 0.5 * random.nextDouble() - 0.25));
    }
    Replicates all = new Replicates(groups);
    count("fraction of groups that differ", all.interval(), p);
    if (all.dispersion().p() < Replicates.LEVEL) {
      count("the same where the test finds the difference", all.interval(), p);
    }
  }

  private Proportion drawn(int seeds, double p) {
    int hits = 0;
    for (int i = 0; i < seeds; i++) {
      hits += random.nextDouble() < p ? 1 : 0;
    }
    return new Proportion(hits, seeds);
  }

  private void count(String name, ConfidenceInterval limits, double truth) {
    int[] count = counts.computeIfAbsent(name, any -> new int[2]);
    count[0] += limits.contains(truth) ? 1 : 0;
    count[1]++;
  }
}
