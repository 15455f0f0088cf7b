package tepidarium.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.logging.Handler;
import java.util.logging.Level;
import java.util.logging.LogRecord;
import java.util.logging.Logger;
import java.util.logging.SimpleFormatter;
import java.util.stream.IntStream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tepidarium.container.MemoryContainers;
import tepidarium.container.Register;
import tepidarium.history.CalibratedReadings;
import tepidarium.live.LatestValues;
import tepidarium.reading.Quantity;
import tepidarium.reading.Readings;
import tepidarium.reading.Samples;
import tepidarium.reading.SensorId;
import tepidarium.reading.Span;
import tepidarium.records.ClockRecords;
import tepidarium.records.Database;
import tepidarium.records.sqlite.SqliteRecords;
import tepidarium.rollup.HourlyRollups;
import tepidarium.rollup.SensorDays;
import tepidarium.rollup.sqlite.SqliteRollups;
import tepidarium.series.sqlite.SqliteReadings;

/** Old raw readings are deleted, but not by a clock that is wrong. */
class HousekeepingTest {
  private static final Instant NOW = Instant.parse("2026-03-01T06:00:00Z");
  private static final Duration GAP = Duration.ofMinutes(30);
  private static final SensorId SENSOR = new SensorId("jar");
  private static final int HOURS = 40 * 24;
  private static final int KEPT_DAYS = 30;

  /** Time that the test moves, as a machine's two clocks show it. */
  private static final class Time extends Clock {
    private Instant now = NOW;
    private long nanos;

    void pass(Duration time) {
      now = now.plus(time);
      nanos += time.toNanos();
    }

    @Override
    public Instant instant() {
      return now;
    }

    @Override
    public ZoneId getZone() {
      return ZoneOffset.UTC;
    }

    @Override
    public Clock withZone(ZoneId zone) {
      throw new UnsupportedOperationException();
    }
  }

  private final Time time = new Time();
  @TempDir private Path folder;
  private SqliteReadings readings;
  private SqliteRollups hours;
  private Database records;
  private ClockTrust trust;
  private Housekeeping housekeeping;

  @BeforeEach
  void storeFortyDays() {
    readings = SqliteReadings.open(folder.resolve("readings.db"));
    readings.write(
        IntStream.range(0, HOURS)
            .mapToObj(i -> Readings.ofAir(SENSOR, hoursAgo(HOURS - i), 30.0, null, null, null))
            .toList());
    hours = SqliteRollups.open(folder.resolve("ledger.db"));
    records = SqliteRecords.open(folder.resolve("records.db"));
  }

  private void start() {
    Register register = new Register(new MemoryContainers());
    LatestValues latestValues = new LatestValues(register, GAP, readings.summaries());
    ClockRecords clockRecords = new ClockRecords(records);
    trust = new ClockTrust(clockRecords.lastSeen().orElse(hoursAgo(1)));
    HourlyRollups rollups =
        new HourlyRollups(new CalibratedReadings(readings, register, GAP), register, hours, time);
    housekeeping =
        new Housekeeping(
            new Housekeeping.Dependencies(
                rollups,
                new SensorDays(readings, hours.sensorDays(), rollups::rawFrom, time),
                readings,
                latestValues,
                trust,
                clockRecords),
            new Retention(Duration.ofDays(KEPT_DAYS), GAP, time.nanos),
            time,
            () -> time.nanos);
  }

  @AfterEach
  void stop() {
    housekeeping.close();
    readings.close();
    hours.close();
    records.close();
  }

  private static Instant hoursAgo(int hours) {
    return NOW.minus(Duration.ofHours(hours));
  }

  private int kept() {
    Span all = new Span(hoursAgo(HOURS + 1), NOW);
    Map<Quantity, Samples> read = readings.read(SENSOR, all);
    return read.getOrDefault(Quantity.TEMPERATURE, Samples.EMPTY).size();
  }

  private void passHours(int hours) {
    for (int i = 0; i < 6 * hours; i++) {
      time.pass(Duration.ofMinutes(10));
      housekeeping.run();
    }
  }

  private String description() {
    return String.valueOf(housekeeping.health().get("retention").detail());
  }

