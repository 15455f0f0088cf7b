package tepidarium.stats;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import tepidarium.stats.LogisticLine.Group;

class LogisticLineTest {
  /** Bliss, Annals of Applied Biology 22 (1935) 134-167: beetles killed by carbon disulphide. */
  private static final List<Group> BEETLES =
      List.of(
          new Group(1.6907, 6, 59),
          new Group(1.7242, 13, 60),
          new Group(1.7552, 18, 62),
          new Group(1.7842, 28, 56),
          new Group(1.8113, 52, 63),
          new Group(1.8369, 53, 59),
          new Group(1.8610, 61, 62),
          new Group(1.8839, 60, 60));

  /**
   * Intercept −60.72, slope 34.27, standard errors 5.18 and 2.91 for a dispersion of 1: Dobson, An
   * Introduction to Generalized Linear Models (2002), section 7.3 (values from memory; the same
   * with more digits by another program's iteratively weighted least squares).
   */
  @Test
  void aPublishedExampleIsFittedAsPublished() {
    LogisticLine line = LogisticLine.of(BEETLES).orElseThrow();
    assertEquals(-60.717455, line.intercept(), 1e-5);
    assertEquals(34.270326, line.slope(), 1e-5);
    assertEquals(2.912140, Math.sqrt(line.varianceOfSlope()), 1e-5);
    assertEquals(10.026818 / 6, line.dispersion(), 1e-5);
    assertEquals(1.771721, line.half(), 1e-6);
    // The dispersion of 1.67 widens all by its root, and t with 6 degrees of freedom is 2.4469.
    assertEquals(2.912140 * Math.sqrt(10.026818 / 6), line.slopeError(), 1e-5);
    assertEquals(34.270326 - 2.446912 * line.slopeError(), line.slopeLimits().low(), 1e-4);
    assertTrue(line.halfLimits().contains(1.7717));
    assertTrue(line.halfLimits().high() - line.halfLimits().low() < 0.03);
    assertEquals(0.5, line.at(line.half()), 1e-12);
  }

  /** With the ends of Fieller's interval as the half, the logit there is just refused to be 0. */
  @Test
  void theEndsOfTheHalfAreWhereItsProbabilityIsJustNotRefused() {
    LogisticLine line = LogisticLine.of(BEETLES).orElseThrow();
    assertEquals(0.5, line.limitsAt(line.halfLimits().low()).high(), 1e-9);
    assertEquals(0.5, line.limitsAt(line.halfLimits().high()).low(), 1e-9);
  }

  /**
   * Large lots, of which the first step would overshoot. Computed with R 4.2.2, glm(…, binomial).
   */
  @Test
  void largeLotsWithoutSeparationAreFitted() {
    LogisticLine line =
        LogisticLine.of(
                List.of(
                    new Group(3, 1660, 1710), new Group(5.1, 1797, 1948), new Group(12.2, 30, 142)))
            .orElseThrow();
    assertEquals(5.1370754279, line.intercept(), 1e-7);
    assertEquals(-0.5263898009, line.slope(), 1e-8);
    assertEquals(0.02680066279, line.slopeError(), 1e-8);
    assertEquals(0.2545997978, line.dispersion(), 1e-6);
  }

  @Test
  void countsThatDoNotIdentifyALineGiveNone() {
    assertTrue(LogisticLine.of(BEETLES.subList(0, 2)).isEmpty(), "two groups");
    List<Group> onePlace = List.of(new Group(2, 3, 9), new Group(2, 4, 9), new Group(2, 5, 9));
    assertTrue(LogisticLine.of(onePlace).isEmpty());
    List<Group> all = List.of(new Group(1, 9, 9), new Group(2, 9, 9), new Group(3, 9, 9));
    assertTrue(LogisticLine.of(all).isEmpty());
    List<Group> parted = List.of(new Group(1, 9, 9), new Group(2, 9, 9), new Group(3, 0, 9));
    assertTrue(LogisticLine.of(parted).isEmpty(), "the slope has no end");
  }

  /** 51 or fewer of 60 would happen once in 200. */
  @Test
  void theIntervalHoldsTheTruthWhenLotsDiffer() {
    Random random = new Random(20260301);
    int held = 0;
    for (int round = 0; round < 60; round++) {
      List<Group> groups = new ArrayList<>();
      for (int days = 0; days <= 14; days += 2) {
        double chance = 1 / (1 + Math.exp(-(1.5 - 0.25 * days + 0.4 * random.nextGaussian())));
        int hits = 0;
        for (int seed = 0; seed < 50; seed++) {
          hits += random.nextDouble() < chance ? 1 : 0;
        }
        groups.add(new Group(days, hits, 50));
      }
      double truth = 1 / (1 + Math.exp(-(1.5 - 0.25 * 5)));
      held += LogisticLine.of(groups).orElseThrow().limitsAt(5).contains(truth) ? 1 : 0;
    }
    assertTrue(held >= 52, held + " of 60");
  }
}
