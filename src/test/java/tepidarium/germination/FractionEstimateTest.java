package tepidarium.germination;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;

import java.util.List;
import org.junit.jupiter.api.Test;

class FractionEstimateTest {
  /** The counts are common practice, no source; the limits follow from the published formulas. */
  @Test
  void fortyFiveOfTwoHundredAndFiftyAreEighteenPercent() {
    FractionEstimate estimate = FractionEstimate.of(45, 250);
    assertEquals(0.18, estimate.fraction(), 1e-12);
    assertEquals(wilson(45, 250, -1), estimate.wilson().get(0), 1e-9);
    assertEquals(wilson(45, 250, 1), estimate.wilson().get(1), 1e-9);
  }

  @Test
  void threeOfSixteenHaveAWideInterval() {
    FractionEstimate estimate = FractionEstimate.of(3, 16);
    assertEquals(0.1875, estimate.fraction(), 1e-12);
    assertEquals(wilson(3, 16, -1), estimate.wilson().get(0), 1e-9);
    assertEquals(wilson(3, 16, 1), estimate.wilson().get(1), 1e-9);
    // Clopper and Pearson: each limit leaves 2.5 % for counts as far away or further.
    assertEquals(0.025, 1 - below(3, 16, estimate.exact().get(0)), 1e-9);
    assertEquals(0.025, below(4, 16, estimate.exact().get(1)), 1e-9);
  }

  @Test
  void beforeTheFirstCheckAnyFractionIsPossible() {
    FractionEstimate estimate = FractionEstimate.of(0, 0);
    assertNull(estimate.fraction());
    assertEquals(List.of(0.0, 1.0), estimate.wilson());
  }

  @Test
  void noneAndAllHaveOneSidedLimits() {
    assertEquals(0, FractionEstimate.of(0, 20).exact().get(0));
    assertEquals(1, FractionEstimate.of(20, 20).exact().get(1));
  }

  /** Wilson (1927), with the 97.5 % point of the normal distribution. */
  private static double wilson(int count, int n, int sign) {
    double z = 1.959963984540054;
    double p = (double) count / n;
    double root = z * Math.sqrt(p * (1 - p) / n + z * z / (4.0 * n * n));
    return (p + z * z / (2 * n) + sign * root) / (1 + z * z / n);
  }

  /** Probability of fewer than that many. */
  private static double below(int count, int n, double p) {
    double sum = 0;
    double choose = 1;
    for (int k = 0; k < count; k++) {
      sum += choose * Math.pow(p, k) * Math.pow(1 - p, n - k);
      choose = choose * (n - k) / (k + 1);
    }
    return sum;
  }
}
