package tepidarium.stats;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.constraints.DoubleRange;
import tepidarium.stats.IntervalFit.Estimate;
import tepidarium.stats.IntervalFit.Parameter;

class IntervalFitProperties {
  /** Checks at any rhythm, some seed lost on the way, some left at the end. */
  @Provide
  Arbitrary<List<Censored>> tables() {
    Arbitrary<int[]> check =
        Combinators.combine(
                Arbitraries.integers().between(1, 7),
                Arbitraries.integers().between(0, 12),
                Arbitraries.integers().between(0, 2))
            .as((days, germinated, lost) -> new int[] {days, germinated, lost});
    return Combinators.combine(
            check.list().ofMinSize(1).ofMaxSize(7), Arbitraries.integers().between(0, 30))
        .as(IntervalFitProperties::table);
  }

  private static List<Censored> table(List<int[]> checks, int left) {
    List<Censored> rows = new ArrayList<>();
    double day = 0;
    for (int[] check : checks) {
      rows.add(new Censored(day, day + check[0], check[1]));
      day += check[0];
      rows.add(new Censored(day, Double.POSITIVE_INFINITY, check[2]));
    }
    rows.add(new Censored(day, Double.POSITIVE_INFINITY, left));
    return rows;
  }

  @Property(tries = 60)
  void everyTableIsFittedOrRefusedAndNothingNearIsLikelier(@ForAll("tables") List<Censored> rows) {
    for (IntervalFit fit : IntervalFit.all(rows)) {
      assertEquals(fit.identified(), fit.reason() == null);
      if (fit.identified()) {
        Estimate found = fit.estimate();
        assertTrue(fit.interval(Parameter.MU).contains(found.mu()), fit.model().word());
        assertTrue(fit.interval(Parameter.SIGMA).contains(found.sigma()), fit.model().word());
        double[] other = fit.at();
        for (int i = 0; i < other.length; i++) {
          other[i] += i == 1 ? 0.3 : -0.3;
        }
        double climbed =
            fit.likelihood().value(Maximum.climb(x -> fit.likelihood().value(x), other));
        assertTrue(climbed <= found.logLikelihood() + 1e-5, fit.model().word());
      }
    }
  }

  @Property(tries = 200)
  void theCovarianceIsTheInverseOfTheNegativeCurvature(
      @ForAll @DoubleRange(min = -3, max = 3) double a,
      @ForAll @DoubleRange(min = -3, max = 3) double b,
      @ForAll @DoubleRange(min = -3, max = 3) double c) {
    // Positive definite: the Gram matrix of (1, a, b), (0, 1, c) and (0, 0, 1).
    double[][] matrix = {
      {1 + a * a + b * b, a + b * c, b}, {a + b * c, 1 + c * c, c}, {b, c, 1},
    };
    Maximum.Smooth function =
        (x, slope) -> {
          double value = 0;
          for (int i = 0; i < 3; i++) {
            slope[i] = 0;
            for (int j = 0; j < 3; j++) {
              slope[i] -= matrix[i][j] * x[j];
            }
            value += x[i] * slope[i] / 2;
          }
          return value;
        };
    double[][] covariance = Maximum.covariance(function, new double[3]);
    for (int i = 0; i < 3; i++) {
      for (int j = 0; j < 3; j++) {
        double sum = 0;
        for (int k = 0; k < 3; k++) {
          sum += covariance[i][k] * matrix[k][j];
        }
        assertEquals(i == j ? 1 : 0, sum, 1e-6);
      }
    }
  }
}
