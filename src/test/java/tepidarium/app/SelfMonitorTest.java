package tepidarium.app;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import tepidarium.alert.notify.Trouble;

class SelfMonitorTest {
  private static final Instant START = Instant.parse("2026-03-04T08:00:00Z");
  private static final long PLENTY = 10_000L << 20;

  private final List<Trouble> reported = new ArrayList<>();
  private SelfMonitor monitor;
  private String intakeProblem;

  @BeforeEach
  void begin() {
    monitor = monitor(List.of());
  }

  private SelfMonitor monitor(List<Trouble> before) {
    return new SelfMonitor(
        new SelfMonitor.Limits(Duration.ofMinutes(10), 500L << 20), before, reported::add);
  }

  private @Nullable String clockProblem;
  private @Nullable String backupProblem;

  private void measure(int minute, boolean broker, long free) {
    measure(minute, minute, broker, free);
  }

  private void measure(int minute, int monotonicMinute, boolean broker, long free) {
    monitor.check(
        new SelfMonitor.Measurement(
            START.plus(Duration.ofMinutes(minute)),
            Duration.ofMinutes(monotonicMinute).toNanos(),
            broker,
            free,
            intakeProblem,
            clockProblem,
            backupProblem));
  }

  private List<String> reports() {
    return reported.stream().map(t -> t.kind().key() + (t.active() ? "" : " over")).toList();
  }

  @Test
  void aLongBrokerOutageAndItsEndAreReportedOnce() {
    measure(0, false, PLENTY);
    measure(9, false, PLENTY);
    assertEquals(List.of(), reports());
    measure(10, false, PLENTY);
    measure(20, false, PLENTY);
    assertEquals(List.of("broker"), reports());
    assertEquals(START, reported.get(0).since());
    measure(21, true, PLENTY);
    measure(22, true, PLENTY);
    assertEquals(List.of("broker", "broker over"), reports());
  }

  @Test
  void activeTroubleIsNotReportedAgainAfterARestart() {
    monitor = monitor(List.of(new Trouble(Trouble.Kind.BROKER, START, null, "away")));
    measure(0, false, PLENTY);
    measure(30, false, PLENTY);
    assertEquals(List.of(), reports());
    measure(31, true, PLENTY);
    assertEquals(List.of("broker over"), reports());
  }

  @Test
  void readingsThatAreNotStoredAreReportedAtOnceAndWhenTheyAreStoredAgain() {
    intakeProblem = "messages wait in the broker, but none has arrived for 30 s";
    measure(0, true, PLENTY);
    measure(1, true, PLENTY);
    assertEquals(List.of("intake"), reports());
    assertEquals(
        "Readings are not stored: messages wait in the broker, but none has arrived for 30 s.",
        reported.get(0).detail());
    intakeProblem = null;
    measure(2, true, PLENTY);
    measure(3, true, PLENTY);
    assertEquals(List.of("intake", "intake over"), reports());
  }

  @Test
  void freeSpaceNearTheLimitIsReportedOnce() {
    measure(0, true, 499L << 20);
    measure(1, true, 510L << 20);
    measure(2, true, 499L << 20);
    assertEquals(List.of("disk"), reports());
    measure(3, true, 600L << 20);
    assertEquals(List.of("disk", "disk over"), reports());
  }

  @Test
  void clockJumpsInBothDirectionsAreReported() {
    measure(0, 0, true, PLENTY);
    measure(1, 1, true, PLENTY);
    assertEquals(List.of(), reports());
    measure(5, 2, true, PLENTY);
    measure(4, 3, true, PLENTY);
    assertEquals(List.of("clock over", "clock over"), reports());
  }

  @Test
  void aFailedBackupAndTheNextGoodOneAreReportedOnce() {
    backupProblem = "there is no folder /mnt/stick. Create it, or mount its disk";
    measure(0, true, PLENTY);
    measure(1, true, PLENTY);
    assertEquals(List.of("backup"), reports());
    assertEquals(
        "The automatic backup failed: there is no folder /mnt/stick. Create it, or mount its disk.",
        reported.get(0).detail());
    backupProblem = null;
    measure(2, true, PLENTY);
    assertEquals(List.of("backup", "backup over"), reports());
  }

  @Test
  void aClockInDoubtAndItsEndAreReportedOnce() {
    clockProblem = "The clock says 2027.";
    measure(0, true, PLENTY);
    measure(1, true, PLENTY);
    assertEquals(List.of("date"), reports());
    assertEquals("The clock says 2027.", reported.get(0).detail());
    clockProblem = null;
    measure(2, true, PLENTY);
    measure(3, true, PLENTY);
    assertEquals(List.of("date", "date over"), reports());
  }
}
