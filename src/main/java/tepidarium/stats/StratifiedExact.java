package tepidarium.stats;

import java.util.Arrays;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Computes the exact distribution of the hits of one treatment over all strata when treatments do
 * not differ: the convolution of the strata's hypergeometric distributions.
 */
final class StratifiedExact {
  /** Maximum number of products to add up, which takes about 20 ms. */
  private static final double MAX_PRODUCTS = 5e6;

  private StratifiedExact() {}

  static @Nullable Double twoSided(List<ProportionDifference> strata) {
    double[] all = {1};
    int seen = 0;
    double products = 0;
    for (ProportionDifference stratum : strata) {
      Hypergeometric one = Hypergeometric.of(stratum.a(), stratum.b());
      long size = one.most() - one.least() + 1;
      products += (double) all.length * size;
      if (products > MAX_PRODUCTS) {
        return null;
      }
      all = convolved(all, probabilities(one));
      seen += (int) (stratum.a().hits() - one.least());
    }
    double limit = all[seen] * FisherExact.TIE;
    double extreme = 0;
    double sum = 0;
    for (double one : all) {
      sum += one;
      extreme += one <= limit ? one : 0;
    }
    return Math.min(1, extreme / sum);
  }

  /** Probabilities from the minimum to the maximum possible number of hits; 0 in the far tails. */
  private static double[] probabilities(Hypergeometric stratum) {
    int mode = (int) (stratum.mode() - stratum.least());
    double[] weights = new double[(int) (stratum.most() - stratum.least() + 1)];
    weights[mode] = 1;
    for (int i = mode + 1; i < weights.length; i++) {
      weights[i] = weights[i - 1] * stratum.step(stratum.least() + i - 1);
    }
    for (int i = mode - 1; i >= 0; i--) {
      weights[i] = weights[i + 1] / stratum.step(stratum.least() + i);
    }
    double sum = Arrays.stream(weights).sum();
    return Arrays.stream(weights).map(weight -> weight / sum).toArray();
  }

  private static double[] convolved(double[] a, double[] b) {
    double[] both = new double[a.length + b.length - 1];
    for (int i = 0; i < a.length; i++) {
      for (int j = 0; j < b.length; j++) {
        both[i + j] += a[i] * b[j];
      }
    }
    return both;
  }
}
