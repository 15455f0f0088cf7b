package tepidarium.stats;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.SplittableRandom;
import org.jspecify.annotations.Nullable;
import tepidarium.stats.GroupMeans.Difference;

/**
 * Counts how often the intervals of few whole units hold the truth: containers on two heat sources,
 * and times to be warm again.
 */
public final class UnitsCoverage {
  private static final int[] CONTAINERS = {2, 3, 4};
  private static final int[] OPENINGS = {3, 6, 12};

  /** Times to be warm again are skewed: the logarithm has this standard deviation. */
  private static final double SKEW = 0.4;

  private UnitsCoverage() {}

  /** Runs so many rounds from a seed of the generator. */
  public static List<ProportionCoverage.Coverage> run(int rounds, long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    List<ProportionCoverage.Coverage> all = new ArrayList<>();
    for (int units : CONTAINERS) {
      int held = 0;
      for (int i = 0; i < rounds; i++) {
        // The containers of one source differ twice as much as those of the other.
        held +=
            holds(GroupMeans.welch(normal(units, 1, random), normal(units, 2, random)), 0) ? 1 : 0;
      }
      all.add(
          new ProportionCoverage.Coverage(
              "sources by " + units + " containers each", held, rounds));
    }
    double truth = Math.exp(SKEW * SKEW / 2);
    for (int openings : OPENINGS) {
      int held = 0;
      for (int i = 0; i < rounds; i++) {
        double[] minutes = normal(openings, SKEW, random);
        Arrays.setAll(minutes, k -> Math.exp(minutes[k]));
        held += holds(GroupMeans.mean(minutes), truth) ? 1 : 0;
      }
      all.add(
          new ProportionCoverage.Coverage(
              "warm again after " + openings + " openings", held, rounds));
    }
    return all;
  }

  private static double[] normal(int count, double deviation, SplittableRandom random) {
    double[] values = new double[count];
    Arrays.setAll(values, i -> deviation * random.nextGaussian());
    return values;
  }

  private static boolean holds(@Nullable Difference interval, double truth) {
    return interval != null && interval.low() <= truth && truth <= interval.high();
  }
}
