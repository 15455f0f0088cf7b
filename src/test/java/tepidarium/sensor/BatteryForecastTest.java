package tepidarium.sensor;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Duration;
import java.time.Instant;
import java.util.SplittableRandom;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;
import tepidarium.reading.Samples;
import tepidarium.sensor.BatteryForecast.Reason;

class BatteryForecastTest {
  private static final Instant NOW = Instant.parse("2026-03-20T12:00:00Z");

  /** A reading every hour, rounded to 0.01 V as a cheap converter does. */
  private static Samples hourly(int days, DoubleUnaryOperator voltsByDaysAgo) {
    Samples.Builder builder = new Samples.Builder(days * 24);
    for (int hour = days * 24; hour >= 0; hour--) {
      double volts = voltsByDaysAgo.applyAsDouble(hour / 24.0);
      builder.add(NOW.minus(Duration.ofHours(hour)).toEpochMilli(), Math.rint(volts * 100) / 100);
    }
    return builder.build();
  }

  private static BatteryForecast forecast(int days, DoubleUnaryOperator voltsByDaysAgo) {
    return BatteryForecast.of(hourly(days, voltsByDaysAgo), null, NOW);
  }

  @Test
  void aFallingVoltageGivesTheDaysUntilItIsEmpty() {
    // 3.60 V now, falling by 0.01 V a day: (3.60 − 3.30) / 0.01 = 30 days.
    BatteryForecast forecast = forecast(20, ago -> 3.6 + 0.01 * ago);
    assertNull(forecast.reason());
    assertEquals(3.3, forecast.emptyVolts());
    assertEquals(3.6, forecast.volts(), 0.006);
    assertEquals(-0.01, forecast.voltsPerDay(), 0.0005);
    assertEquals(30, forecast.daysLeft(), 1.5);
    assertTrue(forecast.daysLeast() <= forecast.daysLeft());
    assertTrue(forecast.daysLeft() <= forecast.daysMost());
    assertFalse(forecast.low());
  }

  @Test
  void theBoundsHoldTheTruthInNoise() {
    SplittableRandom random = new SplittableRandom(7);
    int held = 0;
    for (int run = 0; run < 200; run++) {
      double[] daily = random.doubles(40, -0.03, 0.03).toArray();
      BatteryForecast forecast =
          forecast(15, ago -> 3.6 + 0.01 * ago + daily[(int) Math.ceil(ago)]);
      Double least = forecast.daysLeast();
      Double most = forecast.daysMost();
      held += forecast.reason() == null && least <= 32 && (most == null || most >= 28) ? 1 : 0;
    }
    assertTrue(held >= 186, held + " of 200");
  }

  @Test
  void oneColdNightDoesNotChangeTheForecast() {
    BatteryForecast cold =
        forecast(20, ago -> 3.6 + 0.01 * ago - (ago > 4 && ago < 5.2 ? 0.12 : 0));
    assertEquals(30, cold.daysLeft(), 2.5);
  }

  @Test
  void aFlatVoltageGivesALowerBoundAtMost() {
    BatteryForecast flat = forecast(20, ago -> 3.7 + 0.02 * Math.sin(ago * 2.4));
    assertEquals(Reason.FLAT, flat.reason());
    assertNull(flat.daysLeft());
    assertNotNull(flat.daysLeast());
    assertFalse(flat.low());
    BatteryForecast constant = forecast(20, ago -> 3.7);
    assertEquals(Reason.FLAT, constant.reason());
    assertNull(constant.daysLeast());
  }

  @Test
  void aRisingVoltageGivesNone() {
    assertEquals(Reason.RISING, forecast(20, ago -> 3.9 - 0.01 * ago).reason());
  }

  @Test
  void fiveDaysAreTooShort() {
    BatteryForecast shortCurve = forecast(4, ago -> 3.6 + 0.01 * ago);
    assertEquals(Reason.TOO_SHORT, shortCurve.reason());
    assertEquals(3.6, shortCurve.volts(), 0.02);
  }

  @Test
  void newCellsStartANewCurve() {
    BatteryForecast forecast =
        forecast(20, ago -> ago > 10 ? 3.4 + 0.02 * (ago - 10) : 4.0 + 0.01 * ago);
    assertEquals(70, forecast.daysLeft(), 7);
    assertEquals(Reason.TOO_SHORT, forecast(20, ago -> ago > 3 ? 3.4 : 4.1 - 0.001 * ago).reason());
  }

  @Test
  void cellsBelowTheUsualEmptyVoltageNeedTheirOwn() {
    Samples two = hourly(20, ago -> 2.6 + 0.01 * ago);
    BatteryForecast unknown = BatteryForecast.of(two, null, NOW);
    assertEquals(Reason.UNKNOWN_CELLS, unknown.reason());
    assertNull(unknown.emptyVolts());
    assertFalse(unknown.low());
    assertEquals(50, BatteryForecast.of(two, 2.1, NOW).daysLeft(), 3);
  }

  @Test
  void emptyCellsAreLowAndSoAreThoseThatMayBeEmptyWithinTwoWeeks() {
    BatteryForecast empty = forecast(20, ago -> 3.25 + 0.01 * ago);
    assertEquals(0, empty.daysLeft());
    assertTrue(empty.low());
    assertTrue(forecast(20, ago -> 3.4 + 0.01 * ago).low());
    assertTrue(forecast(2, ago -> 3.3).low());
  }
}
