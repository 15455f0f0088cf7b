package tepidarium.calibration;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import com.fasterxml.jackson.databind.JsonNode;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import tepidarium.stats.CheckRows;

/** The salts and the two-point lines come from humidity.json, with their sources there. */
class CorrectionTest {
  private static final Map<String, SaltSlurry> SALTS =
      Map.of(
          "NaCl", SaltSlurry.SODIUM_CHLORIDE,
          "KCl", SaltSlurry.POTASSIUM_CHLORIDE,
          "K2SO4", SaltSlurry.POTASSIUM_SULPHATE,
          "MgCl2", SaltSlurry.MAGNESIUM_CHLORIDE);
  private static final Instant SPRING = Instant.parse("2026-03-01T00:00:00Z");
  private static final Instant AUTUMN = SPRING.plus(Duration.ofDays(200));

  static Stream<JsonNode> salts() {
    return CheckRows.cases("humidity.json", "salt_fixed_point").stream();
  }

  static Stream<JsonNode> lines() {
    return CheckRows.cases("humidity.json", "rh_two_point_calibration").stream();
  }

  @ParameterizedTest
  @MethodSource("salts")
  void saltsHoldTheirPublishedHumidity(JsonNode check) {
    SaltSlurry salt = SALTS.get(check.at("/input/salt").asText());
    double temperature = check.at("/input/temp_c").asDouble();
    double humidity = salt.humidityPercent(temperature);
    assertEquals(check.at("/expected/polynomial_value").asDouble(), humidity, 1e-5);
    assertEquals(check.at("/expected/rh_pct").asDouble(), humidity, 0.02);
    assertEquals(
        check.at("/expected/uncertainty_pct").asDouble(),
        salt.statedUncertaintyPercent(temperature),
        1e-9);
  }

  @ParameterizedTest
  @MethodSource("lines")
  void twoPointsGiveGainAndOffset(JsonNode check) {
    JsonNode in = check.path("input");
    Correction line =
        Correction.ofPoints(
            List.of(
                new FixedPoint(
                    in.path("reading_1").asDouble(), 0.1, in.path("reference_1").asDouble(), 0.1),
                new FixedPoint(
                    in.path("reading_2").asDouble(), 0.1, in.path("reference_2").asDouble(), 0.4)),
            0);
    assertEquals(check.at("/expected/gain").asDouble(), line.gain(), 1e-6);
    assertEquals(check.at("/expected/offset").asDouble(), line.offset(), 1e-6);
    double corrected = line.corrected(in.path("raw_reading").asDouble());
    assertEquals(check.at("/expected/corrected").asDouble(), corrected, 1e-6);
  }

  /** The offset to add after melting ice, by definition of 0 °C. */
  @ParameterizedTest
  @CsvSource({"0.31, -0.31", "-0.62, 0.62", "0.5, -0.5"})
  void iceGivesTheOffset(double reading, double offset) {
    Correction correction =
        Correction.ofOnePoint(
            FixedPoint.ice(reading, FixedPoint.ofResolution(0.0625), FixedPoint.ofLimits(0.05)),
            0.002);
    assertEquals(offset, correction.offset(), 1e-12);
    // 0.0625/√12 = 0.018042 and 0.05/√3 = 0.028868 together; 0.002 a degree further off.
    assertEquals(0.034042, correction.uncertainty(reading), 1e-6);
    assertEquals(Math.hypot(0.034042, 0.06), correction.uncertainty(reading + 30), 1e-6);
  }

  /**
   * JCGM 100:2008, H.3, calibration of a thermometer (value from memory): y1 = −0.1712 °C at 20 °C,
   * u 0.0029, y2 = 0.00218, u 0.00067, correlation −0.930. At 30 °C the correction is −0.1494 °C
   * with u = 0.0041 °C.
   */
  @Test
  void theThermometerOfTheGuide() {
    double pivot = 20 + 0.930 * 0.0029 / 0.00067;
    Correction line =
        new Correction(
            1.00218,
            pivot,
            pivot - 0.1712 + 0.00218 * (pivot - 20),
            0.0029 * Math.sqrt(1 - 0.930 * 0.930),
            0.00067);
    assertEquals(30 - 0.1494, line.corrected(30), 1e-6);
    assertEquals(0.0041, line.uncertainty(30), 5e-5);
    assertEquals(0.0029, line.uncertainty(20), 1e-9);
  }

