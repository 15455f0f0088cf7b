package tepidarium.live;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Duration;
import java.time.Instant;
import java.util.Map;
import org.junit.jupiter.api.Test;
import tepidarium.container.Band;
import tepidarium.container.Calibration;
import tepidarium.container.ContainerId;
import tepidarium.container.ContainerKind;
import tepidarium.container.ContainerSettings;
import tepidarium.container.MemoryContainers;
import tepidarium.container.Register;
import tepidarium.fault.FaultDecision;
import tepidarium.fault.FaultKind;
import tepidarium.reading.Quantity;
import tepidarium.reading.Reading;
import tepidarium.reading.Readings;
import tepidarium.reading.SensorId;

class LatestValuesTest {
  private static final Instant START = Instant.parse("2026-03-01T06:00:00Z");
  private static final SensorId SENSOR = new SensorId("s");

  private final Register register = new Register(new MemoryContainers());
  private final LatestValues latestValues =
      new LatestValues(register, Duration.ofMinutes(30), Map.of());

  private static Reading reading(int minute, double temperature, double humidity, double lux) {
    return Readings.ofAir(
        SENSOR, START.plusSeconds(60L * minute), temperature, humidity, lux, null);
  }

  /** 30.25 + 0.5 °C and 97 − 3 %; light has no offset. The reading of 5 min ago came last. */
  @Test
  void theValueNowIsTheNewestReadingWithTheOffsetOfItsSensor() {
    ContainerId jar =
        register
            .add(
                new ContainerSettings("Jar", ContainerKind.JAR, null, 15, null, Band.DEFAULT),
                START)
            .id();
    register.place(SENSOR, jar, START, null);
    register.calibrate(SENSOR, new Calibration(0.5, -3, 0.2));
    latestValues.add(reading(10, 30.25, 97, 0.75));
    latestValues.add(reading(5, 20, 50, 9));
    Instant now = START.plusSeconds(900);
    assertEquals(30.75, latestValues.of(jar, Quantity.TEMPERATURE, now).orElseThrow().value());
    assertEquals(94, latestValues.of(jar, Quantity.HUMIDITY, now).orElseThrow().value());
    assertEquals(0.75, latestValues.of(jar, Quantity.LIGHT, now).orElseThrow().value());
    assertEquals(
        START.plusSeconds(600), latestValues.of(jar, Quantity.TEMPERATURE, now).orElseThrow().at());
  }

  /** 85 °C is the power-on value of a DS18B20; the humidity of the same reading counts. */
  @Test
  void anErrorCodeIsNoValueUntilItIsIncluded() {
    ContainerId jar =
        register
            .add(
                new ContainerSettings("Jar", ContainerKind.JAR, null, 15, null, Band.DEFAULT),
                START)
            .id();
    register.place(SENSOR, jar, START, null);
    latestValues.add(reading(10, 85, 97, 0));
    Instant now = START.plusSeconds(900);
    assertTrue(latestValues.of(jar, Quantity.TEMPERATURE, now).isEmpty());
    assertEquals(97, latestValues.of(jar, Quantity.HUMIDITY, now).orElseThrow().value());
    Instant at = START.plusSeconds(600);
    register.decide(
        new FaultDecision(
            SENSOR, Quantity.TEMPERATURE, FaultKind.POWER_ON, at, at, false, now, "Ada"));
    assertEquals(85, latestValues.of(jar, Quantity.TEMPERATURE, now).orElseThrow().value());
  }
}
