package tepidarium.stats;

import static org.junit.jupiter.api.Assertions.assertEquals;

import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import org.junit.jupiter.api.Test;

/** Triangles and trapezoids that can be checked by hand. */
class LinearTest {
  private static final double ROUNDING = 1e-12;

  @Test
  void aLineThroughTheLimitLeavesATriangleOnEitherSide() {
    // From 15 to 25 past 20: half the time a triangle of height 5.
    assertEquals(1.25, Linear.meanAbove(15, 25, 20), ROUNDING);
    assertEquals(1.25, Linear.meanAbove(25, 15, 20), ROUNDING);
    assertEquals(1.25, Linear.meanBelow(15, 25, 20), ROUNDING);
    // From 18 to 26: a quarter of the time below, three quarters above.
    assertEquals(0.75 * 3, Linear.meanAbove(18, 26, 20), ROUNDING);
    assertEquals(0.25, Linear.meanBelow(18, 26, 20), ROUNDING);
    assertEquals(0.75, Linear.shareAbove(18, 26, 20), ROUNDING);
    assertEquals(0.75, Linear.shareAbove(26, 18, 20), ROUNDING);
    assertEquals(0.25, Linear.crossing(18, 26, 20), ROUNDING);
  }

  @Test
  void aLineOnOneSideIsATrapezoidThereAndNothingOnTheOther() {
    assertEquals(4, Linear.meanAbove(22, 26, 20), ROUNDING);
    assertEquals(0, Linear.meanBelow(22, 26, 20));
    assertEquals(1, Linear.shareAbove(22, 26, 20));
    assertEquals(0, Linear.meanAbove(10, 19, 20));
    assertEquals(5.5, Linear.meanBelow(10, 19, 20), ROUNDING);
    assertEquals(0, Linear.shareAbove(10, 19, 20));
  }

  @Test
  void aLineExactlyOnTheLimitIsNotAboveIt() {
    assertEquals(0, Linear.shareAbove(20, 20, 20));
    assertEquals(0, Linear.meanAbove(20, 20, 20));
    assertEquals(1, Linear.shareAbove(20, 22, 20), ROUNDING);
    assertEquals(0, Linear.shareAbove(18, 20, 20), ROUNDING);
  }

  @Property
  void meanAboveLessMeanBelowIsTheMeanLessTheLimit(
      @ForAll @DoubleRange(min = -50, max = 50) double start,
      @ForAll @DoubleRange(min = -50, max = 50) double end,
      @ForAll @DoubleRange(min = -50, max = 50) double limit) {
    double net = Linear.meanAbove(start, end, limit) - Linear.meanBelow(start, end, limit);
    assertEquals((start + end) / 2 - limit, net, ROUNDING);
  }
}
