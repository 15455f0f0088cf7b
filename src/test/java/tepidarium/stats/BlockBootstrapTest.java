package tepidarium.stats;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import tepidarium.stats.BlockBootstrap.Estimate;

class BlockBootstrapTest {
  private static Estimate mean(double[] values, int block) {
    Estimate estimate = BlockBootstrap.mean(values, block);
    assertNotNull(estimate);
    return estimate;
  }

  /** Hours that take after the one before, around a mean. */
  private static double[] likeHours(
      int hours, double likeness, double mean, SplittableRandom random) {
    double[] values = new double[hours];
    double state = random.nextGaussian();
    for (int i = 0; i < hours; i++) {
      state = likeness * state + Math.sqrt(1 - likeness * likeness) * random.nextGaussian();
      values[i] = mean + state + Math.sin(2 * Math.PI * i / 24);
    }
    return values;
  }

  @Test
  void theIntervalOfLikeHoursHoldsTheMeanAboutAsOftenAsItSays() {
    SplittableRandom random = new SplittableRandom(11);
    int held = 0;
    int heldByHours = 0;
    int runs = 200;
    for (int i = 0; i < runs; i++) {
      double[] values = likeHours(28 * 24, 0.9, 3, random);
      held += holds(mean(values, 72), 3) ? 1 : 0;
      heldByHours += holds(mean(values, 1), 3) ? 1 : 0;
    }
    assertTrue(held >= 0.90 * runs && held <= 0.99 * runs, held + " of " + runs);
    assertTrue(heldByHours < 0.7 * runs, "hours taken as independent: " + heldByHours);
  }

  private static boolean holds(Estimate estimate, double truth) {
    return !new Estimate(
            estimate.value() - truth,
            estimate.low() == null ? null : estimate.low() - truth,
            estimate.high() == null ? null : estimate.high() - truth,
            estimate.blocks())
        .differsFromZero(0);
  }

  @Test
  void independentValuesGetTheUsualStandardError() {
    SplittableRandom random = new SplittableRandom(5);
    double[] values = random.doubles(2_000).toArray();
    Estimate estimate = mean(values, 1);
    assertNotNull(estimate.high());
    double reach = estimate.high() - estimate.value();
    // A uniform value has the variance 1/12; t is near 1.96.
    assertEquals(1.96 * Math.sqrt(1 / 12.0 / 2_000), reach, 0.001);
  }

  @Test
  void theSameInputGivesTheSameAnswer() {
    double[] values = likeHours(240, 0.8, 0, new SplittableRandom(3));
    assertEquals(mean(values, 24), mean(values.clone(), 24));
  }

  @Test
  void tooFewBlocksGiveAValueButNoInterval() {
    double[] values = new double[95];
    Arrays.fill(values, 2.5);
    Estimate estimate = mean(values, 24);
    assertEquals(2.5, estimate.value(), 1e-12);
    assertEquals(3, estimate.blocks());
    assertNull(estimate.low());
    assertNull(estimate.high());
    assertTrue(!estimate.differsFromZero(0));
  }

  @Test
  void whatIsMissingCountsForNothing() {
    double[] values = likeHours(240, 0.5, 7, new SplittableRandom(9));
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
    Estimate estimate = mean(values, 24);
    assertEquals(sum / count, estimate.value(), 1e-9);
    assertEquals(count / 24, estimate.blocks());
    assertNull(BlockBootstrap.mean(new double[] {Double.NaN, Double.NaN}, 1));
    assertThrows(IllegalArgumentException.class, () -> BlockBootstrap.mean(values, 0));
  }

  @Test
  void aFigureOfSeveralColumnsUsesOnlyCompleteRows() {
    double[] a = {1, 2, Double.NaN, 4, 5, 6, 7, 8};
    double[] b = {0, 0, 0, 0, Double.NaN, 0, 0, 0};
    Estimate estimate = BlockBootstrap.of(new double[][] {a, b}, 1, means -> means[0] - means[1]);
    assertNotNull(estimate);
    assertEquals((1 + 2 + 4 + 6 + 7 + 8) / 6.0, estimate.value(), 1e-12);
    assertEquals(6, estimate.blocks());
  }

  @Test
  void blocksGrowWithTheCubeRootOfTheRecord() {
    assertEquals(1, BlockBootstrap.daysPerBlock(0.5));
    assertEquals(1, BlockBootstrap.daysPerBlock(7));
    assertEquals(2, BlockBootstrap.daysPerBlock(8));
    assertEquals(3, BlockBootstrap.daysPerBlock(28));
  }
}
