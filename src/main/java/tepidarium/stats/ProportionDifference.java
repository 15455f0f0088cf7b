package tepidarium.stats;

import java.util.OptionalLong;
import org.apache.commons.statistics.distribution.NormalDistribution;

/** Compares two independent proportions; the difference is a − b. */
public record ProportionDifference(Proportion a, Proportion b) {
  private static final NormalDistribution NORMAL = NormalDistribution.of(0, 1);

  /** a − b, −1 to 1. */
  public double difference() {
    return a.fraction() - b.fraction();
  }

  /**
   * The interval of the difference at 95 % from the two Wilson intervals. Source: method 10 of
   * Newcombe, Statistics in Medicine 17 (1998) 873-890.
   */
  public ConfidenceInterval newcombe() {
    return newcombe(a.fraction(), a.wilson(), b.fraction(), b.wilson());
  }

  /** Newcombe's interval from two fractions and their Wilson intervals. */
  static ConfidenceInterval newcombe(
      double a, ConfidenceInterval ofA, double b, ConfidenceInterval ofB) {
    double down = Math.hypot(a - ofA.low(), ofB.high() - b);
    double up = Math.hypot(ofA.high() - a, b - ofB.low());
    return new ConfidenceInterval(
        Math.max(-1, a - b - down), Math.max(-1, Math.min(1, a - b + up)));
  }

  /** Fisher's exact test, two-sided: see {@link FisherExact}. */
  public double fisherP() {
    return FisherExact.twoSided(a, b);
  }

  /**
   * The number of trials needed in each group to detect the difference of these fractions with a
   * power of 80 % at a two-sided level of 5 %; empty if the fractions are equal.
   */
  public OptionalLong trialsEachForPower80() {
    double first = a.fraction();
    double second = b.fraction();
    return first == second
        ? OptionalLong.empty()
        : OptionalLong.of((long) Math.ceil(trialsEach(first, second, 0.8, 0.05) - 1e-9));
  }

  /**
   * Trials needed in each of two equal groups, before rounding up, to detect a true difference with
   * a given power: n = (z(1−α/2) √(2 p̄ (1−p̄)) + z(power) √(p₁(1−p₁) + p₂(1−p₂)))² / (p₁ − p₂)²,
   * with p̄ = (p₁ + p₂)/2. Source: Fleiss, Statistical Methods for Rates and Proportions, eq. 4.14,
   * without continuity correction; the exact test needs somewhat more.
   */
  public static double trialsEach(double first, double second, double power, double alpha) {
    double mean = (first + second) / 2;
    double none = quantile(1 - alpha / 2) * Math.sqrt(2 * mean * (1 - mean));
    double some = quantile(power) * Math.sqrt(first * (1 - first) + second * (1 - second));
    double gap = first - second;
    return (none + some) * (none + some) / (gap * gap);
  }

  /**
   * The power to detect a difference of two true fractions with a number of trials in each group;
   * by the same normal approximation, solved for the power.
   */
  public static double power(double first, double second, int trialsEach, double alpha) {
    double mean = (first + second) / 2;
    double none = quantile(1 - alpha / 2) * Math.sqrt(2 * mean * (1 - mean));
    double some = Math.sqrt(first * (1 - first) + second * (1 - second));
    double gap = Math.abs(first - second) * Math.sqrt(trialsEach);
    return NORMAL.cumulativeProbability((gap - none) / some);
  }

  private static double quantile(double probability) {
    return NORMAL.inverseCumulativeProbability(probability);
  }
}
