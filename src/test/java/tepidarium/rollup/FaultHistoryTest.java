package tepidarium.rollup;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import tepidarium.container.Band;
import tepidarium.container.Calibration;
import tepidarium.container.ContainerId;
import tepidarium.container.ContainerKind;
import tepidarium.container.ContainerSettings;
import tepidarium.container.MemoryContainers;
import tepidarium.container.Register;
import tepidarium.fault.ArrivalFault;
import tepidarium.fault.ArrivalFaultStore;
import tepidarium.fault.Exclusions;
import tepidarium.fault.Fault;
import tepidarium.fault.FaultDecision;
import tepidarium.fault.FaultKind;
import tepidarium.history.CalibratedReadings;
import tepidarium.reading.Quantity;
import tepidarium.reading.Reading;
import tepidarium.reading.Readings;
import tepidarium.reading.SensorId;
import tepidarium.reading.Span;
import tepidarium.rollup.sqlite.SqliteRollups;

/** Ten days of two sensors in one container, one reading every 10 min. */
class FaultHistoryTest {
  private static final SensorId PROBE = new SensorId("probe");
  private static final SensorId SECOND = new SensorId("second");
  private static final Instant START = Instant.parse("2026-03-01T00:00:00Z");
  private static final Instant NOW = Instant.parse("2026-03-11T12:00:00Z");
  private static final Span ALL = new Span(START, NOW);

  private final MemoryReadings readings = new MemoryReadings();
  private final Register register = new Register(new MemoryContainers());
  private final List<Fault> arrived = new ArrayList<>();
  @TempDir private Path folder;
  private SqliteRollups rollups;
  private SensorDays days;
  private SensorDaySink sink;
  private FaultHistory history;
  private ContainerId jar;
  private Instant rawFrom = Instant.EPOCH;

  @BeforeEach
  void open() {
    rollups = SqliteRollups.open(folder.resolve("ledger.db"));
    jar =
        register
            .add(
                new ContainerSettings("Jar", ContainerKind.JAR, null, 12, 33.0, Band.DEFAULT),
                START)
            .id();
    register.place(PROBE, jar, START, null);
    start();
  }

  /** Starts with what is on disk. */
  private void start() {
    Clock clock = Clock.fixed(NOW, ZoneOffset.UTC);
    days = new SensorDays(readings, rollups.sensorDays(), () -> rawFrom, clock);
    sink = new SensorDaySink(days, readings);
    ArrivalFaultStore arrivals =
        new ArrivalFaultStore() {
          @Override
          public void add(List<ArrivalFault> faults) {
            faults.forEach(fault -> arrived.add(fault.asStretch()));
          }

          @Override
          public List<Fault> of(SensorId sensor, Span span) {
            return arrived.stream().filter(fault -> fault.sensor().equals(sensor)).toList();
          }
        };
    history =
        new FaultHistory(
            days,
            arrivals,
            register,
            new CalibratedReadings(readings, register, Duration.ofMinutes(30)),
            clock);
  }

  @AfterEach
  void close() {
    rollups.close();
  }

  private static Reading reading(SensorId sensor, Instant at, double temperature) {
    return Readings.ofAir(sensor, at, temperature, null, null, null);
  }

  private void store(SensorId sensor, double driftPerDay) {
    Random random = new Random(7);
    List<Reading> batch = new ArrayList<>();
    for (Instant at = START; at.isBefore(NOW); at = at.plusSeconds(600)) {
      double drift = driftPerDay * Duration.between(START, at).toHours() / 24;
      double value = 30 + 0.1 * random.nextGaussian() + drift;
      batch.add(reading(sensor, at, Math.round(value * 100) / 100.0));
    }
    sink.write(batch);
  }

  private List<FaultKind> kinds() {
    return history.ofContainer(jar, ALL).stream().map(one -> one.fault().kind()).toList();
  }

