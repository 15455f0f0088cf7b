package tepidarium.calibration;

import static org.junit.jupiter.api.Assertions.assertDoesNotThrow;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Duration;
import java.time.Instant;
import java.util.List;
import org.junit.jupiter.api.Test;
import tepidarium.reading.InvalidInput;
import tepidarium.reading.Quantity;
import tepidarium.reading.Samples;
import tepidarium.reading.SensorId;

/** Sessions, the dated correction, its uncertainty, and the points that are refused. */
class CalibrationTest {
  private static final SensorId SENSOR = new SensorId("jar-1");
  private static final Instant SPRING = Instant.parse("2026-03-01T06:00:00Z");
  private static final Instant AUTUMN = SPRING.plus(Duration.ofDays(200));

  /** One reading of temperature in steps of 0.1 °C: 0.1 / √12. */
  private static final double STEP = 0.0288675;

  private static CalibrationPoint temperature(Instant at, double reading, double trueValue) {
    return point(Quantity.TEMPERATURE, at, reading, trueValue, CalibrationMethod.COMPARISON);
  }

  private static CalibrationPoint point(
      Quantity quantity, Instant at, double reading, double trueValue, CalibrationMethod method) {
    return new CalibrationPoint(SENSOR, quantity, at, reading, trueValue, 0.05, method, null);
  }

  private static QuantityCorrection correction(CalibrationPoint... points) {
    return new QuantityCorrection(List.of(points));
  }

  private static double at(QuantityCorrection correction, Instant at, double reading) {
    return correction.corrected(at.toEpochMilli(), reading);
  }

  @Test
  void onePointGivesAnOffsetAtAllTimes() {
    QuantityCorrection one = correction(temperature(SPRING, 30.3, 30));
    assertEquals(24.7, at(one, SPRING.minusSeconds(1), 25), 1e-9);
    assertEquals(24.7, at(one, AUTUMN, 25), 1e-9);
    // Point: 0.05 and one step; this reading: one step; 5 °C from the point: 5 · 0.003.
    double byHand = Math.sqrt(0.05 * 0.05 + 2 * STEP * STEP + 0.015 * 0.015);
    assertEquals(byHand, one.uncertainty(AUTUMN, 25.3), 1e-6);
    assertEquals(2 * byHand, one.expandedUncertainty(AUTUMN, 25.3), 1e-6);
  }

  /** Readings 0.5 and 30.5 at 0 and 30.3 °C: gain 30.3 / 30 = 1.01, offset −0.505. */
  @Test
  void twoPointsOfOneSessionGiveOffsetAndGain() {
    QuantityCorrection two =
        correction(
            new CalibrationPoint(
                SENSOR,
                Quantity.TEMPERATURE,
                SPRING,
                0.5,
                0,
                0.05,
                CalibrationMethod.ICE_POINT,
                ""),
            temperature(SPRING.plus(Duration.ofHours(30)), 30.5, 30.3));
    assertEquals(1, two.sessions().size());
    assertEquals(SPRING.plus(Duration.ofHours(15)), two.lastAt());
    assertEquals(20 * 1.01 - 0.505, at(two, AUTUMN, 20), 1e-9);
  }

  /** The least-squares line of (0, 0), (10, 11), (20, 20): slope 200 / 200 = 1, mean 31/3. */
  @Test
  void threePointsGiveTheLeastSquaresLineAndItsScatter() {
    List<FixedPoint> points =
        List.of(
            new FixedPoint(0, 0, 0, 0.1),
            new FixedPoint(10, 0, 11, 0.1),
            new FixedPoint(20, 0, 20, 0.1));
    Correction line = Correction.ofPoints(points, 0);
    assertEquals(1, line.gain(), 1e-9);
    assertEquals(5 + 1 / 3.0, line.corrected(5), 1e-9);
    // Residuals −1/3, 2/3, −1/3: χ² = (6/9) / 0.01 = 66.67 with one degree of freedom.
    assertEquals(Math.sqrt(66.6667) * 0.1 / Math.sqrt(3), line.uncertainty(10), 1e-4);
    assertEquals(Math.sqrt(66.6667) * 0.1 / Math.sqrt(200), line.gainUncertainty(), 1e-4);
  }

  @Test
  void theCorrectionChangesLinearlyBetweenSessionsAndIsConstantOutside() {
    QuantityCorrection dated =
        correction(temperature(AUTUMN, 29.9, 30), temperature(SPRING, 30.3, 30));
    assertEquals(2, dated.sessions().size());
    assertEquals(29.7, at(dated, SPRING.minus(Duration.ofDays(9)), 30), 1e-9);
    assertEquals(29.8, at(dated, SPRING.plus(Duration.ofDays(50)), 30), 1e-9);
    assertEquals(30.1, at(dated, AUTUMN.plus(Duration.ofDays(9)), 30), 1e-9);
    Samples raw =
        Samples.of(
            new long[] {SPRING.toEpochMilli(), AUTUMN.toEpochMilli()}, new double[] {30, 30});
    Samples corrected = dated.corrected(raw);
    assertEquals(29.7, corrected.value(0), 1e-9);
    assertEquals(30.1, corrected.value(1), 1e-9);
    assertEquals(raw.atMs(1), corrected.atMs(1));
  }

