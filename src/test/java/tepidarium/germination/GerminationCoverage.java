package tepidarium.germination;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import org.apache.commons.statistics.distribution.NormalDistribution;
import tepidarium.stats.Censored;
import tepidarium.stats.IntervalFit;
import tepidarium.stats.IntervalFit.Parameter;
import tepidarium.stats.LogisticLine;

/**
 * Counts how often the 95 % intervals that the Tally shows hold the truth, on invented sowings
 * whose truth is known: 70 % germinate, half of them by day 18, σ 0.35, looked at every 3 days. The
 * benchmark runs many rounds, the unit tests a few. An interval that is not shown is not counted.
 */
public final class GerminationCoverage {
  private static final double MEDIAN_DAYS = 18;
  private static final double SIGMA = 0.35;
  private static final double FRACTION = 0.7;
  private static final double EVERY_DAYS = 3;
  private static final double NEVER = Double.POSITIVE_INFINITY;

  /** The day of the last look: while they come, and when it is over. */
  private static final double[] LAST_DAYS = {24, 42};

  private final Map<String, int[]> counts = new LinkedHashMap<>();
  private final Random random;

  private GerminationCoverage(Random random) {
    this.random = random;
  }

  /**
   * How often an interval held the truth.
   *
   * @param shown in how many rounds there was one
   */
  public record Coverage(String name, int held, int shown) {
    @Override
    public String toString() {
      return String.format(Locale.ROOT, "%s %.1f %% of %d", name, 100.0 * held / shown, shown);
    }
  }

  /** Runs so many rounds, with so many seeds in a sowing, from a seed of the generator. */
  public static List<Coverage> run(int rounds, int seeds, long seed) {
    GerminationCoverage all = new GerminationCoverage(new Random(seed));
    for (int round = 0; round < rounds; round++) {
      for (double last : LAST_DAYS) {
        all.sowing(seeds, last);
      }
      all.kept(seeds);
    }
    return all.counts.entrySet().stream()
        .map(e -> new Coverage(e.getKey(), e.getValue()[0], e.getValue()[1]))
        .toList();
  }

  private void count(String name, boolean held) {
    int[] count = counts.computeIfAbsent(name, any -> new int[2]);
    count[0] += held ? 1 : 0;
    count[1]++;
  }

  private void sowing(int seeds, double lastDay) {
    List<Censored> rows = new ArrayList<>();
    int remaining = 0;
    for (int i = 0; i < seeds; i++) {
      double day = MEDIAN_DAYS * Math.exp(SIGMA * random.nextGaussian());
      boolean found = random.nextDouble() < FRACTION && day <= lastDay;
      double from = Math.floor(day / EVERY_DAYS) * EVERY_DAYS;
      rows.add(found ? new Censored(from, from + EVERY_DAYS, 1) : new Censored(lastDay, NEVER, 1));
      remaining += found ? 0 : 1;
    }
    String when = String.format(Locale.ROOT, " by day %.0f", lastDay);
    thermal(rows, when);
    IntervalFit.finalFraction(IntervalFit.all(rows))
        .ifPresent(
            limits -> count("final fraction over all curves" + when, limits.contains(FRACTION)));
    if (remaining > 0) {
      prospect(rows, remaining, lastDay, when);
    }
  }

  /** As {@link HeatFit} fits counts by heat; days stand in for it. */
  private void thermal(List<Censored> rows, String when) {
    HeatFit.Chosen chosen = HeatFit.choose(rows);
    IntervalFit fit = chosen.fit();
    if (fit.identified() && !fit.medianBeyond()) {
      count("median of the lognormal fit" + when, HeatFit.median(chosen).contains(MEDIAN_DAYS));
      if (fit.model().withFinalFraction()) {
        count(
            "final fraction of the lognormal fit" + when,
            fit.interval(Parameter.FINAL_FRACTION).contains(FRACTION));
      }
    }
  }

  private void prospect(List<Censored> rows, int remaining, double lastDay, String when) {
    Prospect.of(
            rows,
            List.of(new Prospect.Remaining(lastDay, remaining)),
            lastDay + 7,
            family -> List.of())
        .ifPresent(
            told -> {
              count(
                  "one more in a week" + when,
                  told.soonLimits().contains(any(remaining, lastDay, lastDay + 7)));
              count(
                  "one more ever" + when,
                  told.everLimits().contains(any(remaining, lastDay, NEVER)));
            });
  }

  /** The true probability that one of the remaining seeds or several germinate by a day. */
  private static double any(int remaining, double from, double to) {
    double later = FRACTION * (by(to) - by(from));
    return 1 - Math.pow(1 - later / (1 - FRACTION * by(from)), remaining);
  }

  private static double by(double day) {
    return day == NEVER
        ? 1
        : NormalDistribution.of(0, 1).cumulativeProbability(Math.log(day / MEDIAN_DAYS) / SIGMA);
  }

  /** Eight lots sown after 0 to 14 days; they differ by 0.4 on the scale of logits. */
  private void kept(int seeds) {
    List<LogisticLine.Group> groups = new ArrayList<>();
    for (int days = 0; days <= 14; days += 2) {
      double logit = 1.5 - 0.25 * days + 0.4 * random.nextGaussian();
      int hits = 0;
      for (int i = 0; i < seeds; i++) {
        hits += random.nextDouble() < 1 / (1 + Math.exp(-logit)) ? 1 : 0;
      }
      groups.add(new LogisticLine.Group(days, hits, seeds));
    }
    LogisticLine.of(groups)
        .filter(line -> line.slopeLimits().high() < 0)
        .ifPresent(
            line -> {
              count(
                  "germination after 5 days kept",
                  line.limitsAt(5).contains(1 / (1 + Math.exp(-0.25))));
              count("days kept to one half", line.halfLimits().contains(6));
            });
  }
}
