package tepidarium.stats;

import java.util.Arrays;
import java.util.List;
import java.util.function.ToDoubleFunction;
import org.apache.commons.statistics.distribution.ChiSquaredDistribution;
import org.apache.commons.statistics.distribution.NormalDistribution;
import org.jspecify.annotations.Nullable;

/**
 * Compares two treatments over several strata, such as two heat sources over several seasons. Each
 * comparison is within a stratum. Therefore a treatment gains nothing from having more seeds in a
 * good season. Sources: Cochran, Biometrics 10 (1954) 417-451; Mantel and Haenszel, Journal of the
 * National Cancer Institute 22 (1959) 719-748.
 *
 * <p>All methods assume that seeds are independent within a stratum and treatment. If each
 * treatment has one container in each stratum, its seeds share moisture and temperature; {@link
 * #flips()} takes the stratum as the unit instead.
 *
 * @param strata at least one
 */
public record Stratified(List<ProportionDifference> strata) {
  private static final double Z_95 =
      NormalDistribution.of(0, 1)
          .inverseCumulativeProbability(1 - (1 - ConfidenceInterval.LEVEL) / 2);
  private static final int MAX_FLIPPED = 20;
  private static final double ROUNDING = 1e-9;

  /**
   * A test of whether strata agree.
   *
   * @param degreesOfFreedom strata with both outcomes, less 1
   */
  public record Heterogeneity(double chiSquare, int degreesOfFreedom) {
    public double p() {
      return ChiSquaredDistribution.of(degreesOfFreedom).survivalProbability(chiSquare);
    }
  }

  /**
   * The sign-flip test with the stratum as the unit: without an effect, each stratum's difference
   * has either sign with equal probability.
   *
   * @param p two-sided; null above 20 strata
   * @param leastP smallest possible p for this number of strata
   */
  public record Flips(@Nullable Double p, double leastP) {}

  /** The counts of a stratum: a and b germinated, c and d not, in the notation of the sources. */
  private record Table(double a, double b, double n1, double n2) {
    static Table of(ProportionDifference stratum) {
      return new Table(
          stratum.a().hits(), stratum.b().hits(), stratum.a().trials(), stratum.b().trials());
    }

    double n() {
      return n1 + n2;
    }

    double hits() {
      return a + b;
    }

    double expected() {
      return n1 * hits() / n();
    }

    /** The hypergeometric variance of a, with both margins fixed. */
    double variance() {
      return n() < 2 ? 0 : n1 * n2 * hits() * (n() - hits()) / (n() * n() * (n() - 1));
    }

    double forA() {
      return a * (n2 - b) / n();
    }

    double forB() {
      return b * (n1 - a) / n();
    }

    /** The hits of a that give this odds ratio with the same margins. */
    double atOddsRatio(double ratio) {
      double low = Math.max(0, hits() - n2);
      double high = Math.min(n1, hits());
      for (int i = 0; i < 100; i++) {
        double middle = (low + high) / 2;
        boolean below = middle * (n2 - hits() + middle) < ratio * (n1 - middle) * (hits() - middle);
        low = below ? middle : low;
        high = below ? high : middle;
      }
      return (low + high) / 2;
    }
  }

  public Stratified {
    strata = List.copyOf(strata);
    if (strata.isEmpty()) {
      throw new IllegalArgumentException("a stratified comparison needs at least one stratum");
    }
  }

  private double sum(ToDoubleFunction<Table> of) {
    return strata.stream().map(Table::of).mapToDouble(of).sum();
  }

  /** The test of Cochran, Mantel and Haenszel without continuity correction; one degree. */
  public double chiSquare() {
    double variance = sum(Table::variance);
    double apart = sum(table -> table.a() - table.expected());
    return variance > 0 ? apart * apart / variance : 0;
  }

  /**
   * The probability p that chance alone makes the strata differ at least as much, in one direction.
   */
  public double p() {
    return ChiSquaredDistribution.of(1).survivalProbability(chiSquare());
  }

  /** The common odds ratio of a to b; infinite or NaN if no stratum has the necessary counts. */
  public double oddsRatio() {
    return sum(Table::forA) / sum(Table::forB);
  }

  /**
   * The 95 % interval of the common odds ratio; null if the ratio is 0, infinite or unknown.
   * Source: Robins, Breslow and Greenland, Biometrics 42 (1986) 311-323.
   */
  public @Nullable ConfidenceInterval oddsRatioLimits() {
    double r = sum(Table::forA);
    double s = sum(Table::forB);
    if (!(r > 0 && s > 0)) {
      return null;
    }
    double pr = sum(t -> agreeing(t) * t.forA());
    double cross = sum(t -> agreeing(t) * t.forB() + (1 - agreeing(t)) * t.forA());
    double qs = sum(t -> (1 - agreeing(t)) * t.forB());
    double error = Math.sqrt(pr / (2 * r * r) + cross / (2 * r * s) + qs / (2 * s * s));
    double log = Math.log(r / s);
    return new ConfidenceInterval(Math.exp(log - Z_95 * error), Math.exp(log + Z_95 * error));
  }

