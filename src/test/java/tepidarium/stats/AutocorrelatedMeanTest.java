package tepidarium.stats;

import static java.util.Objects.requireNonNull;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import tepidarium.stats.AutocorrelatedMean.Estimate;

class AutocorrelatedMeanTest {
  private static final int HOURS = 24;

  private static Estimate mean(double[] values, int rowsPerDay) {
    Estimate estimate = AutocorrelatedMean.of(values, rowsPerDay);
    assertNotNull(estimate);
    return estimate;
  }

  private static boolean holds(@org.jspecify.annotations.Nullable Estimate estimate, double truth) {
    return estimate != null
        && estimate.low() != null
        && estimate.high() != null
        && estimate.low() <= truth
        && truth <= estimate.high();
  }

  /** 1,000 simulations each; a rate of 95 % stays between 92 and 98 % but once in 10,000 times. */
  @ParameterizedTest
  @ValueSource(ints = {4, 7, 14, 28})
  void anIntervalOfHoursHoldsTheMeanAsOftenAsItSays(int days) {
    SplittableRandom random = new SplittableRandom(days);
    int held = 0;
    int runs = 1_000;
    for (int i = 0; i < runs; i++) {
      held += holds(mean(SimulatedHours.of(days, 0.88, 3, random), HOURS), 3) ? 1 : 0;
    }
    assertTrue(held >= 0.92 * runs && held <= 0.98 * runs, held + " of " + runs);
  }

  /** By hand: y = 1, 2, 4, 3, 5; the cosines of 1 and 2 half periods over five days. */
  @Test
  void fiveDaysByHand() {
    double[] days = {1, 2, 4, 3, 5};
    double first = 0;
    double second = 0;
    for (int i = 0; i < 5; i++) {
      first += days[i] * Math.cos(Math.PI * (i + 0.5) / 5);
      second += days[i] * Math.cos(2 * Math.PI * (i + 0.5) / 5);
    }
    // The squares of each set of cosines add up to 5/2; t with 2 degrees of freedom is 4.302653.
    double variance = (first * first + second * second) / 2 / 2.5;
    Estimate estimate = mean(days, 1);
    assertEquals(3, estimate.value(), 1e-12);
    assertNotNull(estimate.high());
    assertEquals(4.302653 * Math.sqrt(variance / 5), estimate.high() - 3, 1e-5);
  }

  @Test
  void independentValuesGetTheUsualStandardErrorOnAverage() {
    SplittableRandom random = new SplittableRandom(5);
    double squares = 0;
    for (int i = 0; i < 400; i++) {
      Estimate estimate = mean(random.doubles(100).toArray(), 1);
      assertNotNull(estimate.high());
      squares += Math.pow((estimate.high() - estimate.value()) / Student.t95(10), 2) / 400;
    }
    // A uniform value has the variance 1/12; with 100 days there are ten cosines.
    assertEquals(1 / 12.0 / 100, squares, 0.06 / 12 / 100);
  }

  @Test
  void aDailyCycleAloneMakesNoUncertainty() {
    double[] values = new double[HOURS * 7 + 9];
    Arrays.setAll(values, hour -> Math.sin(2 * Math.PI * hour / HOURS));
    Estimate estimate = mean(values, HOURS);
    assertNotNull(estimate.high());
    assertEquals(0, estimate.high() - estimate.value(), 1e-9);
  }

  @Test
  void tooFewDaysGiveAValueButNoInterval() {
    double[] values = new double[95];
    Arrays.fill(values, 2.5);
    Estimate estimate = mean(values, HOURS);
    assertEquals(new Estimate(2.5, null, null, 3), estimate);
    assertTrue(!estimate.differsFromZero(0));
  }

  @Test
  void missingValuesAreNotCounted() {
    double[] values = SimulatedHours.of(10, 0.5, 7, new SplittableRandom(9));
    double sum = 0;
    int count = 0;
    for (int i = 0; i < values.length; i++) {
      if (i % 7 == 0) {
        values[i] = Double.NaN;
      } else {
        sum += values[i];
        count++;
      }
    }
    Estimate estimate = mean(values, HOURS);
    assertEquals(sum / count, estimate.value(), 1e-9);
    assertEquals(count / 24, estimate.days());
    assertNull(AutocorrelatedMean.of(new double[] {Double.NaN, Double.NaN}, 1));
    assertThrows(IllegalArgumentException.class, () -> AutocorrelatedMean.of(values, 0));
  }

  /** 0.025^(1/7) = 0.590381: that no day of seven was different (Clopper and Pearson, 1934). */
  @Test
  void aShareThatNeverChangedHasTheIntervalOfUnseenDays() {
    double[] inside = new double[7 * HOURS];
    Arrays.fill(inside, 1);
    Estimate always = AutocorrelatedMean.ofShares(inside, HOURS);
    assertNotNull(always);
    assertNotNull(always.low());
    assertEquals(0.590381, always.low(), 1e-5);
    assertEquals(1, always.high());
    Arrays.fill(inside, 0);
    Estimate same = AutocorrelatedMean.ofShareDifferences(inside, HOURS);
    assertNotNull(same);
    assertNotNull(same.high());
    assertEquals(0.409619, same.high(), 1e-5);
    assertNull(requireNonNull(AutocorrelatedMean.ofShares(new double[20], HOURS)).low());
  }

  /** A whole day outside in ten: by Wilson with t, the low end is further off than the high end. */
  @Test
  void aShareNearOneHasASkewedIntervalWithinOne() {
    double[] inside = new double[10 * HOURS];
    Arrays.fill(inside, 1);
    Arrays.fill(inside, 96, 120, 0);
    Estimate share = AutocorrelatedMean.ofShares(inside, HOURS);
    assertNotNull(share);
    assertNotNull(share.low());
    assertNotNull(share.high());
    assertEquals(0.9, share.value(), 1e-12);
    assertTrue(
        share.high() < 1 && share.value() - share.low() > 3 * (share.high() - share.value()));
  }

  @Test
  void aRangeUsesOnlyCompleteRows() {
    double[] a = {1, 2, Double.NaN, 4, 5, 6, 7, 8};
    double[] b = {0, 0, 0, 0, Double.NaN, 0, 0, 0};
    Estimate estimate = AutocorrelatedMean.range(new double[][] {a, b}, 1);
    assertNotNull(estimate);
    assertEquals((1 + 2 + 4 + 6 + 7 + 8) / 6.0, estimate.value(), 1e-12);
    assertEquals(6, estimate.days());
  }

  /**
   * Places that are alike have a range of 0; the largest of three differences is often beyond t.
   */
  @Test
  void theRangeOfThreePlacesHoldsTheTruth() {
    SplittableRandom random = new SplittableRandom(3);
    for (double truth : new double[] {0, 1}) {
      int held = 0;
      for (int i = 0; i < 500; i++) {
        double[][] places = {
          SimulatedHours.of(14, 0.88, 0, random),
          SimulatedHours.of(14, 0.88, 0, random),
          SimulatedHours.of(14, 0.88, truth, random)
        };
        held += holds(AutocorrelatedMean.range(places, HOURS), truth) ? 1 : 0;
      }
      assertTrue(held >= 0.92 * 500, held + " of 500 at " + truth);
    }
  }
}
