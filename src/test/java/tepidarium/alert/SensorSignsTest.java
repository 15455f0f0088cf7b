package tepidarium.alert;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static tepidarium.reading.SampleRecords.HALF_HOUR;
import static tepidarium.reading.SampleRecords.minute;

import java.util.List;
import java.util.Map;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import tepidarium.reading.Quantity;
import tepidarium.reading.Samples;
import tepidarium.reading.SensorId;

/** Eight hours of invented readings, one every ten minutes. */
class SensorSignsTest {
  private static final SensorId PROBE = new SensorId("probe");
  private static final SensorId SECOND = new SensorId("second");

  private static Samples record(DoubleUnaryOperator value) {
    Samples.Builder builder = new Samples.Builder(50);
    for (int at = 0; at <= 480; at += 10) {
      builder.add(minute(at), value.applyAsDouble(at));
    }
    return builder.build();
  }

  /** A closet that breathes a little. */
  private static double breathing(double at) {
    return 31.06 + 0.4 * Math.sin(at / 50);
  }

  /** A room that is heated by day. */
  private static double room(double at) {
    return 17.3 + at / 120;
  }

  private static SensorSigns.Report warmth(SensorId sensor, DoubleUnaryOperator value) {
    return new SensorSigns.Report(sensor, Map.of(Quantity.TEMPERATURE, record(value)), 0.5);
  }

  private static SensorSigns.Report moisture(SensorId sensor, DoubleUnaryOperator value) {
    return new SensorSigns.Report(sensor, Map.of(Quantity.HUMIDITY, record(value)), 0.5);
  }

  private static List<SensorSign> faults(SensorSigns.Report... inside) {
    return SensorSigns.of(List.of(inside), List.of(record(SensorSignsTest::room)), HALF_HOUR);
  }

  private static void assertOnly(SensorSign.Kind kind, SensorSigns.Report... inside) {
    List<SensorSign> faults = faults(inside);
    assertEquals(List.of(kind), faults.stream().map(SensorSign::kind).toList());
    assertTrue(!faults.get(0).reason().words().isBlank());
  }

  @Test
  void soundSensorsHaveNoFault() {
    SensorSigns.Report first = warmth(PROBE, SensorSignsTest::breathing);
    SensorSigns.Report second = warmth(SECOND, at -> breathing(at) + 0.9);
    assertEquals(List.of(), faults(first, second));
    assertEquals(List.of(), faults());
    assertEquals(List.of(), faults(new SensorSigns.Report(PROBE, Map.of(), 0.5)));
  }

  /** 85.0, 127.9375 and −127: a DS18B20's power-on value and faults, see sensors.json. */
  @ParameterizedTest
  @CsvSource({
    "TEMPERATURE, 85, power-up",
    "TEMPERATURE, 127.9375, outside what a sensor can measure",
    "TEMPERATURE, -127, outside what a sensor can measure",
    "TEMPERATURE, 85.0625, is impossible in a germination container",
    "TEMPERATURE, -40, is impossible in a germination container",
    "HUMIDITY, 0, is impossible in a germination container",
    "HUMIDITY, 120, outside what a sensor can measure"
  })
  void anInvalidValueIsNamed(Quantity quantity, double value, String words) {
    String said = SensorSigns.implausible(PROBE, quantity, value).orElseThrow().words();
    assertTrue(said.contains(words), said);
  }

  @ParameterizedTest
  @CsvSource({
    "TEMPERATURE, 31",
    "TEMPERATURE, 60",
    "TEMPERATURE, -5",
    "HUMIDITY, 100.5",
    "HUMIDITY, 12",
    "LIGHT, 0",
    "BATTERY, 3.1"
  })
  void aValidValueHasNoProblem(Quantity quantity, double value) {
    assertTrue(SensorSigns.implausible(PROBE, quantity, value).isEmpty());
  }

