package tepidarium.stats;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/**
 * Averages posterior distributions over the families of times: the {@link Posterior} of each
 * family, weighted by its evidence. The best family alone would understate the uncertainty. Source:
 * Hoeting, Madigan, Raftery and Volinsky, Statistical Science 14 (1999) 382-417.
 */
public final class Averaged {
  /** Calculates a figure from one draw of one family. */
  public interface Figure {
    double of(Posterior posterior, Posterior.Draw draw);
  }

  private record Valued(double value, double share) {}

  private final List<Posterior> posteriors;
  private final List<Double> weights = new ArrayList<>();

  /**
   * Averages over families fitted to the same rows, with equal prior weights.
   *
   * @param posteriors at least one; either all with a prior or all without
   */
  public Averaged(List<Posterior> posteriors) {
    this.posteriors = List.copyOf(posteriors);
    double top = posteriors.stream().mapToDouble(Posterior::logEvidence).max().orElseThrow();
    double sum = posteriors.stream().mapToDouble(one -> Math.exp(one.logEvidence() - top)).sum();
    posteriors.forEach(one -> weights.add(Math.exp(one.logEvidence() - top) / sum));
  }

  private List<Valued> values(Figure figure) {
    List<Valued> values = new ArrayList<>();
    for (int i = 0; i < posteriors.size(); i++) {
      Posterior posterior = posteriors.get(i);
      for (Posterior.Draw draw : posterior.draws()) {
        values.add(new Valued(figure.of(posterior, draw), weights.get(i) * draw.share()));
      }
    }
    return values;
  }

  /** The mean of a figure over all draws. */
  public double mean(Figure figure) {
    return values(figure).stream().mapToDouble(one -> one.value() * one.share()).sum();
  }

  /** The 95 % interval of a figure over all draws. */
  public ConfidenceInterval limits(Figure figure) {
    List<Valued> sorted =
        values(figure).stream().sorted(Comparator.comparingDouble(Valued::value)).toList();
    double tail = (1 - ConfidenceInterval.LEVEL) / 2;
    return new ConfidenceInterval(quantile(sorted, tail), quantile(sorted, 1 - tail));
  }

  private static double quantile(List<Valued> sorted, double share) {
    double sum = 0;
    for (Valued one : sorted) {
      sum += one.share();
      if (sum >= share) {
        return one.value();
      }
    }
    return sorted.get(sorted.size() - 1).value();
  }
}
