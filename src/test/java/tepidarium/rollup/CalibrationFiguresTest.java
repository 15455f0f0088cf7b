package tepidarium.rollup;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Duration;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import tepidarium.calibration.CalibrationMethod;
import tepidarium.calibration.CalibrationPoint;
import tepidarium.container.Container;
import tepidarium.heat.BenchFinding;
import tepidarium.heat.HeatBench;
import tepidarium.heat.HeatRule;
import tepidarium.heat.Limit;
import tepidarium.heat.LocalHours;
import tepidarium.heat.SensorError;
import tepidarium.reading.Quantity;
import tepidarium.reading.Reading;
import tepidarium.reading.Readings;
import tepidarium.reading.SensorId;
import tepidarium.reading.Span;

/** How calibration points change heat, its bounds, time in band and the verdict of the bench. */
class CalibrationFiguresTest {
  private static final HeatRule RULE = new HeatRule(12, 33.0);
  private static final int DAYS = 14;
  private static final int HOURS = DAYS * 24;
  private static final SensorId OTHER = new SensorId("t");

  /**
   * By how much a sensor with one point may be off at 0.3 °C from the point, by hand: the reference
   * 0.05 °C, one step of 0.1 °C (0.1² / 12 = 0.000833) for the reading at the point and one for the
   * reading itself, and 0.3 °C · 0.003 for the gain. Together √(0.0025 + 2 · 0.000833 + 0.00000081)
   * = 0.064556 °C; twice this is 0.129113 °C.
   */
  private static final double OFF_BY_C = 0.129113;

  private final Bench bench = new Bench(Bench.START.plus(Duration.ofDays(40)));
  private final Span span = hours(0, HOURS);

  private static Span hours(int from, int to) {
    return new Span(
        Bench.START.plus(Duration.ofHours(from)), Bench.START.plus(Duration.ofHours(to)));
  }

  private void steady(SensorId sensor, int fromHour, int toHour, double temperatureC) {
    List<Reading> readings = new ArrayList<>();
    for (int minute = fromHour * 60; minute <= toHour * 60; minute += 10) {
      Instant at = Bench.START.plus(Duration.ofMinutes(minute));
      readings.add(Readings.ofAir(sensor, at, temperatureC, 95.0, 0.0, null));
    }
    bench.store(readings.toArray(new Reading[0]));
  }

  private void point(SensorId sensor, int day, double reading, double trueValue) {
    Instant at = Bench.START.plus(Duration.ofDays(day));
    CalibrationMethod how = CalibrationMethod.COMPARISON;
    bench.register.addCalibrationPoint(
        new CalibrationPoint(sensor, Quantity.TEMPERATURE, at, reading, trueValue, 0.05, how, null),
        at);
  }

  private double heat(Span part) {
    return bench.history.heat(bench.container(), part, RULE).degreeHours();
  }

  private SensorError error(Span part) {
    return bench.history.sensorError(bench.container(), part, RULE);
  }

  /** 336 h at 30.5 °C, above 12 °C: 18.5 · 336 = 6,216 °C·h, ± 0.5 · 336 = 168 °C·h. */
  @Test
  void aPointChangesHeatAndItsBounds() {
    steady(Bench.SENSOR, 0, HOURS, 30.5);
    bench.rollups.catchUp();
    assertEquals(6_216, heat(span), 1e-6);
    assertEquals(168, error(span).more(), 1e-6);

    // +0.3 °C: 18.8 · 336 = 6,316.8 °C·h, ± 0.129113 · 336 = 43.382 °C·h.
    point(Bench.SENSOR, 1, 30.5, 30.8);
    assertEquals(6_316.8, heat(span), 1e-6);
    assertEquals(43.382, error(span).more(), 1e-3);
    assertEquals(43.382, error(span).less(), 1e-3);

    long id = bench.register.calibrationPoints(Bench.SENSOR).get(0).id();
    assertTrue(bench.register.removeCalibrationPoint(Bench.SENSOR, id, Bench.START));
    assertEquals(6_216, heat(span), 1e-6);
    assertEquals(168, error(span).less(), 1e-6);
  }

  /**
   * From −0.3 °C on day 0 to +0.3 °C on day 10 linearly: on day 5 the mean correction is 0 °C
   * (−0.03 to +0.03), before day 0 and after day 10 it is constant. 24 h at 30 °C: 18 · 24 = 432
   * °C·h.
   */
  @Test
  void driftIsInterpolatedBetweenSessions() {
    steady(Bench.SENSOR, 0, HOURS, 30);
    point(Bench.SENSOR, 0, 30, 29.7);
    point(Bench.SENSOR, 10, 30, 30.3);
    assertEquals(432, heat(hours(108, 132)), 1e-6);
    assertEquals(432 + 0.3 * 24, heat(hours(288, 312)), 1e-6);
    assertEquals(432 - 0.3 * 24 + 0.06 * 24 / 2, heat(hours(0, 24)), 1e-6);
  }

  /** A day with a sensor of ±0.5 °C, then one with a calibrated sensor: 24 · (0.5 + 0.129113). */
  @Test
  void theErrorOfASensorCountsOnlyWhileItIsPlaced() {
    Container jar = bench.container();
    bench.register.place(Bench.SENSOR, null, hours(24, 24).from(), null);
    bench.register.place(OTHER, jar.id(), hours(24, 24).from(), null);
    steady(Bench.SENSOR, 0, 24, 30.5);
    steady(OTHER, 24, 48, 30.5);
    point(OTHER, 1, 30.5, 30.8);
    assertEquals(24 * 0.5, error(hours(0, 24)).more(), 0.01);
    assertEquals(24 * (0.5 + OFF_BY_C), error(hours(0, 48)).more(), 0.01);
  }

