package tepidarium.germination;

import java.util.List;
import java.util.OptionalDouble;
import java.util.function.ToDoubleFunction;
import tepidarium.stats.Censored;

/**
 * Calculates the usual germination measures of one sowing, each by its published formula. Notation:
 * N seeds germinated of S sown; n of them were found at the check at time t; G is the cumulative
 * percentage of the sown seeds. Times have the unit of the counts, such as days.
 *
 * <p>Like their sources, these formulas use the time of the check as the time of germination. This
 * is late by about half an interval; {@link #earliestMeanTime} and the measures on interval middles
 * show the size of this error. {@link tepidarium.stats.IntervalFit} and {@link
 * tepidarium.stats.Turnbull} treat the counts as intervals. A measure that does not exist is empty,
 * not 0.
 */
public final class GerminationMeasures {
  private final int sown;
  private final List<Censored> found;
  private final double lastCheck;

  /**
   * Takes the counts of one sowing.
   *
   * @param sown at least 1
   * @param intervals one interval for each check, in order, without gaps, starting at 0. Each lasts
   *     from the previous check to this one and has the number of seeds found at it, which may be
   *     0. All are closed.
   * @throws IllegalArgumentException if more seeds germinated than were sown, or if intervals
   *     overlap
   */
  public GerminationMeasures(int sown, List<Censored> intervals) {
    double end = 0;
    long sum = 0;
    for (Censored interval : intervals) {
      if (interval.open() || interval.left() < end) {
        throw new IllegalArgumentException("checks must follow each other");
      }
      end = interval.right();
      sum += interval.count();
    }
    if (sown < 1 || sum > sown) {
      throw new IllegalArgumentException(sum + " germinated of " + sown + " sown");
    }
    this.sown = sown;
    this.found = List.copyOf(intervals);
    this.lastCheck = end;
  }

  public int sown() {
    return sown;
  }

  /** N, the number of germinated seeds. */
  public int germinated() {
    return found.stream().mapToInt(Censored::count).sum();
  }

  public double finalFraction() {
    return (double) germinated() / sown;
  }

  private OptionalDouble mean(ToDoubleFunction<Censored> time) {
    int n = germinated();
    double sum = found.stream().mapToDouble(i -> i.count() * time.applyAsDouble(i)).sum();
    return n == 0 ? OptionalDouble.empty() : OptionalDouble.of(sum / n);
  }

  /** Mean germination time Σ n t / N. Ranal and Santana, Rev. Bras. Bot. 29 (2006) 1-11. */
  public OptionalDouble meanTime() {
    return mean(Censored::right);
  }

  /** The mean germination time with the middle of each interval instead of its check. */
  public OptionalDouble meanTimeOfMiddles() {
    return mean(i -> (i.left() + i.right()) / 2);
  }

  /** The lower bound of the mean: every seed germinated just after the previous check. */
  public OptionalDouble earliestMeanTime() {
    return mean(Censored::left);
  }

  /** 1 / mean germination time. Ranal and Santana (2006). */
  public OptionalDouble meanRate() {
    return meanTime().isEmpty()
        ? OptionalDouble.empty()
        : OptionalDouble.of(1 / meanTime().getAsDouble());
  }

  private double squares() {
    double mean = meanTime().orElse(0);
    return found.stream().mapToDouble(i -> i.count() * Math.pow(i.right() - mean, 2)).sum();
  }

  /** Σ n (t − mean)² / (N − 1), for two seeds or more. Ranal and Santana (2006). */
  public OptionalDouble variance() {
    int n = germinated();
    return n < 2 ? OptionalDouble.empty() : OptionalDouble.of(squares() / (n - 1));
  }

  /** The coefficient of variation, 100 √variance / mean, in %. Ranal and Santana (2006). */
  public OptionalDouble variationPercent() {
    return variance().isEmpty()
        ? OptionalDouble.empty()
        : OptionalDouble.of(100 * Math.sqrt(variance().getAsDouble()) / meanTime().getAsDouble());
  }

  /** Uniformity N / Σ n (t − mean)²; empty if all were found at one check. Value from memory. */
  public OptionalDouble uniformity() {
    double squares = squares();
    return germinated() < 2 || squares == 0
        ? OptionalDouble.empty()
        : OptionalDouble.of(germinated() / squares);
  }

