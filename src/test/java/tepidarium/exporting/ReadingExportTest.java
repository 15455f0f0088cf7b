package tepidarium.exporting;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import tepidarium.container.Band;
import tepidarium.container.Calibration;
import tepidarium.container.ContainerId;
import tepidarium.container.ContainerKind;
import tepidarium.container.ContainerSettings;
import tepidarium.container.MemoryContainers;
import tepidarium.container.Register;
import tepidarium.reading.InvalidInput;
import tepidarium.reading.Quantity;
import tepidarium.reading.Reading;
import tepidarium.reading.SensorId;
import tepidarium.rollup.MemoryReadings;

/** Which readings an export has, and how they are written. */
class ReadingExportTest {
  private static final Instant SIX = Instant.parse("2026-03-01T06:00:00Z");
  private static final String HEADER =
      "time,sensor,temperature (°C),humidity (%),light (lux),battery (V),co2 (ppm),"
          + "mediumMoisture (%)";
  private static final SensorId A = new SensorId("a");
  private static final SensorId B = new SensorId("b");

  private final MemoryReadings readings = new MemoryReadings();
  private final Register register = new Register(new MemoryContainers());
  private final ReadingExport export = new ReadingExport(readings, register);

  @BeforeEach
  void store() {
    readings.write(
        List.of(
            new Reading(A, SIX, Map.of(Quantity.TEMPERATURE, 30.25, Quantity.BATTERY, 3.9), null),
            new Reading(A, SIX.plusMillis(1), Map.of(Quantity.LIGHT, 0.0), null),
            new Reading(A, at(3), Map.of(Quantity.TEMPERATURE, -0.0001), null),
            new Reading(B, at(1), Map.of(Quantity.TEMPERATURE, 20.0), null),
            new Reading(B, at(50), Map.of(Quantity.TEMPERATURE, 21.0), null)));
  }

  private static Instant at(int hours) {
    return SIX.plusSeconds(3600L * hours);
  }

  private List<String> csv(
      @Nullable Instant from,
      @Nullable Instant until,
      @Nullable SensorId sensor,
      @Nullable ContainerId container,
      boolean calibrated)
      throws IOException {
    return lines(new ExportOptions(ExportFormat.CSV, from, until, sensor, container, calibrated));
  }

  private List<String> lines(ExportOptions options) throws IOException {
    StringBuilder text = new StringBuilder();
    export.check(options);
    long rows = export.write(options, text);
    List<String> lines = text.toString().lines().toList();
    assertEquals(lines.size() - 1, rows);
    return lines;
  }

  @Test
  void everyReadingIsARowOfItsSensorInTheOrderOfTime() throws IOException {
    assertEquals(
        List.of(
            HEADER,
            "2026-03-01T06:00:00Z,a,30.25,,,3.9,,",
            "2026-03-01T06:00:00.001Z,a,,,0,,,",
            "2026-03-01T09:00:00Z,a,-0.0001,,,,,",
            "2026-03-01T07:00:00Z,b,20,,,,,",
            "2026-03-03T08:00:00Z,b,21,,,,,"),
        csv(null, null, null, null, false));
  }

  @Test
  void lineProtocolNamesUnitsInACommentAndHasNanoseconds() throws IOException {
    List<String> lines =
        lines(new ExportOptions(ExportFormat.LINE_PROTOCOL, null, at(1), null, null, false));
    assertEquals(
        List.of(
            "# raw readings; units: temperature °C, humidity %, light lux, battery V, co2 ppm,"
                + " mediumMoisture %",
            "reading,sensor=a temperature=30.25,battery=3.9 1772344800000000000",
            "reading,sensor=a light=0 1772344800001000000"),
        lines);
  }

  @Test
  void aSpanIncludesItsStartAndExcludesItsEnd() throws IOException {
    assertEquals(
        List.of(HEADER, "2026-03-01T07:00:00Z,b,20,,,,,"), csv(at(1), at(3), null, null, false));
    InvalidInput problem =
        assertThrows(InvalidInput.class, () -> csv(at(3), at(3), null, null, false));
    assertEquals("to", problem.field());
  }

  @Test
  void aContainerHasTheReadingsOfItsSensorsWhileTheyWereInIt() throws IOException {
    ContainerId jar =
        register
            .add(new ContainerSettings("Jar", ContainerKind.JAR, null, 15, null, Band.DEFAULT), SIX)
            .id();
    register.place(A, jar, SIX.plusMillis(1), at(3));
    register.place(B, jar, at(1), null);
    assertEquals(
        List.of(
            HEADER,
            "2026-03-01T06:00:00.001Z,a,,,0,,,",
            "2026-03-01T07:00:00Z,b,20,,,,,",
            "2026-03-03T08:00:00Z,b,21,,,,,"),
        csv(null, null, null, jar, false));
    assertEquals(
        List.of(HEADER, "2026-03-01T06:00:00.001Z,a,,,0,,,"), csv(null, null, A, jar, false));
  }

  @Test
  void theCalibrationIsAppliedOnlyWhereItIsAskedFor() throws IOException {
    register.calibrate(B, new Calibration(-0.3, 0, 0.2));
    assertTrue(csv(null, null, B, null, false).contains("2026-03-01T07:00:00Z,b,20,,,,,"));
    assertTrue(csv(null, null, B, null, true).contains("2026-03-01T07:00:00Z,b,19.7,,,,,"));
  }

  @Test
  void unknownNamesAreRefusedBeforeAnythingIsWritten() {
    SensorId nobody = new SensorId("nobody");
    ContainerId nowhere = new ContainerId("nowhere");
    assertThrows(InvalidInput.class, () -> csv(null, null, nobody, null, false));
    assertThrows(InvalidInput.class, () -> csv(null, null, null, nowhere, false));
  }
}
