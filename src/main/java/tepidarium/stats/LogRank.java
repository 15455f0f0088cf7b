package tepidarium.stats;

import java.util.List;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.apache.commons.statistics.distribution.ChiSquaredDistribution;
import tepidarium.stats.KaplanMeier.Observed;

/**
 * The log-rank test of equal event rates in two groups, for exact times or for counts at check
 * times shared by both. For other intervals see {@link IntervalLogRank}. Source: Mantel, Cancer
 * Chemotherapy Reports 50 (1966) 163-170.
 *
 * @param observed events in the first group
 * @param expected expected events in the first group at equal rates
 * @param variance hypergeometric variance of the difference
 * @param events events in both groups
 */
public record LogRank(int observed, double expected, double variance, int events) {
  public static LogRank of(List<Observed> first, List<Observed> second) {
    TreeSet<Double> times = new TreeSet<>();
    Stream.concat(first.stream(), second.stream())
        .filter(Observed::met)
        .forEach(o -> times.add(o.time()));
    int observed = 0;
    int events = 0;
    double expected = 0;
    double variance = 0;
    for (double time : times) {
      double n1 = atRisk(first, time);
      double n = n1 + atRisk(second, time);
      int d1 = met(first, time);
      int d = d1 + met(second, time);
      observed += d1;
      events += d;
      expected += d * n1 / n;
      variance += n > 1 ? d * (n1 / n) * (1 - n1 / n) * (n - d) / (n - 1) : 0;
    }
    return new LogRank(observed, expected, variance, events);
  }

  private static long atRisk(List<Observed> group, double time) {
    return group.stream().filter(o -> o.time() >= time).count();
  }

  private static int met(List<Observed> group, double time) {
    return (int) group.stream().filter(o -> o.met() && o.time() == time).count();
  }

  /** One degree of freedom; 0 where nothing can be computed. */
  public double chiSquare() {
    double gap = observed - expected;
    return variance == 0 ? 0 : gap * gap / variance;
  }

  /** Two-sided. */
  public double p() {
    return ChiSquaredDistribution.of(1).survivalProbability(chiSquare());
  }

  /** Expected events in the second group at equal rates. */
  public double expectedSecond() {
    return events - expected;
  }
}
