package tepidarium.stats;

import java.util.List;
import java.util.stream.Stream;
import org.apache.commons.statistics.distribution.ChiSquaredDistribution;

/**
 * The dispersion of containers of one kind: Pearson's χ² divided by its degrees of freedom. It is 1
 * for independent trials; standard errors grow by its square root. Source: McCullagh and Nelder,
 * Generalized Linear Models (1989), quasi-binomial dispersion.
 *
 * @param chiSquare Pearson's χ² against one probability for each kind
 * @param degreesOfFreedom number of containers less number of kinds
 */
public record Dispersion(double chiSquare, int degreesOfFreedom) {
  /**
   * The containers of each kind; a kind in which all or none were hits adds nothing to χ².
   *
   * @throws IllegalArgumentException where no kind has two containers
   */
  public static Dispersion within(List<List<Proportion>> kinds) {
    int freedom = kinds.stream().mapToInt(kind -> Math.max(0, kind.size() - 1)).sum();
    if (freedom == 0) {
      throw new IllegalArgumentException("at least two containers of one kind are needed");
    }
    return new Dispersion(kinds.stream().mapToDouble(Dispersion::chiSquare).sum(), freedom);
  }

  private static double chiSquare(List<Proportion> kind) {
    double hits = kind.stream().mapToInt(Proportion::hits).sum();
    double chance = hits / kind.stream().mapToInt(Proportion::trials).sum();
    if (!(chance > 0 && chance < 1)) {
      return 0;
    }
    return kind.stream()
        .mapToDouble(
            c -> Math.pow(c.hits() - c.trials() * chance, 2) / (c.trials() * chance * (1 - chance)))
        .sum();
  }

  public double factor() {
    return chiSquare / degreesOfFreedom;
  }

  /** The p of no difference between containers beyond chance (χ² approximation). */
  public double p() {
    return ChiSquaredDistribution.of(degreesOfFreedom).survivalProbability(chiSquare);
  }

  /**
   * The standard error of a logarithm of the odds ratio of two kinds, with the dispersion in it;
   * never less than that of independent trials.
   */
  public double logOddsError(Proportion a, Proportion b) {
    double variance =
        Stream.of(a, b).mapToDouble(p -> 1.0 / p.hits() + 1.0 / (p.trials() - p.hits())).sum();
    return Math.sqrt(variance * Math.max(1, factor()));
  }
}
