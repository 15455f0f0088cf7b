package tepidarium.stats;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.SplittableRandom;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

class TheilSenTest {
  private static final double[] X = {1, 2, 3, 4, 10, 12, 18};
  private static final double[] Y = {9, 15, 19, 20, 45, 55, 78};

  /**
   * Data and slope of the example in Sen (1968), section 6, values from memory. The interval by
   * Kendall's exact distribution reaches from the 4th to the 18th of the 21 slopes, counted by
   * hand; the normal approximation is wider.
   */
  @Test
  void theExampleOfSenIsReproduced() {
    TheilSen line = TheilSen.of(X, Y);
    assertEquals(4, line.slope(), 1e-12);
    assertEquals(6, line.intercept(), 1e-12);
    assertEquals(11.0 / 3, line.interval().low(), 1e-12);
    assertEquals(5, line.interval().high(), 1e-12);
    assertTrue(line.interval().contains(26.0 / 7) && line.interval().contains(35.0 / 8));
  }

  @Test
  void aStraightLineIsFoundExactlyAndAShiftMovesOnlyItsLevel() {
    double[] y = Arrays.stream(X).map(x -> 3 - 0.5 * x).toArray();
    TheilSen line = TheilSen.of(X, y);
    assertEquals(-0.5, line.slope(), 1e-12);
    assertEquals(3, line.intercept(), 1e-12);
    assertEquals(-0.5, line.interval().high(), 1e-12);
  }

  @Test
  void aQuarterOfWildPointsDoesNotMoveTheLineFar() {
    double[] x = IntStream.range(0, 20).asDoubleStream().toArray();
    double[] y = Arrays.stream(x).map(at -> 4 - 0.01 * at).toArray();
    for (int i = 0; i < 5; i++) {
      y[i * 4] = 100;
    }
    assertEquals(-0.01, TheilSen.of(x, y).slope(), 1e-6);
  }

  /** 2,000 simulated lines with normal errors: the interval must hold the slope in 95 %. */
  @Test
  void theIntervalHoldsTheSlopeInNineteenOfTwenty() {
    for (int points : new int[] {6, 15}) {
      SplittableRandom random = new SplittableRandom(3);
      int held = 0;
      for (int run = 0; run < 2_000; run++) {
        double[] x = IntStream.range(0, points).asDoubleStream().toArray();
        double[] y = Arrays.stream(x).map(at -> 2 - 0.3 * at + random.nextGaussian()).toArray();
        held += TheilSen.of(x, y).interval().contains(-0.3) ? 1 : 0;
      }
      // Five standard errors of the simulation below 95 %.
      assertTrue(held >= 1_851, held + " of 2000 with " + points + " points");
    }
  }

  @Test
  void tooFewPointsAndEqualInstantsAreRefused() {
    double[] five = {1, 2, 3, 4, 5};
    assertThrows(IllegalArgumentException.class, () -> TheilSen.of(five, five));
    double[] twice = {1, 2, 2, 4, 5, 6};
    assertThrows(IllegalArgumentException.class, () -> TheilSen.of(twice, twice));
  }
}
