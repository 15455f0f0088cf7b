package tepidarium.stats;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/**
 * What rows leave likely when the family of times is not known either: the {@link Posterior} of
 * each family, weighted by how likely the rows are under it. A figure after the one family that
 * fits best would be told as surer than it is. Source: Hoeting, Madigan, Raftery and Volinsky,
 * Statistical Science 14 (1999) 382-417.
 */
public final class Averaged {
  /** A figure of one draw of one family. */
  public interface Figure {
    double of(Posterior posterior, Posterior.Draw draw);
  }

  private record Valued(double value, double share) {}

  private final List<Posterior> posteriors;
  private final List<Double> weights = new ArrayList<>();

  /**
   * Over families with the same rows, each equally likely before.
   *
   * @param posteriors at least one; all after a prior, or none
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

  /** Between which ends 95 % of a figure lie. */
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
