package tepidarium.calibration;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Duration;
import java.time.Instant;
import java.util.Random;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;
import tepidarium.calibration.Settling.State;
import tepidarium.reading.Quantity;
import tepidarium.reading.Samples;

/** The rule of {@link Settling} on invented readings. */
class SettlingTest {
  private static final Instant NOW = Instant.parse("2026-03-01T12:00:00Z");

  /** Readings at an even interval until now; the function gives the value by minutes before now. */
  private static Samples every(int seconds, int count, DoubleUnaryOperator value) {
    Samples.Builder samples = new Samples.Builder(count);
    for (int i = count - 1; i >= 0; i--) {
      double minutes = i * seconds / 60.0;
      samples.add(NOW.toEpochMilli() - 1_000L * seconds * i, value.applyAsDouble(minutes));
    }
    return samples.build();
  }

  private static Settling temperature(Samples samples) {
    return Settling.of(Quantity.TEMPERATURE, samples, NOW);
  }

  @Test
  void withoutReadingsOrWithOldOnesNothingIsKnown() {
    assertEquals(State.WAITING, temperature(Samples.EMPTY).state());
    Settling noLight = Settling.of(Quantity.LIGHT, Samples.EMPTY, NOW);
    assertEquals(2 * Quantity.LIGHT.noise(), noLight.driftLimit());
    Samples old =
        Samples.of(new long[] {NOW.minus(Duration.ofHours(3)).toEpochMilli()}, new double[] {20});
    assertEquals(0, temperature(old).readings());
  }

  @Test
  void sixReadingsAreNeeded() {
    assertEquals(State.WAITING, temperature(every(60, 5, m -> 0.4)).state());
    assertEquals(State.SETTLED, temperature(every(60, 6, m -> 0.4)).state());
  }

  /** A probe of time constant 3 min goes from 25 °C into ice: 25 · exp(−t / 3 min). */
  @Test
  void aProbeInIceHasSettledOnceItFallsNoFurther() {
    DoubleUnaryOperator after10 = m -> 25 * Math.exp(-(10 - m) / 3);
    Settling early = temperature(every(30, 20, after10));
    assertEquals(State.DRIFTING, early.state());
    assertTrue(early.drift() < -5, early.toString());

    DoubleUnaryOperator after40 = m -> 25 * Math.exp(-(40 - m) / 3);
    Settling late = temperature(every(30, 80, after40));
    assertEquals(State.SETTLED, late.state());
    assertEquals(Duration.ofMinutes(10), late.length());
    assertEquals(0, late.mean(), 0.001);
    assertEquals(NOW, late.at());
  }

  @Test
  void aSlowSensorIsJudgedByItsLastSixReadings() {
    Settling slow = temperature(every(900, 8, m -> 30));
    assertEquals(6, slow.readings());
    assertEquals(Duration.ofMinutes(75), slow.length());
    assertEquals(State.SETTLED, slow.state());
  }

  @Test
  void aSingleReadingFarOffIsUnsteady() {
    Settling jump = temperature(every(30, 20, m -> m == 3 ? 32 : 30));
    assertEquals(State.UNSTEADY, jump.state());
    assertEquals(2, jump.spread(), 1e-9);
  }

  @Test
  void theNoiseOfACommonSensorIsSettled() {
    Random random = new Random(7);
    int settled = 0;
    for (int run = 0; run < 200; run++) {
      double noise = Quantity.TEMPERATURE.noise();
      Samples samples = every(30, 21, m -> 30 + noise * random.nextGaussian());
      settled += temperature(samples).state() == State.SETTLED ? 1 : 0;
    }
    assertTrue(settled >= 190, "settled in " + settled + " of 200 runs");
  }

  @Test
  void lightMayWanderByAShareOfItsStrength() {
    DoubleUnaryOperator flicker = m -> 5_000 + (m % 1 == 0 ? 30 : -30);
    assertEquals(State.SETTLED, Settling.of(Quantity.LIGHT, every(30, 21, flicker), NOW).state());
    DoubleUnaryOperator dusk = m -> 5_000 + 30 * m;
    assertEquals(State.DRIFTING, Settling.of(Quantity.LIGHT, every(30, 21, dusk), NOW).state());
  }

  /** Ten readings a second: 6,000 in ten minutes. */
  @Test
  void ofManyReadingsSomeAreChosenOverTheWholeTime() {
    Samples.Builder samples = new Samples.Builder(6_001);
    for (int i = 0; i <= 6_000; i++) {
      samples.add(NOW.toEpochMilli() - 100L * (6_000 - i), 30 + i / 6_000.0);
    }
    Settling settling = temperature(samples.build());
    assertTrue(settling.readings() <= 200, settling.toString());
    assertEquals(State.DRIFTING, settling.state());
    assertEquals(1, settling.drift(), 0.01);
  }
}