  @Test
  void pastDaysAreReadOnceAlsoAfterARestart() {
    store(PROBE, 0);
    sink.write(List.of(reading(PROBE, START.plusSeconds(86_401), 85)));
    assertEquals(List.of(FaultKind.POWER_ON), kinds());
    int first = readings.reads();
    assertEquals(List.of(FaultKind.POWER_ON), kinds());
    int again = readings.reads() - first;
    // Yesterday and today may still change; they are read at once.
    assertEquals(1, again);
    start();
    assertEquals(List.of(FaultKind.POWER_ON), kinds());
    assertEquals(1, readings.reads() - first - again);
  }

  @Test
  void aLateReadingIsFoundInADayThatWasSearchedBefore() {
    store(PROBE, 0);
    assertEquals(List.of(), kinds());
    sink.write(List.of(reading(PROBE, START.plusSeconds(3 * 86_400 + 1), 85)));
    assertEquals(List.of(FaultKind.POWER_ON), kinds());
  }

  /** A search that ran while late readings were written must not be stored. */
  @Test
  void aSearchDuringAWriteIsNotStored() {
    store(PROBE, 0);
    Reading late = reading(PROBE, START.plusSeconds(3 * 86_400 + 1), 85);
    List<SensorId> started = days.beforeWrite(List.of(late));
    assertEquals(List.of(), kinds());
    readings.write(List.of(late));
    days.afterWrite(started);
    assertEquals(List.of(FaultKind.POWER_ON), kinds());
  }

  @Test
  void theHousekeepingSearchesAllSettledDays() {
    store(PROBE, 0);
    days.catchUp(PROBE, START, NOW);
    // The tenth day ended 12 h ago and settles after 13 h.
    assertEquals(9, storedDays());
    int reads = readings.reads();
    days.catchUp(PROBE, START, NOW);
    assertEquals(reads, readings.reads());
  }

  private int storedDays() {
    return rollups.sensorDays().read(PROBE, 0, 100_000).size();
  }

  @ParameterizedTest
  @ValueSource(booleans = {false, true})
  void theHousekeepingSearchesDaysThatALateReadingDeleted(boolean restart) {
    store(PROBE, 0);
    days.catchUp(PROBE, START, NOW);
    sink.write(List.of(reading(PROBE, START.plusSeconds(3 * 86_400 + 1), 85)));
    assertEquals(7, storedDays());
    if (restart) {
      start();
    }
    days.catchUp(PROBE, START, NOW);
    assertEquals(9, storedDays());
    assertEquals(List.of(FaultKind.POWER_ON), kinds());
  }

  /** A sensor that was silent for days needs no further search of them. */
  @Test
  void daysWithoutReadingsAreSearchedOnce() {
    sink.write(
        List.of(reading(PROBE, START, 30), reading(PROBE, START.plus(Duration.ofDays(8)), 30)));
    days.catchUp(PROBE, START, START);
    assertEquals(1, storedDays());
    days.catchUp(PROBE, START, NOW);
    assertEquals(9, storedDays());
  }

  @Test
  void theFaultsOfDeletedReadingsAreKept() {
    store(PROBE, 0);
    sink.write(List.of(reading(PROBE, START.plusSeconds(4 * 86_400 + 1), 85)));
    days.catchUp(PROBE, START, NOW);
    rawFrom = START.plus(Duration.ofHours(5 * 24));
    readings.deleteBefore(rawFrom);
    sink.write(List.of(reading(PROBE, rawFrom.plusSeconds(3_601), 30)));
    days.catchUp(PROBE, START, NOW);
    assertEquals(List.of(FaultKind.POWER_ON), kinds());
    assertEquals(9, storedDays());
  }

