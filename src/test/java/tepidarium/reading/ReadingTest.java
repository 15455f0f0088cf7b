package tepidarium.reading;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Instant;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class ReadingTest {
  private static final SensorId SENSOR = new SensorId("bag-1");
  private static final Instant AT = Instant.parse("2026-03-01T06:00:00Z");

  @Test
  void anyQuantityMayBeAbsent() {
    Reading reading = Readings.ofAir(SENSOR, AT, null, 96.1, null, null);
    assertEquals(96.1, reading.value(Quantity.HUMIDITY));
    assertNull(reading.value(Quantity.TEMPERATURE));
    assertNull(reading.value(Quantity.LIGHT));
    assertNull(reading.value(Quantity.BATTERY));
  }

  @Test
  void eachQuantityIsFoundUnderItsName() {
    Reading reading = Readings.ofAir(SENSOR, AT, 30.2, 96.1, 0.0, 3.91);
    assertEquals(30.2, reading.value(Quantity.TEMPERATURE));
    assertEquals(96.1, reading.value(Quantity.HUMIDITY));
    assertEquals(0.0, reading.value(Quantity.LIGHT));
    assertEquals(3.91, reading.value(Quantity.BATTERY));
  }

  @Test
  void aReadingWithoutAnyQuantityIsRefused() {
    assertThrows(
        IllegalArgumentException.class, () -> Readings.ofAir(SENSOR, AT, null, null, null, null));
  }

  @Test
  void aRefusalNamesTheQuantityItsValueAndItsRange() {
    IllegalArgumentException refusal =
        assertThrows(
            IllegalArgumentException.class,
            () -> Readings.ofAir(SENSOR, AT, -127.0, null, null, null));
    assertEquals("temperature -127.0 is outside -55 to 125 °C", refusal.getMessage());
  }

  @ParameterizedTest
  @ValueSource(doubles = {Double.NaN, Double.POSITIVE_INFINITY, Double.NEGATIVE_INFINITY})
  void aValueThatIsNoNumberIsRefusedForEveryQuantity(double value) {
    assertThrows(
        IllegalArgumentException.class, () -> Readings.ofAir(SENSOR, AT, value, null, null, null));
    assertThrows(
        IllegalArgumentException.class, () -> Readings.ofAir(SENSOR, AT, 30.0, value, null, null));
    assertThrows(
        IllegalArgumentException.class, () -> Readings.ofAir(SENSOR, AT, 30.0, null, value, null));
    assertThrows(
        IllegalArgumentException.class, () -> Readings.ofAir(SENSOR, AT, 30.0, null, null, value));
  }

  @Test
  void theInstantIsCutToWholeMilliseconds() {
    Reading reading = Readings.ofAir(SENSOR, AT.plusNanos(7_999_999), 30.0, null, null, null);
    assertEquals(AT.plusMillis(7), reading.at());
  }

  @ParameterizedTest
  @ValueSource(strings = {"", "a b", "a/b", "+", "#", "bag.1", "büchse", "bag\n"})
  void aSensorsNameOfAnotherFormIsRefused(String name) {
    assertThrows(IllegalArgumentException.class, () -> new SensorId(name));
  }

  @Test
  void aSensorsNameHasAtMost64Characters() {
    assertEquals(64, new SensorId("x".repeat(64)).toString().length());
    assertThrows(IllegalArgumentException.class, () -> new SensorId("x".repeat(65)));
  }

  @Test
  void sensorsSortByName() {
    assertTrue(new SensorId("a").compareTo(new SensorId("b")) < 0);
  }
}
