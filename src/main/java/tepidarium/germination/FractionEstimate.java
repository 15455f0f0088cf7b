package tepidarium.germination;

import java.util.List;
import org.apache.commons.statistics.interval.BinomialConfidenceInterval;
import org.apache.commons.statistics.interval.Interval;
import org.jspecify.annotations.Nullable;
import tepidarium.germination.GerminationData.Fate;
import tepidarium.stats.ConfidenceInterval;

/**
 * The germinated fraction of the seeds that were checked, with two 95 % intervals. Sources: Wilson,
 * "Probable inference, the law of succession, and statistical inference", JASA 22 (1927) 209-212;
 * exact interval of Clopper and Pearson, Biometrika 26 (1934) 404-413.
 *
 * @param sown number of checked seeds
 * @param fraction null if no seed was checked; both intervals are then 0 to 1
 * @param wilson low and high end
 * @param exact low and high end
 */
public record FractionEstimate(
    int germinated, int sown, @Nullable Double fraction, List<Double> wilson, List<Double> exact) {
  private static final double ERROR_RATE = 1 - ConfidenceInterval.LEVEL;

  /** The fraction of the checked seeds of a sowing. */
  public static FractionEstimate of(GerminationData data) {
    return of(data.count(Fate.GERMINATED), data.lookedAt());
  }

  /** The fraction from the number of germinated and of checked seeds. */
  public static FractionEstimate of(int germinated, int sown) {
    if (sown == 0) {
      List<Double> unknown = List.of(0.0, 1.0);
      return new FractionEstimate(0, 0, null, unknown, unknown);
    }
    return new FractionEstimate(
        germinated,
        sown,
        (double) germinated / sown,
        limits(BinomialConfidenceInterval.WILSON_SCORE, germinated, sown),
        limits(BinomialConfidenceInterval.CLOPPER_PEARSON, germinated, sown));
  }

  private static List<Double> limits(BinomialConfidenceInterval kind, int germinated, int sown) {
    Interval interval = kind.fromErrorRate(sown, germinated, ERROR_RATE);
    return List.of(interval.getLowerBound(), interval.getUpperBound());
  }
}
