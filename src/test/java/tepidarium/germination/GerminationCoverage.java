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
 * Counts how often the 95 % intervals that the Tally shows hold the truth, on simulated sowings: 70
 * % germinate, half of them by day 18, ln T spread by 0.35, seen every 3 days. The benchmark runs
 * many rounds, the unit tests a few. An interval that is not shown is not counted.
 *
 * <p>Intervals that average over three families of curves allow for a truth in any of them, so the
 * true family is each of the three in turn. A truth that is always lognormal would be held too
 * often, one that is always Weibull too seldom.
 */
public final class GerminationCoverage {
  private static final double MEDIAN_DAYS = 18;
  private static final double SPREAD = 0.35;
  private static final double FRACTION = 0.7;
  private static final double EVERY_DAYS = 3;
  private static final double NEVER = Double.POSITIVE_INFINITY;

  /** The day of the last look: while they come, and when it is over. */
  private static final double[] LAST_DAYS = {24, 42};

  /** The fewest with which a curve over the days kept is told, and more. */
  private static final int[] LOTS = {5, 8};

  /** The true distribution of W in ln T = μ + σ W, with its standard deviation. */
  private enum Truth {
    LOGNORMAL(1, 0),
    LOGLOGISTIC(Math.PI / Math.sqrt(3), 0),
    WEIBULL(Math.PI / Math.sqrt(6), Math.log(Math.log(2)));

    private final double deviation;
    private final double median;

    Truth(double deviation, double median) {
      this.deviation = deviation;
      this.median = median;
    }

    private double w(Random random) {
      double u = random.nextDouble();
      return switch (this) {
        case LOGNORMAL -> random.nextGaussian();
        case LOGLOGISTIC -> Math.log(u) - Math.log1p(-u);
        case WEIBULL -> Math.log(-Math.log1p(-u));
      };
    }

    private double below(double w) {
      return switch (this) {
        case LOGNORMAL -> NormalDistribution.of(0, 1).cumulativeProbability(w);
        case LOGLOGISTIC -> 1 / (1 + Math.exp(-w));
        case WEIBULL -> -Math.expm1(-Math.exp(w));
      };
    }

    private double sigma() {
      return SPREAD / deviation;
    }

    private double mu() {
      return Math.log(MEDIAN_DAYS) - sigma() * median;
    }

    private double day(Random random) {
      return Math.exp(mu() + sigma() * w(random));
    }

    /** The share of those that germinate at all that has by a day. */
    private double by(double day) {
      return day == NEVER ? 1 : below((Math.log(day) - mu()) / sigma());
    }
  }

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
      Truth truth = Truth.values()[round % Truth.values().length];
      for (double last : LAST_DAYS) {
        all.sowing(truth, seeds, last);
      }
      for (int lots : LOTS) {
        all.kept(seeds, lots);
      }
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

  private void sowing(Truth truth, int seeds, double lastDay) {
    List<Censored> rows = new ArrayList<>();
    int remaining = 0;
    for (int i = 0; i < seeds; i++) {
      double day = truth.day(random);
      boolean found = random.nextDouble() < FRACTION && day <= lastDay;
      double from = Math.floor(day / EVERY_DAYS) * EVERY_DAYS;
      rows.add(found ? new Censored(from, from + EVERY_DAYS, 1) : new Censored(lastDay, NEVER, 1));
      remaining += found ? 0 : 1;
    }
    String when = String.format(Locale.ROOT, " by day %.0f", lastDay);
    if (truth == Truth.LOGNORMAL) {
      thermal(rows, when);
    }
    IntervalFit.finalFraction(IntervalFit.all(rows))
        .ifPresent(
            limits -> count("final fraction over all curves" + when, limits.contains(FRACTION)));
    if (remaining > 0) {
      prospect(truth, rows, lastDay, when);
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

  /**
   * Of one of the remaining seeds. The probability of any of several rises with it, so its interval
   * holds the truth in the same rounds, except where both round to 1.
   */
  private void prospect(Truth truth, List<Censored> rows, double lastDay, String when) {
    Prospect.of(rows, List.of(new Prospect.Remaining(lastDay, 1)), lastDay + 7, family -> List.of())
        .ifPresent(
            told -> {
              count(
                  "one more in a week" + when,
                  told.soonLimits().contains(later(truth, lastDay, lastDay + 7)));
              count(
                  "one more ever" + when, told.everLimits().contains(later(truth, lastDay, NEVER)));
            });
  }

  /** The true probability that a seed not seen to germinate by a day does by another. */
  private static double later(Truth truth, double from, double to) {
    return FRACTION * (truth.by(to) - truth.by(from)) / (1 - FRACTION * truth.by(from));
  }

  /** Lots sown after 0 to 14 days; they differ by 0.4 on the scale of logits. */
  private void kept(int seeds, int lots) {
    List<LogisticLine.Group> groups = new ArrayList<>();
    for (int lot = 0; lot < lots; lot++) {
      double days = 14.0 * lot / (lots - 1);
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
              String of = ", " + lots + " lots";
              count(
                  "germination after 5 days kept" + of,
                  line.limitsAt(5).contains(1 / (1 + Math.exp(-0.25))));
              count("days kept to one half" + of, line.halfLimits().contains(6));
            });
  }
}
