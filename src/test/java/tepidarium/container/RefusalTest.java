package tepidarium.container;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Instant;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.function.Executable;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import tepidarium.reading.Quantity;
import tepidarium.reading.SensorId;

/** A refusal names the field, in the words of the API, so that a form can show it there. */
class RefusalTest {
  @Test
  void eachLimitOfTheBandIsNamed() {
    refused("band.temperature.low", () -> new Band(-21, 34, 1, 80));
    refused("band.temperature.low", () -> new Band(Double.NaN, 34, 1, 80));
    refused("band.temperature.high", () -> new Band(29, 81, 1, 80));
    refused("band.temperature.high", () -> new Band(29, 29, 1, 80));
    refused("band.light.high", () -> new Band(29, 34, -0.1, 80));
    refused("band.light.high", () -> new Band(29, 34, Double.POSITIVE_INFINITY, 80));
    refused("band.humidity.low", () -> new Band(29, 34, 1, 100.1));
    refused("band.humidity.low", () -> new Band(29, 34, 1, -1));
  }

  @Test
  void theEndsOfEachRangeAreAllowed() {
    assertEquals(-20, new Band(-20, 80, 0, 0).temperatureLowC());
    assertEquals(100, new Band(-20, 80, 100_000, 100).humidityLowPercent());
    assertEquals(5, new Calibration(-10, 30, 5).temperatureErrorC());
    assertEquals(0, new Calibration(10, -30, 0).temperatureErrorC());
  }

  @Test
  void aRefusalStatesTheRangeTheUnitAndTheValue() {
    IllegalArgumentException refusal =
        assertThrows(IllegalArgumentException.class, () -> new Band(29, 34, 1, 120));
    assertEquals("band.humidity.low must be between 0 and 100 %", refusal.getMessage());
  }

  @Test
  void eachSettingOfAContainerIsNamed() {
    refused("name", () -> settings(" ", null, 15, null));
    refused("name", () -> settings("x".repeat(61), null, 15, null));
    refused("heatSource", () -> settings("Bag", "x".repeat(61), 15, null));
    refused("room", () -> inRoom("x".repeat(65)));
    refused("base", () -> settings("Bag", null, 61, null));
    refused("base", () -> settings("Bag", null, Double.NaN, null));
    refused("ceiling", () -> settings("Bag", null, 15, 81.0));
    refused("ceiling", () -> settings("Bag", null, 15, 15.0));
    refused("ceiling", () -> settings("Bag", null, 15, Double.NaN));
  }

  @Test
  void aNameLosesItsOuterSpacesAndABlankTextIsNone() {
    ContainerSettings settings = settings("  Bag ", "  ", 15, 32.0);
    assertEquals("Bag", settings.name());
    assertNull(settings.heatSource());
    assertEquals("Mat", settings("Bag", " Mat ", 15, null).heatSource());
    assertEquals("Bench", inRoom(" Bench ").room());
    assertNull(inRoom(" ").room());
  }

  @Test
  void eachPartOfACalibrationIsNamed() {
    refused("temperatureOffset", () -> new Calibration(10.1, 0, 0.5));
    refused("temperatureOffset", () -> new Calibration(Double.NaN, 0, 0.5));
    refused("humidityOffset", () -> new Calibration(0, -30.1, 0.5));
    refused("temperatureError", () -> new Calibration(0, 0, -0.1));
    refused("temperatureError", () -> new Calibration(0, 0, 5.1));
  }

  @Test
  void onlyTemperatureAndHumidityHaveAnOffset() {
    Calibration calibration = new Calibration(-0.4, 2, 0.1);
    assertEquals(-0.4, calibration.offset(Quantity.TEMPERATURE));
    assertEquals(2, calibration.offset(Quantity.HUMIDITY));
    assertEquals(0, calibration.offset(Quantity.LIGHT));
    assertEquals(0, calibration.offset(Quantity.BATTERY));
  }

  @ParameterizedTest
  @ValueSource(longs = {0, -1_000_000, 999_999})
  void aPlacementOfNoLengthIsRefused(long nanos) {
    Instant from = Instant.parse("2026-03-01T12:00:00Z");
    SensorId sensor = new SensorId("s1");
    refused("until", () -> new Placement(sensor, ContainerId.ROOM, from, from.plusNanos(nanos)));
  }

  private static ContainerSettings settings(
      String name, @Nullable String heatSource, double baseC, @Nullable Double ceilingC) {
    return new ContainerSettings(
        name, ContainerKind.JAR, heatSource, baseC, ceilingC, Band.DEFAULT);
  }

  private static ContainerSettings inRoom(String room) {
    return new ContainerSettings("Bag", ContainerKind.BAG, null, room, 15, null, Band.DEFAULT);
  }

  private static void refused(String field, Executable making) {
    IllegalArgumentException refusal = assertThrows(IllegalArgumentException.class, making);
    String message = String.valueOf(refusal.getMessage());
    assertTrue(message.startsWith(field + " "), message);
  }
}
