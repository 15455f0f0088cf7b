package tepidarium.stats;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import org.junit.jupiter.api.Test;

/** Curves with known parameters: the fit has to give them back. */
class ApproachTest {
  private static double[] times(int count, double step) {
    double[] t = new double[count];
    for (int i = 0; i < count; i++) {
      t[i] = i * step;
    }
    return t;
  }

  private static double[] curve(double[] t, double start, double steady, double tau) {
    double[] y = new double[t.length];
    for (int i = 0; i < t.length; i++) {
      y[i] = steady + (start - steady) * Math.exp(-t[i] / tau);
    }
    return y;
  }

  @Property(tries = 200)
  void anExactCurveIsRecovered(
      @ForAll @DoubleRange(min = 20, max = 40) double start,
      @ForAll @DoubleRange(min = -15, max = -2) double change,
      @ForAll @DoubleRange(min = 0.2, max = 10) double tau) {
    double[] t = times(61, 1 / 60.0);
    Approach fit = Approach.fit(t, curve(t, start, start + change, tau));
    assertEquals(tau, fit.timeConstant(), tau * 1e-3);
    assertEquals(start + change, fit.steady(), Math.abs(change) * 1e-3);
    assertEquals(start, fit.at(0), 1e-6);
    assertEquals(0, fit.residual(), 1e-6);
  }

  @Test
  void oneOutlierMovesTheFitLittle() {
    double[] t = times(61, 1 / 60.0);
    double[] y = curve(t, 31, 20, 2);
    y[30] += 10;
    Approach fit = Approach.fit(t, y);
    assertEquals(20, fit.steady(), 0.5);
    assertEquals(31, fit.at(0), 0.02);
  }

  @Test
  void aStraightLineIsFollowedAndCrossedInTime() {
    double[] t = times(31, 1 / 60.0);
    double[] y = new double[t.length];
    for (int i = 0; i < y.length; i++) {
      y[i] = 31 - t[i];
    }
    Approach fit = Approach.fit(t, y);
    assertEquals(1, fit.timeOf(30).orElseThrow(), 0.05);
  }

  @Test
  void aLevelIsReachedOnTheWayAndNeverBeyondTheSteadyValue() {
    Approach curve = new Approach(31, 20, 2, 0);
    assertEquals(2 * Math.log(2), curve.timeOf(25.5).orElseThrow(), 1e-12);
    assertTrue(curve.timeOf(32).orElseThrow() < 0);
    assertTrue(curve.timeOf(19).isEmpty());
    assertTrue(new Approach(31, 31, 2, 0).timeOf(30).isEmpty());
  }

  @Test
  void aFlatRecordStaysFlat() {
    double[] t = times(20, 0.1);
    Approach fit = Approach.fit(t, curve(t, 31, 31, 1));
    assertEquals(31, fit.at(5), 1e-9);
    assertTrue(fit.timeOf(29).isEmpty());
  }

  @Test
  void tooLittleDataIsRefused() {
    assertThrows(
        IllegalArgumentException.class,
        () -> Approach.fit(new double[] {0, 1, 2}, new double[] {1, 2, 3}));
    assertThrows(
        IllegalArgumentException.class, () -> Approach.fit(new double[] {0, 0, 0, 0}, times(4, 1)));
  }
}
