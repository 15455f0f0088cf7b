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

class SelfWatchTest {
  private static final Instant START = Instant.parse("2026-03-04T08:00:00Z");
  private static final long PLENTY = 10_000L << 20;

  private final List<Trouble> told = new ArrayList<>();
  private SelfWatch watch;
  private String notTakenIn;

  @BeforeEach
  void begin() {
    watch = watch(List.of());
  }

  private SelfWatch watch(List<Trouble> before) {
    return new SelfWatch(
        new SelfWatch.Limits(Duration.ofMinutes(10), 500L << 20), before, told::add);
  }

  private @Nullable String clockProblem;

  private void measure(int minute, boolean broker, long free) {
    measure(minute, minute, broker, free);
  }

  private void measure(int minute, int monotonicMinute, boolean broker, long free) {
    watch.take(
        new SelfWatch.Measured(
            START.plus(Duration.ofMinutes(minute)),
            Duration.ofMinutes(monotonicMinute).toNanos(),
            broker,
            free,
            notTakenIn,
            clockProblem));
  }

  private List<String> said() {
    return told.stream().map(t -> t.kind().key() + (t.active() ? "" : " over")).toList();
  }

  @Test
  void aBrokerAwayForLongIsSaidOnceAndWhenItIsBack() {
    measure(0, false, PLENTY);
    measure(9, false, PLENTY);
    assertEquals(List.of(), said());
    measure(10, false, PLENTY);
    measure(20, false, PLENTY);
    assertEquals(List.of("broker"), said());
    assertEquals(START, told.get(0).since());
    measure(21, true, PLENTY);
    measure(22, true, PLENTY);
    assertEquals(List.of("broker", "broker over"), said());
  }

  @Test
  void afterARestartWhatLastsIsNotSaidAgain() {
    watch = watch(List.of(new Trouble(Trouble.Kind.BROKER, START, null, "away")));
    measure(0, false, PLENTY);
    measure(30, false, PLENTY);
    assertEquals(List.of(), said());
    measure(31, true, PLENTY);
    assertEquals(List.of("broker over"), said());
  }

  @Test
  void readingsThatAreNotTakenInAreSaidAtOnceAndWhenTheyAreAgain() {
    notTakenIn = "messages wait in the broker, but none has arrived for 30 s";
    measure(0, true, PLENTY);
    measure(1, true, PLENTY);
    assertEquals(List.of("intake"), said());
    assertEquals(
        "Readings are not taken in: messages wait in the broker, but none has arrived for 30 s.",
        told.get(0).detail());
    notTakenIn = null;
    measure(2, true, PLENTY);
    measure(3, true, PLENTY);
    assertEquals(List.of("intake", "intake over"), said());
  }

  @Test
  void aDiskAtTheLimitDoesNotChatter() {
    measure(0, true, 499L << 20);
    measure(1, true, 510L << 20);
    measure(2, true, 499L << 20);
    assertEquals(List.of("disk"), said());
    measure(3, true, 600L << 20);
    assertEquals(List.of("disk", "disk over"), said());
  }

  @Test
  void aClockThatJumpsIsNoticedWhicheverWay() {
    measure(0, 0, true, PLENTY);
    measure(1, 1, true, PLENTY);
    assertEquals(List.of(), said());
    measure(5, 2, true, PLENTY);
    measure(4, 3, true, PLENTY);
    assertEquals(List.of("clock over", "clock over"), said());
  }

  @Test
  void aClockInDoubtIsSaidOnceAndWhenItIsTrustedAgain() {
    clockProblem = "The clock says 2027.";
    measure(0, true, PLENTY);
    measure(1, true, PLENTY);
    assertEquals(List.of("date"), said());
    assertEquals("The clock says 2027.", told.get(0).detail());
    clockProblem = null;
    measure(2, true, PLENTY);
    measure(3, true, PLENTY);
    assertEquals(List.of("date", "date over"), said());
  }
}
