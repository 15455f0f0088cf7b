package tepidarium.germination;

import java.util.List;
import org.apache.commons.statistics.interval.BinomialConfidenceInterval;
import org.apache.commons.statistics.interval.Interval;
import org.jspecify.annotations.Nullable;
import tepidarium.germination.GerminationData.Fate;

/**
 * A fraction of seeds that somebody looked at, with its 95 % intervals: Wilson, "Probable
 * inference, the law of succession, and statistical inference", JASA 22 (1927) 209-212, and the
 * exact one of Clopper and Pearson, Biometrika 26 (1934) 404-413.
 *
 * @param sown seeds looked at
 * @param fraction null where nobody looked at any seed; the intervals are 0 to 1 then
 * @param wilson low and high
 * @param exact low and high
 */
public record FractionEstimate(
    int germinated, int sown, @Nullable Double fraction, List<Double> wilson, List<Double> exact) {
  private static final double ALPHA = 0.05;

  /** Of the seeds of a sowing that somebody looked at. */
  public static FractionEstimate of(GerminationData data) {
    return of(data.count(Fate.GERMINATED), data.lookedAt());
  }

  /** Of so many seeds so many germinated. */
  public static FractionEstimate of(int germinated, int sown) {
    if (sown == 0) {
      List<Double> any = List.of(0.0, 1.0);
      return new FractionEstimate(0, 0, null, any, any);
    }
    return new FractionEstimate(
        germinated,
        sown,
        (double) germinated / sown,
        limits(BinomialConfidenceInterval.WILSON_SCORE, germinated, sown),
        limits(BinomialConfidenceInterval.CLOPPER_PEARSON, germinated, sown));
  }

  private static List<Double> limits(BinomialConfidenceInterval kind, int germinated, int sown) {
    Interval interval = kind.fromErrorRate(sown, germinated, ALPHA);
    return List.of(interval.getLowerBound(), interval.getUpperBound());
  }
}
