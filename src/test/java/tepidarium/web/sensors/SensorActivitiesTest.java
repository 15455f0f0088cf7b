package tepidarium.web.sensors;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tepidarium.container.MemoryContainers;
import tepidarium.container.Register;
import tepidarium.fault.ArrivalFault;
import tepidarium.fault.ArrivalFaultStore;
import tepidarium.fault.Fault;
import tepidarium.history.CalibratedReadings;
import tepidarium.live.LatestValues;
import tepidarium.reading.DeviceStatus;
import tepidarium.reading.Readings;
import tepidarium.reading.SensorId;
import tepidarium.reading.Span;
import tepidarium.rollup.FaultHistory;
import tepidarium.rollup.MemoryReadings;
import tepidarium.rollup.SensorDays;
import tepidarium.rollup.sqlite.SqliteRollups;
import tepidarium.sensor.SensorBook;
import tepidarium.sensor.SensorDetails;
import tepidarium.sensor.SensorStore;

/** Two sensors with one reading each, which is too few for a usual interval. */
class SensorActivitiesTest {
  private static final SensorId A = new SensorId("a");
  private static final SensorId B = new SensorId("b");
  private static final Instant NOW = Instant.parse("2026-03-11T12:00:00Z");
  private static final Duration GAP = Duration.ofMinutes(30);
  private static final Duration LIMIT = Duration.ofSeconds(30);

  private final MemoryReadings readings = new MemoryReadings();
  @TempDir private Path folder;
  private SqliteRollups rollups;
  private SensorActivities activities;

  private static final class NoFaults implements ArrivalFaultStore {
    @Override
    public void add(List<ArrivalFault> faults) {
      throw new UnsupportedOperationException();
    }

    @Override
    public List<Fault> of(SensorId sensor, Span span) {
      return List.of();
    }
  }

  private static final class NoDetails implements SensorStore {
    @Override
    public Map<SensorId, SensorDetails> details() {
      return Map.of();
    }

    @Override
    public void put(SensorId sensor, SensorDetails details) {
      throw new UnsupportedOperationException();
    }

    @Override
    public Map<SensorId, DeviceStatus> statuses() {
      return Map.of();
    }

    @Override
    public void putStatuses(Collection<DeviceStatus> statuses) {
      throw new UnsupportedOperationException();
    }
  }

  @BeforeEach
  void start() {
    for (SensorId sensor : List.of(A, B)) {
      readings.write(List.of(Readings.ofAir(sensor, NOW.minusSeconds(60), 30.0, null, null, null)));
    }
    Clock clock = Clock.fixed(NOW, ZoneOffset.UTC);
    Register register = new Register(new MemoryContainers());
    rollups = SqliteRollups.open(folder.resolve("ledger.db"));
    SensorDays days = new SensorDays(readings, rollups.sensorDays(), () -> Instant.EPOCH, clock);
    CalibratedReadings calibrated = new CalibratedReadings(readings, register, GAP);
    activities =
        new SensorActivities(
            readings,
            new LatestValues(register, GAP, readings.summaries()),
            new SensorBook(new NoDetails()),
            new FaultHistory(days, new NoFaults(), register, calibrated, clock),
            GAP,
            clock);
  }

  @AfterEach
  void stop() {
    activities.close();
    rollups.close();
  }

  @Test
  void aSensorWithoutANewReadingIsNotReadAgain() {
    activities.load(List.of(A), LIMIT);
    int reads = readings.reads();
    assertTrue(reads > 0);
    activities.load(List.of(A), LIMIT);
    assertEquals(reads, readings.reads());
  }

  /** A bug in the activity of one sensor must not hide all sensors. */
  @Test
  void aSensorWhoseActivityFailsDoesNotAffectOthers() {
    readings.afterNextRead(
        () -> {
          throw new IllegalStateException("a bug");
        });
    activities.load(List.of(A), LIMIT);
    assertNull(activities.json(A));
    activities.load(List.of(A, B), LIMIT);
    assertNotNull(activities.json(A));
    assertNotNull(activities.json(B));
  }
}