  /** Against JCGM 101:2008, propagation of distributions by 100,000 draws. */
  @Test
  void twoPointsPropagateAsDrawnAtRandom() {
    FixedPoint salt = SaltSlurry.SODIUM_CHLORIDE.fixedPoint(77.9, 0.3, 25, 0.05);
    FixedPoint wet = SaltSlurry.POTASSIUM_SULPHATE.fixedPoint(94.6, 0.5, 25, 0.05);
    double shared = 0.2;
    Correction line = Correction.ofPoints(List.of(salt, wet), shared);
    SplittableRandom random = new SplittableRandom(12);
    int draws = 100_000;
    for (double reading : new double[] {70, 85, 99}) {
      double squares = 0;
      for (int i = 0; i < draws; i++) {
        double common = shared * random.nextGaussian();
        Correction drawn =
            Correction.ofPoints(
                List.of(drawn(salt, common, random), drawn(wet, common, random)), 0);
        double error =
            drawn.corrected(reading + 0.4 * random.nextGaussian()) - line.corrected(reading);
        squares += error * error / draws;
      }
      double expected = Math.sqrt(squares);
      assertEquals(expected, line.uncertainty(reading, 0.4), 0.02 * expected);
      assertEquals(2 * expected, line.expandedUncertainty(reading, 0.4), 0.04 * expected);
    }
  }

  private static FixedPoint drawn(FixedPoint point, double common, SplittableRandom random) {
    return new FixedPoint(
        point.reading() + point.readingUncertainty() * random.nextGaussian(),
        0,
        point.reference() + common + point.referenceUncertainty() * random.nextGaussian(),
        0);
  }

  /** At 25 °C, 17.27 · 237.3 / 262.3² = 5.956 % a degree; 75.298 · 0.05956 · 0.5 = 2.2424. */
  @Test
  void aSensorThatIsNotAsWarmAsTheSlurryDominates() {
    FixedPoint point = SaltSlurry.SODIUM_CHLORIDE.fixedPoint(75, 0, 25, 0.5);
    assertEquals(Math.hypot(2.2424, 0.12 / Math.sqrt(3)), point.referenceUncertainty(), 1e-3);
  }

  @Test
  void driftIsLinearBetweenTwoDates() {
    DatedCorrections dated = drifting();
    assertEquals(20.1, dated.corrected(SPRING.minusSeconds(9), 20), 1e-12);
    assertEquals(20.2, dated.corrected(SPRING.plus(Duration.ofDays(50)), 20), 1e-12);
    assertEquals(20.5, dated.corrected(AUTUMN.plus(Duration.ofDays(100)), 20), 1e-12);
    assertEquals(0.05, dated.uncertainty(SPRING, 20, 0), 1e-12);
    // 0.05² + 0.4²/4 half-way: the same reference may be off by 0.05 on both dates. Then 0.05² +
    // (0.4/2)²/3 half as long again after.
    assertEquals(
        Math.sqrt(0.0425), dated.uncertainty(SPRING.plus(Duration.ofDays(100)), 20, 0), 1e-9);
    assertEquals(
        Math.sqrt(0.0025 + 0.04 / 3),
        dated.uncertainty(AUTUMN.plus(Duration.ofDays(100)), 20, 0),
        1e-9);
    assertEquals(Math.hypot(0.05, 0.3), dated.uncertainty(AUTUMN, 20, 0.3), 1e-12);
  }

  private static DatedCorrections drifting() {
    Correction first = new Correction(1, 20, 20.1, 0.05, 0);
    return new DatedCorrections(SPRING, first, AUTUMN, new Correction(1, 20, 20.5, 0.05, 0));
  }

  @Test
  void impossiblePointsAreRefused() {
    FixedPoint a = new FixedPoint(20, 0, 20, 0);
    FixedPoint falling = new FixedPoint(30, 0, 10, 0);
    assertThrows(IllegalArgumentException.class, () -> Correction.ofPoints(List.of(a, a), 0));
    assertThrows(IllegalArgumentException.class, () -> Correction.ofPoints(List.of(a, falling), 0));
    assertThrows(IllegalArgumentException.class, () -> new FixedPoint(1, -1, 1, 0));
    assertThrows(
        IllegalArgumentException.class, () -> SaltSlurry.SODIUM_CHLORIDE.humidityPercent(51));
    Correction one = drifting().first();
    assertThrows(
        IllegalArgumentException.class, () -> new DatedCorrections(SPRING, one, SPRING, one));
  }
}