  @Test
  void aRightClockDeletesADaysWorthAnHourAfterTheFirstHour() {
    start();
    housekeeping.run();
    time.pass(Duration.ofMinutes(50));
    housekeeping.run();
    assertEquals(HOURS, kept());
    assertTrue(
        description().startsWith("next at 2026-03-01T07:00:00Z: deletes raw readings" + " from"),
        description());

    passHours(1);
    int afterOne = kept();
    assertTrue(afterOne < HOURS && afterOne >= HOURS - 24, afterOne + " kept");
    passHours(1);
    assertTrue(kept() < afterOne && kept() >= afterOne - 24, kept() + " kept");
    passHours(14);
    int left = kept();
    assertTrue(left >= KEPT_DAYS * 24 - 1 && left <= KEPT_DAYS * 24 + 2, left + " kept");
    assertTrue(
        description().startsWith("nothing to delete: the oldest raw reading is" + " of"),
        description());
  }

  /** The stop interrupts its thread, so a store does not answer it any more. */
  @Test
  void onlyAFailureBeforeTheStopIsAWarning() {
    List<String> warnings = new ArrayList<>();
    Handler handler =
        new Handler() {
          @Override
          public void publish(LogRecord entry) {
            if (entry.getLevel().intValue() >= Level.WARNING.intValue()) {
              warnings.add(new SimpleFormatter().formatMessage(entry));
            }
          }

          @Override
          public void flush() {}

          @Override
          public void close() {}
        };
    Logger log = Logger.getLogger(Housekeeping.class.getName());
    log.addHandler(handler);
    try {
      start();
      runInterrupted();
      assertEquals(1, warnings.size(), warnings.toString());
      housekeeping.close();
      runInterrupted();
      assertEquals(1, warnings.size(), warnings.toString());
    } finally {
      log.removeHandler(handler);
    }
  }

  private void runInterrupted() {
    Thread.currentThread().interrupt();
    housekeeping.run();
    assertTrue(Thread.interrupted());
  }

  @Test
  void aClockFarAheadAtTheStartDeletesNothingUntilAReadingAgrees() {
    time.now = NOW.plus(Duration.ofDays(400));
    start();
    passHours(48);
    assertEquals(HOURS, kept());
    assertTrue(
        description().startsWith("paused while the clock of this machine is in doubt"),
        description());
    String problem = String.valueOf(trust.problem());
    assertTrue(problem.contains("402.0 days ahead of the last known time, 2026-03-01T05"), problem);

    trust.confirmBy(List.of(Readings.ofAir(SENSOR, time.now, 30.0, null, null, null)), time.now);
    passHours(2);
    // The newest reading is 400 days old, so only what is older than that by 30 days is deleted.
    assertTrue(kept() >= HOURS - 48 && kept() < HOURS, kept() + " kept");
  }

  @Test
  void aJumpOfTheClockWhileRunningDeletesNothing() {
    start();
    time.now = NOW.plus(Duration.ofDays(400));
    passHours(10);
    assertEquals(HOURS, kept());
    time.now = NOW.plus(Duration.ofHours(10));
    housekeeping.run();
    time.pass(Duration.ofMinutes(50));
    housekeeping.run();
    assertEquals(HOURS, kept(), "within an hour of the jump");
    passHours(1);
    assertTrue(kept() < HOURS);
  }

  @Test
  void aSmallStepAheadCountsAsAJump() {
    start();
    time.pass(Duration.ofMinutes(50));
    housekeeping.run();
    time.now = time.now.plus(Duration.ofHours(5));
    time.pass(Duration.ofMinutes(20));
    housekeeping.run();
    assertEquals(HOURS, kept());
  }

  @Test
  void theLastKnownTimeSurvivesARestartAndIgnoresAClockInDoubt() {
    start();
    passHours(1);
    housekeeping.close();
    time.now = NOW.minus(Duration.ofDays(3));
    start();
    housekeeping.run();
    String problem = String.valueOf(trust.problem());
    assertTrue(problem.contains("3.0 days behind the last known time, 2026-03-01T07"), problem);
    housekeeping.close();
    start();
    housekeeping.run();
    assertEquals(problem, trust.problem());
    time.now = NOW.plus(Duration.ofHours(2));
    housekeeping.run();
    assertEquals(null, trust.problem());
  }
}
