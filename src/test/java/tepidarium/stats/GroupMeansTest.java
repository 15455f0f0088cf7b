package tepidarium.stats;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.Arrays;
import java.util.List;
import org.apache.commons.statistics.distribution.TDistribution;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import tepidarium.CheckCase;
import tepidarium.stats.GroupMeans.Difference;
import tepidarium.stats.GroupMeans.Permutation;

/** The cases come from permutation.json, each with its own source. */
class GroupMeansTest {
  static List<CheckCase> permutations() {
    return CheckCase.of("permutation.json", "container_permutation_test");
  }

  private static double[] fractions(CheckCase check, String group) {
    double seeds = check.input().path("seeds_per_container").asDouble();
    return Arrays.stream(check.inputs(group)).map(count -> count / seeds).toArray();
  }

  @ParameterizedTest
  @MethodSource("permutations")
  void wholeContainersArePermuted(CheckCase check) {
    double[] a = fractions(check, "germinated_group1");
    double[] b = fractions(check, "germinated_group2");
    Permutation permutation = GroupMeans.permutation(a, b);
    assertNotNull(permutation.p(), check.says("two_sided_p"));
    assertEquals(
        check.expected("two_sided_p"), permutation.p(), check.tolerance(), check.says("p"));
  }

  @ParameterizedTest
  @MethodSource("permutations")
  void theWelchIntervalIsThatOfItsTest(CheckCase check) {
    double[] a = fractions(check, "germinated_group1");
    double[] b = fractions(check, "germinated_group2");
    Difference difference = GroupMeans.welch(a, b);
    assertNotNull(difference);
    double expected = check.expected("mean_difference");
    assertEquals(expected, difference.value(), check.tolerance(), check.says("mean_difference"));
    // The interval touches zero where p is 5 %: reach = t(0.975) · |difference| / |t|.
    double reach = difference.high() - difference.value();
    double error = Math.abs(expected / check.expected("welch_t"));
    double freedom = freedom(reach / error);
    double p =
        2 * TDistribution.of(freedom).survivalProbability(Math.abs(check.expected("welch_t")));
    assertEquals(check.expected("welch_p"), p, 1e-6, check.says("welch_p"));
  }

  /** Degrees of freedom at which the 97.5 % point is that. */
  private static double freedom(double point) {
    double low = 0.5;
    double high = 500;
    for (int i = 0; i < 200; i++) {
      double middle = (low + high) / 2;
      if (TDistribution.of(middle).inverseCumulativeProbability(0.975) > point) {
        low = middle;
      } else {
        high = middle;
      }
    }
    return low;
  }

  /** 2 / C(2n, n): the field notes' 0.33, 0.1 and 0.029. */
  @ParameterizedTest
  @CsvSource({"2, 2, 0.33333333", "3, 3, 0.1", "4, 4, 0.02857143", "2, 4, 0.06666667"})
  void soFewContainersCannotGiveASmallerP(int a, int b, double least) {
    double[] low = new double[a];
    double[] high = new double[b];
    Arrays.setAll(low, i -> i);
    Arrays.setAll(high, i -> 100 + i);
    Permutation permutation = GroupMeans.permutation(low, high);
    assertEquals(least, permutation.leastP(), 1e-8);
    assertNotNull(permutation.p());
    assertEquals(least, permutation.p(), 1e-8);
  }

  @Test
  void oneUnitGivesNoSpreadBetweenUnits() {
    assertNull(GroupMeans.welch(new double[] {1}, new double[] {2, 3}));
    assertNull(GroupMeans.mean(new double[] {1}));
    assertThrows(
        IllegalArgumentException.class,
        () -> GroupMeans.permutation(new double[] {}, new double[] {2}));
  }

  @Test
  void tooManyArrangementsGiveNoP() {
    assertNull(GroupMeans.permutation(new double[14], new double[14]).p());
  }

  @Test
  void equalUnitsHaveNoInterval() {
    Difference same = GroupMeans.welch(new double[] {2, 2}, new double[] {1, 1});
    assertEquals(new Difference(1, 1, 1), same);
  }
}