  @Test
  void onePowerOnValueInTheLastHourIsFlaggedAndLaterForgiven() {
    assertOnly(SensorSign.Kind.IMPLAUSIBLE, warmth(PROBE, at -> at == 450 ? 85 : breathing(at)));
    assertEquals(List.of(), faults(warmth(PROBE, at -> at == 300 ? 85 : breathing(at))));
  }

  @Test
  void aConstantValueWhileTheRoomChangesIsStuck() {
    List<SensorSign> faults = faults(warmth(PROBE, at -> at < 60 ? breathing(at) : 31.0625));
    assertEquals(1, faults.size());
    assertEquals(SensorSign.Kind.STUCK, faults.get(0).kind());
    assertEquals(minute(60), faults.get(0).since().toEpochMilli());
  }

  @Test
  void aConstantValueAmongConstantSensorsIsNotStuck() {
    List<SensorSign> faults =
        SensorSigns.of(
            List.of(warmth(PROBE, at -> 31.0625)), List.of(record(at -> 17.3)), HALF_HOUR);
    assertEquals(List.of(), faults);
    assertEquals(List.of(), faults(warmth(PROBE, at -> at < 300 ? breathing(at) : 31.0625)));
  }

  @Test
  void aCoarseSensorIsStuckOnlyIfTheOtherSensorChanges() {
    assertEquals(List.of(), faults(warmth(PROBE, at -> 31)));
    SensorSigns.Report moving = warmth(SECOND, at -> 29.6 + at / 180);
    assertTrue(
        faults(warmth(PROBE, at -> 31), moving).stream()
            .anyMatch(fault -> fault.kind() == SensorSign.Kind.STUCK));
  }

  @Test
  void aSaturatedHumiditySensorIsNotStuck() {
    assertEquals(List.of(), faults(moisture(PROBE, at -> 99.9)));
    assertOnly(SensorSign.Kind.STUCK, moisture(PROBE, at -> 71.3));
  }

  @Test
  void repeatedStepsAreJumpsButAnOpeningIsNot() {
    assertOnly(
        SensorSign.Kind.JUMPING,
        warmth(PROBE, at -> at >= 440 && at % 20 == 0 ? 22.5 : breathing(at)));
    DoubleUnaryOperator opening =
        at -> at < 400 ? breathing(at) : breathing(at) - 8 * Math.exp((400 - at) / 30);
    assertEquals(List.of(), faults(warmth(PROBE, opening)));
    DoubleUnaryOperator fall = at -> at < 440 ? breathing(at) : 31 - (at - 430) * 0.6;
    assertEquals(List.of(), faults(warmth(PROBE, fall)), "steps one way only");
  }

  @Test
  void twoSensorsDisagreeIfTheyDifferByMoreThanTheirErrors() {
    SensorSigns.Report sound = warmth(PROBE, SensorSignsTest::breathing);
    assertOnly(SensorSign.Kind.DISAGREEING, sound, warmth(SECOND, at -> breathing(at) + 1.7));
    // 0.5 + 0.5 that both may be off, 0.5 between two places.
    assertEquals(List.of(), faults(sound, warmth(SECOND, at -> breathing(at) + 1.4)));
    DoubleUnaryOperator late = at -> breathing(at) + (at < 440 ? 0 : 1.7);
    assertEquals(List.of(), faults(sound, warmth(SECOND, late)), "for less than an hour");
    DoubleUnaryOperator over = at -> breathing(at) + (at < 440 ? 1.7 : 0);
    assertEquals(List.of(), faults(sound, warmth(SECOND, over)), "it is over");
  }

  @Test
  void saturatedHumiditySensorsDoNotDisagree() {
    assertOnly(
        SensorSign.Kind.DISAGREEING,
        moisture(PROBE, at -> 90 + at % 3),
        moisture(SECOND, at -> 70 + at % 3));
    assertEquals(
        List.of(), faults(moisture(PROBE, at -> 95 + at % 3), moisture(SECOND, at -> 109.1)));
  }
}
