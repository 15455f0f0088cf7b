package tepidarium.live;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.time.Clock;
import java.time.Instant;
import java.time.ZoneOffset;
import org.junit.jupiter.api.Test;
import tepidarium.calibration.CalibrationMethod;
import tepidarium.calibration.CalibrationPoint;
import tepidarium.container.Band;
import tepidarium.container.ContainerId;
import tepidarium.container.ContainerKind;
import tepidarium.container.ContainerSettings;
import tepidarium.container.MemoryContainers;
import tepidarium.container.Register;
import tepidarium.reading.Quantity;
import tepidarium.reading.SensorId;

class CalibrationErrorsTest {
  private static final Instant START = Instant.parse("2026-03-01T06:00:00Z");
  private static final SensorId SENSOR = new SensorId("s");

  private final Register register = new Register(new MemoryContainers());

  /** By hand: u² = 0.3² + 2 · 0.1² / 12 = 0.091667 at the point itself; 2 u = 0.605530 °C. */
  @Test
  void theErrorIsThatOfTheSensorsPlacedNow() {
    ContainerSettings jar =
        new ContainerSettings("Jar", ContainerKind.JAR, null, 15, null, Band.DEFAULT);
    ContainerId container = register.add(jar, START).id();
    register.place(SENSOR, container, START, START.plusSeconds(3_600));
    assertEquals(0, errorAt(container, START), "without points");

    CalibrationPoint point =
        new CalibrationPoint(
            SENSOR, Quantity.TEMPERATURE, START, 30, 30, 0.3, CalibrationMethod.COMPARISON, null);
    register.addCalibrationPoint(point, START);
    assertEquals(0.605530, errorAt(container, START), 1e-6);
    assertEquals(0, errorAt(container, START.plusSeconds(3_600)), "after it was taken out");
  }

  private double errorAt(ContainerId container, Instant now) {
    return new CalibrationErrors(register, Clock.fixed(now, ZoneOffset.UTC))
        .of(container, Quantity.TEMPERATURE, 30);
  }
}
