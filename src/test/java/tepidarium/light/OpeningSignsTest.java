package tepidarium.light;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static tepidarium.reading.SampleRecords.HALF_HOUR;
import static tepidarium.reading.SampleRecords.instant;
import static tepidarium.reading.SampleRecords.minute;
import static tepidarium.reading.SampleRecords.span;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;
import tepidarium.reading.Quantity;
import tepidarium.reading.Samples;
import tepidarium.reading.Span;

/** Invented records of six hours, a reading every two minutes; what happens, happens at 120. */
class OpeningSignsTest {
  private static final Span ALL = span(0, 360);

  private static double fiveMinutesOfLight(double minute) {
    return minute >= 120 && minute < 126 ? 150 : 0;
  }

  private static Samples record(DoubleUnaryOperator value) {
    Samples.Builder builder = new Samples.Builder(200);
    for (int at = 0; at <= 360; at += 2) {
      builder.add(minute(at), value.applyAsDouble(at));
    }
    return builder.build();
  }

  /** Steady, then down by so much within six minutes, and back with a time constant of 20 min. */
  private static DoubleUnaryOperator dip(double level, double depth) {
    return at -> {
      if (at < 120) {
        return level;
      }
      return at <= 126 ? level - depth * (at - 120) / 6 : level - depth * Math.exp((126 - at) / 20);
    };
  }

  /** A heat mat: up and down by half a degree every twenty minutes. */
  private static double mat(double at) {
    return 31 + 0.5 * Math.sin(2 * Math.PI * at / 20);
  }

  private static List<OpeningSign> signs(
      DoubleUnaryOperator light, DoubleUnaryOperator temperature, DoubleUnaryOperator humidity) {
    Map<Quantity, Samples> samples = new EnumMap<>(Quantity.class);
    samples.put(Quantity.LIGHT, record(light));
    samples.put(Quantity.TEMPERATURE, record(temperature));
    samples.put(Quantity.HUMIDITY, record(humidity));
    return OpeningSigns.of(samples, ALL, 1, HALF_HOUR);
  }

  @Test
  void suddenLightWithAFallAndRecoveryOfBothQuantitiesIsAnOpening() {
    List<OpeningSign> signs = signs(OpeningSignsTest::fiveMinutesOfLight, dip(31, 2), dip(96, 20));
    assertEquals(1, signs.size());
    OpeningSign sign = signs.get(0);
    assertEquals(new Span(instant(120), instant(126)), sign.span());
    assertEquals(150, sign.peakLux());
    assertEquals(2, sign.temperatureFallC(), 1e-9);
    assertEquals(20, sign.humidityFallPercent(), 1e-9);
  }

  @Test
  void lightAloneIsNone() {
    assertEquals(List.of(), signs(OpeningSignsTest::fiveMinutesOfLight, at -> 31, at -> 96));
  }

  @Test
  void aFallWithoutLightIsNoOpening() {
    assertEquals(List.of(), signs(at -> 0, dip(31, 2), dip(96, 20)));
  }

  @Test
  void slowlyGrowingLightIsNoOpening() {
    DoubleUnaryOperator dawn = at -> at < 120 || at > 180 ? 0 : 60 - Math.abs(at - 150) * 1.9;
    assertEquals(List.of(), signs(dawn, dip(31, 2), dip(96, 20)));
  }

  @Test
  void aFallWithoutRecoveryIsNoOpening() {
    DoubleUnaryOperator cut = at -> at < 120 ? 31 : 31 - Math.min(4, (at - 120) / 5);
    assertEquals(
        List.of(), signs(OpeningSignsTest::fiveMinutesOfLight, cut, at -> at < 120 ? 96 : 80));
  }

  @Test
  void aHeatMatCycleDuringLightIsNoFall() {
    assertEquals(
        List.of(), signs(OpeningSignsTest::fiveMinutesOfLight, OpeningSignsTest::mat, at -> 96));
    Map<Quantity, Samples> onlyWarmth =
        Map.of(
            Quantity.LIGHT,
            record(OpeningSignsTest::fiveMinutesOfLight),
            Quantity.TEMPERATURE,
            record(OpeningSignsTest::mat));
    assertEquals(List.of(), OpeningSigns.of(onlyWarmth, ALL, 1, HALF_HOUR));
  }

  @Test
  void ifOnlyOneQuantityIsMeasuredItDecides() {
    Map<Quantity, Samples> samples =
        Map.of(
            Quantity.LIGHT,
            record(OpeningSignsTest::fiveMinutesOfLight),
            Quantity.TEMPERATURE,
            record(dip(31, 2)));
    List<OpeningSign> signs = OpeningSigns.of(samples, ALL, 1, HALF_HOUR);
    assertEquals(1, signs.size());
    assertNull(signs.get(0).humidityFallPercent());
    Map<Quantity, Samples> lightAlone =
        Map.of(Quantity.LIGHT, record(OpeningSignsTest::fiveMinutesOfLight));
    assertEquals(List.of(), OpeningSigns.of(lightAlone, ALL, 1, HALF_HOUR));
    assertEquals(List.of(), OpeningSigns.of(Map.of(), ALL, 1, HALF_HOUR));
  }

  @Test
  void onlyEventsThatBeginInTheSpanAreReported() {
    Map<Quantity, Samples> samples =
        Map.of(
            Quantity.LIGHT,
            record(OpeningSignsTest::fiveMinutesOfLight),
            Quantity.TEMPERATURE,
            record(dip(31, 2)));
    assertEquals(List.of(), OpeningSigns.of(samples, span(0, 120), 1, HALF_HOUR));
    assertEquals(List.of(), OpeningSigns.of(samples, span(121, 360), 1, HALF_HOUR));
    assertEquals(1, OpeningSigns.of(samples, span(120, 121), 1, HALF_HOUR).size());
  }
}
