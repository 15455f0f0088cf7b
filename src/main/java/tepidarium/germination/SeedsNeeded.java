package tepidarium.germination;

import java.util.List;
import java.util.OptionalLong;
import java.util.function.LongToDoubleFunction;
import org.apache.commons.numbers.gamma.RegularizedBeta;
import tepidarium.stats.BetaBinomial;
import tepidarium.stats.Proportion;

/**
 * Calculates how many seeds to sow for at least the wanted number to germinate with a stated
 * confidence. Each method accounts for chance; {@link #afterResult}, {@link #after} and {@link
 * #afterLots} also account for uncertainty of the fraction. Empty if more than {@value #MAX_SEEDS}
 * seeds are needed.
 */
public final class SeedsNeeded {
  public static final int MAX_SEEDS = 1_000_000_000;

  private static final double FIRST_STEP = 1;
  private static final int MAX_HALVINGS = 4;
  private static final double SETTLED = 0.0025;
  private static final double FIRST_FACTOR = 1.1;
  private static final double ROUNDING = 1e-12;

  private SeedsNeeded() {}

  /**
   * Seeds needed for a known fraction: the smallest n with P(X ≥ wanted) ≥ confidence for binomial
   * X. This is a quantile of the negative binomial distribution.
   *
   * @param wanted at least 1
   * @param confidence above 0 and below 1
   * @param fraction above 0 and at most 1
   */
  public static OptionalLong knownFraction(int wanted, double confidence, double fraction) {
    if (!(fraction > 0 && fraction <= 1)) {
      throw new IllegalArgumentException("the fraction must be above 0 and at most 1");
    }
    return fewest(wanted, confidence, n -> binomialAtLeast(wanted, (double) n, fraction));
  }

  /**
   * P(X ≥ wanted) = I(p; wanted, n − wanted + 1), I being the regularised incomplete beta function.
   */
  static double binomialAtLeast(double wanted, double n, double fraction) {
    if (wanted <= 0) {
      return 1;
    }
    if (wanted > n) {
      return 0;
    }
    return fraction == 1 ? 1 : RegularizedBeta.value(fraction, wanted, n - wanted + 1.0);
  }

  /**
   * Seeds needed after one past result. The number of germinated seeds is beta-binomial with
   * Jeffreys' prior Beta(½, ½), see {@link BetaBinomial#after(Proportion)}. Assumes that the next
   * lot has the same fraction as the past one.
   */
  public static OptionalLong afterResult(int wanted, double confidence, Proportion past) {
    return after(wanted, confidence, BetaBinomial.after(past));
  }

  /** Seeds needed for a fraction with a beta distribution. */
  public static OptionalLong after(int wanted, double confidence, BetaBinomial fraction) {
    return fewest(wanted, confidence, n -> fraction.atLeast(wanted, n));
  }

  /**
   * Seeds needed for a new lot after several past lots, see {@link NextLot}. The step of the
   * integration is halved until the answer changes by less than 0.25 %, at most {@value
   * #MAX_HALVINGS} times.
   *
   * @param lots at least two
   */
  public static OptionalLong afterLots(int wanted, double confidence, List<Proportion> lots) {
    if (lots.size() < 2) {
      throw new IllegalArgumentException(
          "at least two lots are needed to estimate how much lots differ");
    }
    check(wanted, confidence);
    double step = FIRST_STEP;
    OptionalLong last = afterLots(wanted, confidence, new NextLot(lots, step));
    for (int i = 0; i < MAX_HALVINGS; i++) {
      step /= 2;
      OptionalLong next = afterLots(wanted, confidence, new NextLot(lots, step));
      if (settled(last, next)) {
        return next;
      }
      last = next;
    }
    return last;
  }

  private static boolean settled(OptionalLong last, OptionalLong next) {
    return last.isPresent() == next.isPresent()
        && Math.abs(last.orElse(0) - next.orElse(0)) <= Math.max(1, SETTLED * next.orElse(0));
  }

  private static OptionalLong afterLots(int wanted, double confidence, NextLot lot) {
    NextLotTail tail = new NextLotTail(lot, wanted, confidence);
    double start = tail.start(confidence);
    if (start > 4.0 * MAX_SEEDS) {
      return OptionalLong.empty();
    }
    return fewest(wanted, confidence, tail::atLeast, (long) Math.min(MAX_SEEDS, start));
  }

  private static OptionalLong fewest(
      int wanted, double confidence, LongToDoubleFunction probability) {
    return fewest(wanted, confidence, probability, wanted);
  }

  /**
   * Finds the smallest n with enough probability by bisection. The probability rises with n.
   *
   * @param start start of the search, at least {@code wanted}
   */
  private static OptionalLong fewest(
      int wanted, double confidence, LongToDoubleFunction probability, long start) {
    check(wanted, confidence);
    double needed = confidence - ROUNDING;
    long few = wanted - 1L;
    long enough = start;
    double factor = FIRST_FACTOR;
    if (probability.applyAsDouble(start) >= needed) {
      while (few < enough / factor
          && probability.applyAsDouble((long) (enough / factor)) >= needed) {
        enough = (long) (enough / factor);
        factor *= factor;
      }
      few = Math.max(few, (long) (enough / factor));
    } else {
      while (probability.applyAsDouble(enough) < needed) {
        if (enough == MAX_SEEDS) {
          return OptionalLong.empty();
        }
        few = enough;
        enough = Math.min(MAX_SEEDS, (long) Math.ceil(enough * factor));
        factor = Math.min(2, factor * factor);
      }
    }
    while (enough - few > 1) {
      long middle = (few + enough) / 2;
      if (probability.applyAsDouble(middle) < needed) {
        few = middle;
      } else {
        enough = middle;
      }
    }
    return OptionalLong.of(enough);
  }

  private static void check(int wanted, double confidence) {
    if (wanted < 1) {
      throw new IllegalArgumentException("wanted must be at least 1");
    }
    if (!(confidence > 0 && confidence < 1)) {
      throw new IllegalArgumentException("the confidence must lie between 0 and 1");
    }
  }
}
