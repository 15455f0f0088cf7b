package tepidarium.germination;

import java.util.List;
import java.util.OptionalDouble;
import java.util.function.ToDoubleFunction;
import tepidarium.stats.Censored;

/**
 * The usual measures of one sowing's counts, each with its published formula. N seeds germinated of
 * S sown, n of them newly found at the check at time t; G is the cumulative percentage of the sown.
 * Times are in the unit of the counts, such as days.
 *
 * <p>These formulas take the check as the time of germination, as their sources do, and are late by
 * about half an interval; {@link #earliestMeanTime} and the measures on middles say by how much.
 * What treats the counts as intervals throughout is in {@link tepidarium.stats.IntervalFit} and
 * {@link tepidarium.stats.Turnbull}. A measure that does not exist is absent, not 0.
 */
public final class GerminationMeasures {
  private final int sown;
  private final List<Censored> found;
  private final double lastCheck;

  /**
   * Of one sowing.
   *
   * @param sown at least 1
   * @param intervals one for each check, in order and without a gap from 0: from the check before
   *     to this one, with the seeds newly found, which may be 0; only closed intervals
   * @throws IllegalArgumentException where more germinated than were sown, or intervals overlap
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

  /** N. */
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

  /** The same with the middle of each interval for its check. */
  public OptionalDouble meanTimeOfMiddles() {
    return mean(i -> (i.left() + i.right()) / 2);
  }

  /** The mean if every seed had germinated just after the check before: it is not earlier. */
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

  /** The coefficient of variation, 100 √variance / mean, %. Ranal and Santana (2006). */
  public OptionalDouble variationPercent() {
    return variance().isEmpty()
        ? OptionalDouble.empty()
        : OptionalDouble.of(100 * Math.sqrt(variance().getAsDouble()) / meanTime().getAsDouble());
  }

  /** N / Σ n (t − mean)²; none where all were found at one check. Value from memory. */
  public OptionalDouble uniformity() {
    double squares = squares();
    return germinated() < 2 || squares == 0
        ? OptionalDouble.empty()
        : OptionalDouble.of(germinated() / squares);
  }

  /**
   * When the cumulative count, a straight line between checks, reaches a target; none where it
   * never does.
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
   * Time to half of those that germinated, with (N + 1)/2. Coolbear, Francis and Grierson, J. Exp.
   * Bot. 35 (1984) 1609-1617.
   */
  public OptionalDouble halfTimeCoolbear() {
    int n = germinated();
    return n == 0 ? OptionalDouble.empty() : reaches((n + 1) / 2.0);
  }

  /**
   * Time to half of those that germinated, with N/2. Farooq et al., J. Integr. Plant Biol. 47
   * (2005) 187-193.
   */
  public OptionalDouble halfTimeFarooq() {
    int n = germinated();
    return n == 0 ? OptionalDouble.empty() : reaches(n / 2.0);
  }

  /** Time to half of the sown, by the same straight lines; none where less germinated. */
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
   * Synchrony Z: the part of all pairs of seeds that were found at one check, Σ C(n, 2) / C(N, 2),
   * for two seeds or more. Primack, as in Ranal and Santana (2006).
   */
  public OptionalDouble synchrony() {
    double n = germinated();
    double pairs = found.stream().mapToDouble(i -> i.count() * (i.count() - 1.0)).sum();
    return n < 2 ? OptionalDouble.empty() : OptionalDouble.of(pairs / (n * (n - 1)));
  }

  /** Σ n / t, seeds by unit of time. Maguire, Crop Science 2 (1962) 176-177. */
  public double speed() {
    return found.stream().mapToDouble(i -> i.count() / i.right()).sum();
  }

  /** Σ (100 n / S) / t, % by unit of time. */
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

  /** The greatest G / t. Czabator, Forest Science 8 (1962) 386-396. */
  public double peakValue() {
    return found.isEmpty() ? 0 : cumulativePercent(peak()) / found.get(peak()).right();
  }

  /** The check of the peak value; none where nothing germinated. */
  public OptionalDouble peakTime() {
    return germinated() == 0
        ? OptionalDouble.empty()
        : OptionalDouble.of(found.get(peak()).right());
  }

  /** Final percentage by the time of the last check. Czabator (1962). */
  public double meanDailyPercent() {
    return found.isEmpty() ? 0 : 100 * finalFraction() / lastCheck;
  }

  /** Peak value × mean daily percentage. Czabator (1962). */
  public double germinationValue() {
    return peakValue() * meanDailyPercent();
  }

  /** The sum of G over all checks. Timson, Nature 207 (1965) 216-217. */
  public double timsonPercent() {
    double sum = 0;
    for (int i = 0; i < found.size(); i++) {
      sum += cumulativePercent(i);
    }
    return sum;
  }

  /** The first check at which a seed was found. */
  public OptionalDouble firstTime() {
    return found.stream().filter(i -> i.count() > 0).mapToDouble(Censored::right).findFirst();
  }

  /** The last check at which a seed was found. */
  public OptionalDouble lastTime() {
    return found.stream().filter(i -> i.count() > 0).mapToDouble(Censored::right).max();
  }
}