  private static double agreeing(Table t) {
    return (t.a() + t.n2() - t.b()) / t.n();
  }

  private static double weight(Table t) {
    return t.n1() * t.n2() / t.n();
  }

  /**
   * The common difference of fractions, a less b, −1 to 1. The weight of a stratum is n₁ n₂ / n.
   */
  public double difference() {
    return sum(t -> (t.a() * t.n2() - t.b() * t.n1()) / t.n()) / sum(Stratified::weight);
  }

  /**
   * The 95 % interval of the common difference: Newcombe's interval from the Wilson intervals of
   * both weighted fractions. Each Wilson interval is for 1 / Σ (w² / n) seeds, where w is the share
   * of a stratum in the weights and n is its number of seeds. With one stratum it is {@link
   * ProportionDifference#newcombe()}. Source: Yan and Su, Statistics in Biopharmaceutical Research
   * 2 (2010) 329-335, stratified Newcombe interval (value from memory). Unlike there, the fractions
   * are assumed equal over the strata, which makes the interval slightly wider.
   */
  public ConfidenceInterval differenceLimits() {
    double weights = sum(Stratified::weight);
    double a = sum(t -> weight(t) * t.a() / t.n1()) / weights;
    double b = sum(t -> weight(t) * t.b() / t.n2()) / weights;
    double seedsA = weights * weights / sum(t -> weight(t) * weight(t) / t.n1());
    double seedsB = weights * weights / sum(t -> weight(t) * weight(t) / t.n2());
    return ProportionDifference.newcombe(
        a, Proportion.wilson(a, seedsA), b, Proportion.wilson(b, seedsB));
  }

  /**
   * The p of the exact two-sided test of no difference, with all margins fixed: the probability of
   * all totals of a that are at most as probable as the observed one. With one stratum it is
   * Fisher's exact test. Null if the counts are too large to add up. Source: Mehta, Patel and Gray,
   * Journal of the American Statistical Association 80 (1985) 969-973.
   */
  public @Nullable Double exactP() {
    return StratifiedExact.twoSided(strata);
  }

  /**
   * Whether the strata agree on one odds ratio; null if the ratio is unknown or fewer than two
   * strata have both outcomes. Source: Breslow and Day, Statistical Methods in Cancer Research 1
   * (1980), 4.4, with the correction of Tarone, Biometrika 72 (1985) 91-95.
   */
  public @Nullable Heterogeneity heterogeneity() {
    double ratio = oddsRatio();
    List<Table> telling = strata.stream().map(Table::of).filter(t -> t.variance() > 0).toList();
    if (!(ratio > 0 && ratio < Double.POSITIVE_INFINITY) || telling.size() < 2) {
      return null;
    }
    double squares = 0;
    double apart = 0;
    double variances = 0;
    for (Table t : telling) {
      double a = t.atOddsRatio(ratio);
      double variance =
          1 / (1 / a + 1 / (t.n1() - a) + 1 / (t.hits() - a) + 1 / (t.n2() - t.hits() + a));
      squares += (t.a() - a) * (t.a() - a) / variance;
      apart += t.a() - a;
      variances += variance;
    }
    return new Heterogeneity(squares - apart * apart / variances, telling.size() - 1);
  }

  /**
   * The mean of the strata's differences, with equal weights and the stratum as the unit. Null for
   * fewer than two strata. Null also if all differences are equal, because the spread between
   * strata is then unknown. Source: Student's t.
   */
  public GroupMeans.@Nullable Difference perStratum() {
    double[] differences = differences();
    boolean equal = Arrays.stream(differences).allMatch(d -> d == differences[0]);
    return equal ? null : GroupMeans.mean(differences);
  }

  private double[] differences() {
    return strata.stream().mapToDouble(ProportionDifference::difference).toArray();
  }

  /** Source: Fisher, The Design of Experiments (1935), the randomisation test. */
  public Flips flips() {
    double[] differences = differences();
    double least = Math.min(1, 2 / Math.pow(2, differences.length));
    if (differences.length > MAX_FLIPPED) {
      return new Flips(null, least);
    }
    double seen = 0;
    for (double difference : differences) {
      seen += difference;
    }
    long extreme = 0;
    long ways = 1L << differences.length;
    for (long signs = 0; signs < ways; signs++) {
      double sum = 0;
      for (int i = 0; i < differences.length; i++) {
        sum += (signs >> i & 1) == 1 ? differences[i] : -differences[i];
      }
      extreme += Math.abs(sum) >= Math.abs(seen) - ROUNDING ? 1 : 0;
    }
    return new Flips((double) extreme / ways, least);
  }
}
