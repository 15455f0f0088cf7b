package tepidarium.stats;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Computes the exact distribution of the hits of one treatment over all strata when treatments do
 * not differ: the convolution of the strata's hypergeometric distributions.
 */
final class StratifiedExact {
  private static final double TIE = 1 + 1e-7;

  /** Products to add up; about 20 ms. */
  private static final double MOST_PRODUCTS = 5e6;

  private StratifiedExact() {}

  static @Nullable Double twoSided(List<ProportionDifference> strata) {
    double[] all = {1};
    int seen = 0;
    double products = 0;
    for (ProportionDifference stratum : strata) {
      int least = Math.max(0, hits(stratum) - stratum.b().trials());
      int most = Math.min(stratum.a().trials(), hits(stratum));
      products += (double) all.length * (most - least + 1);
      if (products > MOST_PRODUCTS || most - least >= MOST_PRODUCTS) {
        return null;
      }
      all = convolved(all, hypergeometric(stratum, least, most));
      seen += stratum.a().hits() - least;
    }
    double limit = all[seen] * TIE;
    double extreme = 0;
    double sum = 0;
    for (double one : all) {
      sum += one;
      extreme += one <= limit ? one : 0;
    }
    return Math.min(1, extreme / sum);
  }

  private static int hits(ProportionDifference stratum) {
    return stratum.a().hits() + stratum.b().hits();
  }

  /** Relative to the most probable number of hits; in the far tails 0. */
  private static double[] hypergeometric(ProportionDifference stratum, int least, int most) {
    double trialsA = stratum.a().trials();
    double trialsB = stratum.b().trials();
    double hits = hits(stratum);
    int mode =
        Math.max(
            least, Math.min(most, (int) ((hits + 1) * (trialsA + 1) / (trialsA + trialsB + 2))));
    double[] weights = new double[most - least + 1];
    weights[mode - least] = 1;
    for (int k = mode; k < most; k++) {
      weights[k + 1 - least] =
          weights[k - least] * (trialsA - k) * (hits - k) / ((k + 1) * (trialsB - hits + k + 1));
    }
    for (int k = mode - 1; k >= least; k--) {
      weights[k - least] =
          weights[k + 1 - least]
              * (k + 1)
              * (trialsB - hits + k + 1)
              / ((trialsA - k) * (hits - k));
    }
    double sum = 0;
    for (double weight : weights) {
      sum += weight;
    }
    for (int i = 0; i < weights.length; i++) {
      weights[i] /= sum;
    }
    return weights;
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