  /**
   * The time at which the cumulative count reaches a target, interpolated linearly between checks;
   * empty if it never does.
   */
  private OptionalDouble reaches(double target) {
    double sum = 0;
    for (Censored interval : found) {
      if (interval.count() > 0 && sum + interval.count() >= target) {
        double part = (target - sum) / interval.count();
        return OptionalDouble.of(interval.left() + part * (interval.right() - interval.left()));
      }
      sum += interval.count();
    }
    return OptionalDouble.empty();
  }

  /**
   * Time to germination of seed (N + 1)/2, the median of the germinated seeds. Coolbear, Francis
   * and Grierson, J. Exp. Bot. 35 (1984) 1609-1617.
   */
  public OptionalDouble halfTimeCoolbear() {
    int n = germinated();
    return n == 0 ? OptionalDouble.empty() : reaches((n + 1) / 2.0);
  }

  /**
   * Time to germination of seed N/2, the median of the germinated seeds. Farooq et al., J. Integr.
   * Plant Biol. 47 (2005) 187-193.
   */
  public OptionalDouble halfTimeFarooq() {
    int n = germinated();
    return n == 0 ? OptionalDouble.empty() : reaches(n / 2.0);
  }

  /**
   * Time to germination of half of the sown seeds, interpolated linearly; empty if fewer
   * germinated.
   */
  public OptionalDouble halfTimeOfSown() {
    return reaches(sown / 2.0);
  }

  /**
   * Shannon's uncertainty of the checks at which seeds were found, −Σ f log₂ f with f = n/N, bits.
   * Ranal and Santana (2006).
   */
  public OptionalDouble uncertaintyBits() {
    double n = germinated();
    if (n == 0) {
      return OptionalDouble.empty();
    }
    return OptionalDouble.of(
        found.stream()
            .filter(i -> i.count() > 0)
            .mapToDouble(i -> i.count() / n * Math.log(n / i.count()) / Math.log(2))
            .sum());
  }

  /**
   * Synchrony Z: the share of all pairs of germinated seeds that were found at the same check, Σ
   * C(n, 2) / C(N, 2); empty for fewer than two seeds. Primack, as in Ranal and Santana (2006).
   */
  public OptionalDouble synchrony() {
    double n = germinated();
    double pairs = found.stream().mapToDouble(i -> i.count() * (i.count() - 1.0)).sum();
    return n < 2 ? OptionalDouble.empty() : OptionalDouble.of(pairs / (n * (n - 1)));
  }

  /**
   * Speed of germination Σ n / t, seeds per unit of time. Maguire, Crop Science 2 (1962) 176-177.
   */
  public double speed() {
    return found.stream().mapToDouble(i -> i.count() / i.right()).sum();
  }

  /** Germination rate index Σ (100 n / S) / t, % per unit of time. */
  public double rateIndexPercent() {
    return 100 * speed() / sown;
  }

  private double cumulativePercent(int check) {
    return 100.0 * found.stream().limit(check + 1L).mapToInt(Censored::count).sum() / sown;
  }

  private int peak() {
    int best = 0;
    for (int i = 1; i < found.size(); i++) {
      if (cumulativePercent(i) / found.get(i).right()
          > cumulativePercent(best) / found.get(best).right()) {
        best = i;
      }
    }
    return best;
  }

  /** Peak value: the greatest G / t. Czabator, Forest Science 8 (1962) 386-396. */
  public double peakValue() {
    return found.isEmpty() ? 0 : cumulativePercent(peak()) / found.get(peak()).right();
  }

  /** The time of the check with the peak value; empty if no seed germinated. */
  public OptionalDouble peakTime() {
    return germinated() == 0
        ? OptionalDouble.empty()
        : OptionalDouble.of(found.get(peak()).right());
  }

  /** Final percentage divided by the time of the last check. Czabator (1962). */
  public double meanDailyPercent() {
    return found.isEmpty() ? 0 : 100 * finalFraction() / lastCheck;
  }

  /** Peak value × mean daily percentage. Czabator (1962). */
  public double germinationValue() {
    return peakValue() * meanDailyPercent();
  }

  /** Timson's index: the sum of G over all checks. Timson, Nature 207 (1965) 216-217. */
  public double timsonPercent() {
    double sum = 0;
    for (int i = 0; i < found.size(); i++) {
      sum += cumulativePercent(i);
    }
    return sum;
  }

  /** The time of the first check at which a germinated seed was found. */
  public OptionalDouble firstTime() {
    return found.stream().filter(i -> i.count() > 0).mapToDouble(Censored::right).findFirst();
  }

  /** The time of the last check at which a germinated seed was found. */
  public OptionalDouble lastTime() {
    return found.stream().filter(i -> i.count() > 0).mapToDouble(Censored::right).max();
  }
}