  /**
   * At 29.9 °C with a low limit of 29.5 °C: an error of 0.5 °C leaves all open, 0.13 °C nothing.
   */
  @Test
  void timeInBandIsBoundedByTheSensor() {
    steady(Bench.SENSOR, 0, 48, 29.9);
    InsideBounds stated = insideLow();
    assertEquals(0, stated.lower(), 1e-9);
    assertEquals(1, stated.upper(), 1e-9);
    point(Bench.SENSOR, 1, 29.6, 29.6);
    assertEquals(1, insideLow().lower(), 1e-9);
    assertEquals(1, insideLow().upper(), 1e-9);
  }

  private InsideBounds insideLow() {
    return inside(Quantity.TEMPERATURE, Limit.low(29.5)).orElseThrow();
  }

  private Optional<InsideBounds> inside(Quantity quantity, Limit limit) {
    return bench.history.band().insideBounds(bench.container(), hours(0, 48), quantity, limit);
  }

  /**
   * Humidity rises from 60 to 100 % within 40 h and stays. Inside 80 % from hour 20 of 48 on; with
   * a sensor of ±5 %, from hour 25 or 15 on.
   */
  @Test
  void timeInBandOfHumidityIsBoundedByTheSensor() {
    List<Reading> readings = new ArrayList<>();
    for (int minute = 0; minute <= 48 * 60; minute += 10) {
      Instant at = Bench.START.plus(Duration.ofMinutes(minute));
      double humidity = Math.min(100, 60 + minute / 60.0);
      readings.add(Readings.ofAir(Bench.SENSOR, at, 30.0, humidity, 0.0, null));
    }
    bench.store(readings.toArray(new Reading[0]));
    InsideBounds bounds = inside(Quantity.HUMIDITY, Limit.low(80)).orElseThrow();
    assertEquals(23 / 48.0, bounds.lower(), 1e-6);
    assertEquals(33 / 48.0, bounds.upper(), 1e-6);
  }

  /**
   * A light sensor without points may be off by 1 lux and a fifth, as much as the limit of 1 lux.
   */
  @Test
  void timeInTheDarkIsBoundedOnceTheDarkIsCalibrated() {
    steady(Bench.SENSOR, 0, 48, 30);
    assertTrue(inside(Quantity.LIGHT, Limit.high(1)).isEmpty());
    Instant at = Bench.START.plus(Duration.ofDays(1));
    bench.register.addCalibrationPoint(
        new CalibrationPoint(
            Bench.SENSOR, Quantity.LIGHT, at, 0, 0, 0, CalibrationMethod.DARK, null),
        at);
    InsideBounds dark = inside(Quantity.LIGHT, Limit.high(1)).orElseThrow();
    assertEquals(1, dark.lower(), 1e-9);
  }

  /**
   * Jar at 30.5 °C and other at 30.3 °C, both as read. Difference 0.2 · 24 = 4.8 °C·h a day,
   * sensors (0.5 + 0.5) · 24 = 24 °C·h a day: within the error. Jar +0.3 °C and other −0.3 °C: 30.8
   * less 30.0 is 0.8 · 24 = 19.2 °C·h a day, sensors 2 · 0.129113 · 24 = 6.197 °C·h a day: more.
   * Jar −0.3 °C and other +0.3 °C: 30.2 less 30.6 is −0.4 · 24 = −9.6 °C·h a day: less.
   */
  @Test
  void theVerdictOfTheBenchFollowsTheCalibration() {
    Container other = bench.register.add(Bench.settings(12, 33.0), Bench.START);
    bench.register.place(OTHER, other.id(), Bench.START, null);
    steady(Bench.SENSOR, 0, HOURS, 30.5);
    steady(OTHER, 0, HOURS, 30.3);
    bench.rollups.catchUp();
    verdict(other, BenchFinding.WITHIN_SENSOR_ERROR, 4.8, 24);

    point(Bench.SENSOR, 1, 30.5, 30.8);
    point(OTHER, 1, 30.3, 30);
    verdict(other, BenchFinding.MORE, 19.2, 6.197);

    for (SensorId sensor : List.of(Bench.SENSOR, OTHER)) {
      long id = bench.register.calibrationPoints(sensor).get(0).id();
      bench.register.removeCalibrationPoint(sensor, id, Bench.START);
    }
    point(Bench.SENSOR, 1, 30.5, 30.2);
    point(OTHER, 1, 30.3, 30.6);
    verdict(other, BenchFinding.LESS, -9.6, 6.197);
  }

  private void verdict(Container other, BenchFinding finding, double perDay, double sensorsPerDay) {
    LocalHours hours = LocalHours.of(span, ZoneOffset.UTC);
    BenchReader reader = new BenchReader(bench.register, bench.calibrated, bench.history);
    HeatBench.Pair pair =
        HeatBench.compare(
                hours,
                List.of(
                    side("jar", reader, bench.container(), hours),
                    side("other", reader, other, hours)))
            .pairs()
            .get(0);
    assertEquals(perDay, pair.figures().degreeHoursPerDay().value(), 1e-6);
    assertEquals(sensorsPerDay, pair.sensorErrorPerDay(), 1e-3);
    assertEquals(finding, pair.finding(), BenchFinding.words(pair));
  }

  private static HeatBench.Side side(
      String name, BenchReader reader, Container container, LocalHours hours) {
    return new HeatBench.Side(name, name, false, List.of(reader.place(container, hours, RULE)));
  }
}
