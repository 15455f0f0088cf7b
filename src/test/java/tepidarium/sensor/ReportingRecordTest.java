package tepidarium.sensor;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Duration;
import java.time.Instant;
import java.util.stream.LongStream;
import org.junit.jupiter.api.Test;

class ReportingRecordTest {
  private static final Instant NOW = Instant.parse("2026-03-20T12:00:00Z");
  private static final Duration MAX_GAP = Duration.ofMinutes(30);
  private static final Instant LONG_AGO = NOW.minus(Duration.ofDays(90));

  /** A reading every {@code step} minutes, from so many minutes ago to so many minutes ago. */
  private static LongStream readings(int from, int to, int step) {
    return LongStream.iterate(from, ago -> ago >= to, ago -> ago - step)
        .map(ago -> NOW.minus(Duration.ofMinutes(ago)).toEpochMilli());
  }

  private static ReportingRecord record(Instant first, LongStream... parts) {
    long[] all = LongStream.empty().toArray();
    for (LongStream part : parts) {
      all = LongStream.concat(LongStream.of(all), part).toArray();
    }
    return ReportingRecord.of(all, first, NOW, MAX_GAP);
  }

  private static ReportingRecord.Gaps gaps(int count, int minutes) {
    return new ReportingRecord.Gaps(count, Duration.ofMinutes(minutes));
  }

  @Test
  void theUsualIntervalIsTheMedianOfTheNewestIntervals() {
    ReportingRecord changed = record(LONG_AGO, readings(10_000, 300, 60), readings(290, 0, 1));
    assertEquals(Duration.ofMinutes(1), changed.usualInterval());
    // 4, 4, 4, 30: one lost message does not change it.
    assertEquals(
        Duration.ofMinutes(4),
        record(LONG_AGO, readings(42, 30, 4), LongStream.of(NOW.toEpochMilli())).usualInterval());
    assertNull(record(LONG_AGO, readings(2, 0, 1)).usualInterval());
    assertNull(record(LONG_AGO).usualInterval());
  }

  /** A value in each of three messages within a second, or an hour's readings in one batch. */
  @Test
  void readingsOfOneMomentCountAsOne() {
    for (int count : new int[] {3, 60}) {
      LongStream bursts =
          readings(600, 0, 60).flatMap(at -> LongStream.range(0, count).map(i -> at + i * 180));
      assertEquals(Duration.ofHours(1), record(LONG_AGO, bursts).usualInterval());
    }
  }

  @Test
  void aSensorThatReportsMoreOftenThanEveryMinuteHasItsOwnInterval() {
    LongStream every45s = LongStream.range(0, 200).map(i -> NOW.toEpochMilli() + i * 45_000);
    assertEquals(Duration.ofSeconds(45), record(LONG_AGO, every45s).usualInterval());
    LongStream twice = LongStream.of(NOW.toEpochMilli(), NOW.toEpochMilli() + 3_600_000);
    LongStream bursts = twice.flatMap(at -> LongStream.range(0, 60).map(i -> at + i * 180));
    assertNull(record(LONG_AGO, bursts).usualInterval());
  }

  @Test
  void gapsAreCountedAndCutAtTheStartOfTheirSpan() {
    int day = 24 * 60;
    ReportingRecord record =
        record(
            LONG_AGO,
            readings(7 * day + 20, 3 * day, 5),
            readings(3 * day - 120, day + 60, 5),
            readings(day - 40, 0, 5));
    assertEquals(gaps(1, 40), record.lastDay());
    assertEquals(gaps(2, 120 + 100), record.lastWeek());
  }

  @Test
  void aReadingJustBeforeTheSpanMeansNoGapAtItsStart() {
    int day = 24 * 60;
    assertEquals(gaps(0, 0), record(LONG_AGO, readings(day + 15, 0, 30)).lastDay());
    assertEquals(gaps(1, 24 * 60), record(LONG_AGO, readings(4 * day, 2 * day, 5)).lastDay());
    assertEquals(gaps(1, 24 * 60), record(LONG_AGO).lastDay());
  }

  @Test
  void theTimeSinceTheLastReadingIsAGapAndTheTimeBeforeTheFirstIsNone() {
    Instant first = NOW.minus(Duration.ofMinutes(100));
    ReportingRecord record = record(first, readings(100, 40, 5));
    assertEquals(gaps(1, 40), record.lastDay());
    assertEquals(gaps(1, 40), record.lastWeek());
    assertEquals(gaps(0, 0), ReportingRecord.of(new long[0], NOW, NOW, MAX_GAP).lastDay());
  }

  @Test
  void aSensorIsLateAfterThreeUsualIntervals() {
    ReportingRecord every10 = record(LONG_AGO, readings(100, 0, 10));
    assertEquals(Duration.ZERO, every10.lateness(NOW, NOW.plusSeconds(599)));
    assertEquals(Duration.ofMinutes(15), every10.lateness(NOW, NOW.plusSeconds(1_500)));
    assertFalse(every10.late(NOW, NOW.plusSeconds(1_800)));
    assertTrue(every10.late(NOW, NOW.plusSeconds(1_801)));

    ReportingRecord everyMinute = record(LONG_AGO, readings(100, 0, 1));
    assertFalse(everyMinute.late(NOW, NOW.plusSeconds(300)));
    assertTrue(everyMinute.late(NOW, NOW.plusSeconds(301)));
  }

  /** Two readings of a new sensor that reports every ten minutes do not tell its interval yet. */
  @Test
  void aSensorIsNotLateBeforeItsUsualIntervalIsKnown() {
    ReportingRecord twice = record(NOW.minusSeconds(600), readings(10, 0, 10));
    assertNull(twice.lateness(NOW, NOW.plusSeconds(9_999)));
    assertFalse(twice.late(NOW, NOW.plusSeconds(9_999)));
  }
}
