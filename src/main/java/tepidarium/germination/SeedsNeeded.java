package tepidarium.germination;

import java.util.List;
import java.util.OptionalLong;
import java.util.function.LongToDoubleFunction;
import org.apache.commons.numbers.gamma.RegularizedBeta;
import tepidarium.stats.BetaBinomial;
import tepidarium.stats.Proportion;

/**
 * Calculates how many seeds to sow so that at least the wanted number germinate with a stated
 * confidence. Every method accounts for chance; the later ones also account for uncertainty about
 * the fraction. The answer is empty where more than {@value #MOST_SEEDS} seeds would be needed.
 */
public final class SeedsNeeded {
  public static final int MOST_SEEDS = 1_000_000_000;

  private static final double FIRST_STEP = 1;
  private static final int MOST_HALVINGS = 4;
  private static final double SETTLED = 0.0025;
  private static final double FIRST_FACTOR = 1.1;
  private static final double ROUNDING = 1e-12;

  private SeedsNeeded() {}

  /**
   * With a fraction that is taken as known: the fewest n with P(X ≥ wanted) ≥ confidence for X
   * binomial, a quantile of the negative binomial distribution.
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

  /** P(X ≥ wanted) = I(p; wanted, n − wanted + 1), the regularised incomplete beta function. */
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
   * After one past result, the fraction being as uncertain as that result leaves it: beta-binomial
   * with Jeffreys' prior Beta(½, ½), see {@link BetaBinomial#after(Proportion)}. The next lot is
   * taken to be like the past one.
   */
  public static OptionalLong afterResult(int wanted, double confidence, Proportion past) {
    return after(wanted, confidence, BetaBinomial.after(past));
  }

  /** With a fraction that follows a beta distribution. */
  public static OptionalLong after(int wanted, double confidence, BetaBinomial fraction) {
    return fewest(wanted, confidence, n -> fraction.atLeast(wanted, n));
  }

  /**
   * After several past lots, for a lot that is not yet known: see {@link NextLot}. The step of the
   * integration is halved until the answer changes by less than 0.25 %, at most {@value
   * #MOST_HALVINGS} times.
   *
   * @param lots at least two
   */
  public static OptionalLong afterLots(int wanted, double confidence, List<Proportion> lots) {
    if (lots.size() < 2) {
      throw new IllegalArgumentException("it takes two lots to see how far lots differ");
    }
    check(wanted, confidence);
    double step = FIRST_STEP;
    OptionalLong last = afterLots(wanted, confidence, new NextLot(lots, step));
    for (int i = 0; i < MOST_HALVINGS; i++) {
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
    if (start > 4.0 * MOST_SEEDS) {
      return OptionalLong.empty();
    }
    return fewest(wanted, confidence, tail::atLeast, (long) Math.min(MOST_SEEDS, start));
  }

  private static OptionalLong fewest(
      int wanted, double confidence, LongToDoubleFunction probability) {
    return fewest(wanted, confidence, probability, wanted);
  }

  /**
   * The probability rises with n, so that the first n that is enough is found by halving.
   *
   * @param start where the search begins, at least {@code wanted}
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
        if (enough == MOST_SEEDS) {
          return OptionalLong.empty();
        }
        few = enough;
        enough = Math.min(MOST_SEEDS, (long) Math.ceil(enough * factor));
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
