package tepidarium.germination;

import java.util.List;
import org.apache.commons.statistics.interval.BinomialConfidenceInterval;
import org.apache.commons.statistics.interval.Interval;

/**
 * A fraction of seeds with its 95 % intervals: Wilson, "Probable inference, the law of succession,
 * and statistical inference", JASA 22 (1927) 209-212, and the exact one of Clopper and Pearson,
 * Biometrika 26 (1934) 404-413.
 *
 * @param wilson low and high
 * @param exact low and high
 */
public record FractionEstimate(
    int germinated, int sown, double fraction, List<Double> wilson, List<Double> exact) {
  private static final double ALPHA = 0.05;

  /** Of so many sown seeds, at least 1, so many germinated. */
  public static FractionEstimate of(int germinated, int sown) {
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