  /** Half-way the step may have happened or not: (0.4 / 2)² is added to the variance. */
  @Test
  void driftBetweenSessionsAddsToTheUncertainty() {
    QuantityCorrection dated =
        correction(temperature(SPRING, 30, 30), temperature(AUTUMN, 30, 30.4));
    double ofPoint = Math.sqrt(0.05 * 0.05 + STEP * STEP);
    assertEquals(Math.hypot(ofPoint, STEP), dated.uncertainty(SPRING, 30), 1e-6);
    Instant middle = SPRING.plus(Duration.ofDays(100));
    assertEquals(
        Math.sqrt(ofPoint * ofPoint + 0.2 * 0.2 + STEP * STEP),
        dated.uncertainty(middle, 30),
        1e-6);
  }

  @Test
  void correctedLightIsNeverBelowZero() {
    QuantityCorrection dark =
        correction(point(Quantity.LIGHT, SPRING, 0.8, 0, CalibrationMethod.DARK));
    assertEquals(0, at(dark, SPRING, 0.5));
    assertEquals(1.2, at(dark, SPRING, 2), 1e-9);
  }

  private static void refusedTogether(String words, CalibrationPoint... points) {
    String message =
        assertThrows(
                InvalidInput.class, () -> CalibrationRules.checkTogether(List.of(points)), words)
            .getMessage();
    assertTrue(message.contains(words), message);
  }

  @Test
  void pointsWithoutAUsableGainAreRefused() {
    CalibrationPoint first = temperature(SPRING, 30.3, 30);
    Instant later = SPRING.plusSeconds(3600);
    refusedTogether("remove the first", first, temperature(later, 30.3, 30));
    refusedTogether("gain of 0.000", first, temperature(later, 31.3, 30));
    refusedTogether("swapped", first, temperature(later, 40, 20));
    refusedTogether("0.91 to 1.10 is allowed", first, temperature(later, 40.3, 41.2));
    refusedTogether("take the points further apart", first, temperature(later, 40.3, 39));
    assertDoesNotThrow(
        () -> CalibrationRules.checkTogether(List.of(first, temperature(later, 40.3, 40.9))));
    assertDoesNotThrow(
        () -> CalibrationRules.checkTogether(List.of(first, temperature(AUTUMN, 30.3, 30))));
  }

  /** A lamp alone would give an offset, and so light in the dark. */
  @Test
  void lightNeedsAPointInTheDark() {
    CalibrationPoint lamp = point(Quantity.LIGHT, SPRING, 450, 500, CalibrationMethod.KNOWN_LAMP);
    CalibrationPoint dark =
        point(Quantity.LIGHT, SPRING.plusSeconds(60), 0, 0, CalibrationMethod.DARK);
    refusedTogether("with the method dark first", lamp);
    assertDoesNotThrow(() -> CalibrationRules.checkTogether(List.of(lamp, dark)));
  }

  private static void refused(String words, Runnable make) {
    String message = assertThrows(InvalidInput.class, make::run, words).getMessage();
    assertTrue(message.contains(words), message);
  }

  @Test
  void impossiblePointsAreRefused() {
    refused("trueValue must be between -55 and 125 °C", () -> temperature(SPRING, 30, 126));
    refused("reading must be", () -> temperature(SPRING, Double.NaN, 30));
    refused(
        "use comparison",
        () -> point(Quantity.HUMIDITY, SPRING, 1, 0, CalibrationMethod.ICE_POINT));
    refused(
        "must be 0 °C",
        () -> point(Quantity.TEMPERATURE, SPRING, 1, 1, CalibrationMethod.ICE_POINT));
    refused(
        "uncertainty must be",
        () ->
            new CalibrationPoint(
                SENSOR,
                Quantity.TEMPERATURE,
                SPRING,
                1,
                1,
                -0.1,
                CalibrationMethod.COMPARISON,
                null));
  }

  @Test
  void aPointBeforeTheSensorWasHeardOrInTheFutureIsRefused() {
    CalibrationPoint point = temperature(SPRING, 30, 30);
    refused(
        "lies in the future",
        () -> CalibrationRules.checkTime(point, SPRING, SPRING.minusSeconds(61)));
    refused(
        "before the first reading of jar-1 (2026-03-01T06:01:00Z)",
        () -> CalibrationRules.checkTime(point, SPRING.plusSeconds(60), AUTUMN));
    // A person enters the minute of the first reading.
    assertDoesNotThrow(() -> CalibrationRules.checkTime(point, SPRING.plusSeconds(59), AUTUMN));
    refused("has not sent a reading yet", () -> CalibrationRules.checkTime(point, null, AUTUMN));
    assertDoesNotThrow(() -> CalibrationRules.checkTime(point, SPRING, SPRING));
  }

  /**
   * Greenspan's table at 0 to 50 °C (values from memory; the polynomials at 25 °C are checked in
   * CorrectionTest): NaCl 74.43 % at 50 °C, KCl 81.20 % at 50 °C, MgCl2 30.54 % at 50 °C, K2SO4
   * 98.5 % at 5 °C.
   */
  @Test
  void saltsAwayFromRoomTemperature() {
    assertEquals(74.43, SaltSlurry.SODIUM_CHLORIDE.humidityPercent(50), 0.02);
    assertEquals(81.20, SaltSlurry.POTASSIUM_CHLORIDE.humidityPercent(50), 0.02);
    assertEquals(30.54, SaltSlurry.MAGNESIUM_CHLORIDE.humidityPercent(50), 0.02);
    assertEquals(98.48, SaltSlurry.POTASSIUM_SULPHATE.humidityPercent(5), 0.02);
    assertEquals(0.22, SaltSlurry.SODIUM_CHLORIDE.statedUncertaintyPercent(40), 1e-9);
    assertEquals(0.28, SaltSlurry.SODIUM_CHLORIDE.statedUncertaintyPercent(10), 1e-9);
  }
}