  @Test
  void sensorsThatDriftApartAreFoundUntilTheyAreCalibrated() {
    register.place(SECOND, jar, START.plusSeconds(1), null);
    store(PROBE, 0);
    store(SECOND, 0.3);
    assertEquals(List.of(FaultKind.DRIFT), kinds());
    Fault drift = history.ofContainer(jar, ALL).get(0).fault();
    assertEquals(PROBE, drift.other());
    // Allowed are 0.5 + 0.5 + 0.5 °C. The median of the sixth day is about 0.3 · 5.5 = 1.65 °C.
    assertEquals(START.plus(Duration.ofDays(5)), drift.from());
    assertEquals(
        1, history.ofSensor(PROBE, ALL).size(), "the other sensor of the pair shows it too");
    register.calibrate(SECOND, new Calibration(-1.5, 0, 0.5));
    assertTrue(
        history.ofContainer(jar, ALL).stream()
            .allMatch(one -> one.fault().from().isAfter(START.plus(Duration.ofDays(8)))));
  }

  /** Which of two sensors is wrong is unknown, so either can be excluded. */
  @Test
  void theOtherSensorOfAPairCanBeExcluded() {
    register.place(SECOND, jar, START.plusSeconds(1), null);
    store(PROBE, 0);
    store(SECOND, 0.3);
    Fault drift = history.ofContainer(jar, ALL).get(0).fault();
    assertEquals(List.of(), history.leftOut(jar, ALL, Quantity.TEMPERATURE));
    register.decide(
        new FaultDecision(
            PROBE, drift.quantity(), drift.kind(), drift.from(), drift.to(), true, NOW, "Ada"));
    FaultHistory.Listed listed = history.ofContainer(jar, ALL).get(0);
    assertEquals(Exclusions.State.COUNTED, listed.state());
    assertEquals(Exclusions.State.EXCLUDED, listed.otherState());
    assertEquals(
        List.of(FaultKind.DRIFT), history.leftOut(jar, ALL, Quantity.TEMPERATURE).get(0).kinds());
  }

  @Test
  void whatIsLeftOutIsSaidWithItsHours() {
    store(PROBE, 0);
    Instant code = START.plusSeconds(86_700);
    sink.write(List.of(reading(PROBE, code, 85)));
    arrived.add(ArrivalFault.ofValue(PROBE, Quantity.TEMPERATURE, code, -127).asStretch());
    List<LeftOut> leftOut = history.leftOut(jar, ALL, Quantity.TEMPERATURE, Quantity.LIGHT);
    // The code lies between readings 10 min apart.
    assertEquals(
        List.of(
            new LeftOut(
                Quantity.TEMPERATURE,
                1 / 6.0,
                2,
                List.of(FaultKind.POWER_ON, FaultKind.NOT_CONNECTED))),
        leftOut);
    register.decide(
        new FaultDecision(
            PROBE, Quantity.TEMPERATURE, FaultKind.POWER_ON, code, code, false, NOW, "Ada"));
    assertEquals(
        List.of(new LeftOut(Quantity.TEMPERATURE, 0, 1, List.of(FaultKind.NOT_CONNECTED))),
        history.leftOut(jar, ALL, Quantity.TEMPERATURE));
    assertEquals(
        List.of(Exclusions.State.COUNTED, Exclusions.State.EXCLUDED),
        history.ofSensor(PROBE, ALL).stream().map(FaultHistory.Listed::state).sorted().toList());
  }

  @Test
  void aStretchCanBeExcludedInPart() {
    store(PROBE, 0);
    Instant code = START.plusSeconds(86_700);
    sink.write(List.of(reading(PROBE, code, 85), reading(PROBE, code.plusSeconds(950), 85)));
    register.decide(
        new FaultDecision(
            PROBE, Quantity.TEMPERATURE, FaultKind.POWER_ON, code, code, false, NOW, "Ada"));
    FaultHistory.Listed fault = history.ofContainer(jar, ALL).get(0);
    assertEquals(Exclusions.State.PARTLY_EXCLUDED, fault.state());
    assertEquals("Ada", fault.decision().by());
  }
}
