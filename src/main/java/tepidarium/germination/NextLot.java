package tepidarium.germination;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.apache.commons.numbers.gamma.RegularizedBeta;
import org.hipparchus.analysis.integration.gauss.GaussIntegrator;
import org.hipparchus.analysis.integration.gauss.GaussIntegratorFactory;
import org.hipparchus.special.Beta;
import tepidarium.stats.BetaBinomial;
import tepidarium.stats.Peak;
import tepidarium.stats.Proportion;

/**
 * The predictive distribution of the germination fraction of a new lot, given several past lots, as
 * a mixture of beta distributions. Model: the fraction of each lot is drawn from one beta
 * distribution. Its mean has the prior Beta(½, ½) and its spread ρ the prior Beta(1, 5) (lots of
 * one species usually differ by less than ρ = 0.2; common practice, no source).
 *
 * <p>The posterior is integrated in two dimensions: over logit ρ in equal steps, and for each ρ
 * over the arcsine of the square root of the mean by Gauss-Legendre quadrature. The quadrature
 * covers the range in which the likelihood is above e^-20 of its maximum, so a narrow peak is not
 * missed.
 */
final class NextLot {
  private static final double MIN_LOGIT_SPREAD = -23;
  private static final double MAX_LOGIT_SPREAD = 5;
  private static final double LOG_NEGLIGIBLE = -20;
  private static final double MIN_WEIGHT = 1e-10;
  private static final int GAUSS_POINTS = 24;
  private static final double ANGLE_ACCURACY = 1e-6;
  private static final double EDGE = 1e-7;
  private static final GaussIntegratorFactory GAUSS = new GaussIntegratorFactory();

  private record Part(BetaBinomial fraction, double weight) {}

  /** The likelihood over the mean for one spread; {@code top} is the angle of its maximum. */
  private record Slice(double spread, double logPrior, double top, double logTop) {}

  private final Map<Proportion, Integer> lots = new HashMap<>();
  private final List<Part> parts = new ArrayList<>();

  /**
   * Integrates the posterior.
   *
   * @param lots at least two past lots
   * @param step step of the integration in logit ρ, such as 0.5
   */
  NextLot(List<Proportion> lots, double step) {
    lots.forEach(lot -> this.lots.merge(lot, 1, Integer::sum));
    List<Slice> slices = new ArrayList<>();
    for (double x = MIN_LOGIT_SPREAD; x <= MAX_LOGIT_SPREAD; x += step) {
      slices.add(slice(x));
    }
    double most = slices.stream().mapToDouble(s -> s.logPrior + s.logTop).max().orElseThrow();
    for (Slice slice : slices) {
      if (slice.logPrior + slice.logTop > most + LOG_NEGLIGIBLE) {
        integrate(slice, most);
      }
    }
    double sum = parts.stream().mapToDouble(Part::weight).sum();
    parts.replaceAll(part -> new Part(part.fraction, part.weight / sum));
    parts.removeIf(part -> part.weight < MIN_WEIGHT);
  }

  private Slice slice(double logitSpread) {
    double spread = 1 / (1 + Math.exp(-logitSpread));
    double none = 1 / (1 + Math.exp(logitSpread));
    // Beta(1, 5) in ρ is 5 (1 − ρ)⁴; in logit ρ it is multiplied by ρ (1 − ρ).
    double logPrior = Math.log(spread) + 5 * Math.log(none);
    double top =
        Peak.of(angle -> logLikelihood(angle, spread), EDGE, Math.PI / 2 - EDGE, ANGLE_ACCURACY);
    return new Slice(spread, logPrior, top, logLikelihood(top, spread));
  }

  /** The beta distribution with mean sin²(angle). The prior of the mean is uniform in the angle. */
  private static BetaBinomial at(double angle, double spread) {
    double size = 1 / spread - 1;
    return new BetaBinomial(
        Math.pow(Math.sin(angle), 2) * size, Math.pow(Math.cos(angle), 2) * size);
  }

  private double logLikelihood(double angle, double spread) {
    BetaBinomial fraction = at(angle, spread);
    double none = Beta.logBeta(fraction.alpha(), fraction.beta());
    double sum = 0;
    for (Map.Entry<Proportion, Integer> lot : lots.entrySet()) {
      int hits = lot.getKey().hits();
      int misses = lot.getKey().trials() - hits;
      sum +=
          lot.getValue() * (Beta.logBeta(hits + fraction.alpha(), misses + fraction.beta()) - none);
    }
    return sum;
  }

  private void integrate(Slice slice, double most) {
    double low = edge(slice, EDGE);
    double high = edge(slice, Math.PI / 2 - EDGE);
    GaussIntegrator rule = GAUSS.legendre(GAUSS_POINTS, low, high);
    for (int i = 0; i < rule.getNumberOfPoints(); i++) {
      double angle = rule.getPoint(i);
      double log = slice.logPrior + logLikelihood(angle, slice.spread) - most;
      parts.add(new Part(at(angle, slice.spread), rule.getWeight(i) * Math.exp(log)));
    }
  }

  /** The angle between the maximum and a border at which the likelihood becomes negligible. */
  private double edge(Slice slice, double border) {
    double limit = slice.logTop + LOG_NEGLIGIBLE;
    if (logLikelihood(border, slice.spread) >= limit) {
      return border;
    }
    double inside = 0;
    double outside = 1;
    while (outside > EDGE && at(slice, border, outside / 4) < limit) {
      outside /= 4;
    }
    for (int i = 0; i < 6; i++) {
      double middle = (inside + outside) / 2;
      if (at(slice, border, middle) < limit) {
        outside = middle;
      } else {
        inside = middle;
      }
    }
    return slice.top + outside * (border - slice.top);
  }

  private double at(Slice slice, double border, double share) {
    return logLikelihood(slice.top + share * (border - slice.top), slice.spread);
  }

  /** The probability that the fraction of the new lot is above the fraction with this logit. */
  double above(double logit) {
    double fraction = 1 / (1 + Math.exp(-logit));
    double rest = 1 / (1 + Math.exp(logit));
    double sum = 0;
    for (Part part : parts) {
      double alpha = part.fraction.alpha();
      double beta = part.fraction.beta();
      sum +=
          part.weight
              * (logit < 0
                  ? RegularizedBeta.complement(fraction, alpha, beta)
                  : RegularizedBeta.value(rest, beta, alpha));
    }
    return sum;
  }
}
