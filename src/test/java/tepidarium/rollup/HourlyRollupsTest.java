package tepidarium.rollup;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import tepidarium.heat.HeatRule;
import tepidarium.reading.Reading;
import tepidarium.reading.Readings;
import tepidarium.reading.Span;

class HourlyRollupsTest {
  private static final HeatRule RULE = new HeatRule(12, 33.0);
  private final Bench bench = new Bench(Bench.START.plus(Duration.ofDays(40)));

  private void steady(int hours, double temperature) {
    for (int minute = 0; minute <= hours * 60; minute += 10) {
      bench.store(Bench.reading(minute * 60L, temperature, 95, 0));
    }
  }

  private Span hours(int from, int to) {
    return new Span(
        Bench.START.plus(Duration.ofHours(from)), Bench.START.plus(Duration.ofHours(to)));
  }

  @Test
  void settledHoursAreReadOnceFromTheReadingsAndThenFromTheStore() {
    steady(48, 30);
    bench.rollups.catchUp();
    int before = bench.readings.reads();
    double told = bench.history.heat(bench.container(), hours(0, 48), RULE).degreeHours();
    assertEquals(18 * 48, told, 1e-9);
    assertTrue(bench.readings.reads() - before <= 2, "only the two ends are read");
  }

  @Test
  void hoursThatMayStillChangeAreNotStored() {
    Bench young = new Bench(Bench.START.plus(Duration.ofHours(2)));
    young.store(Bench.reading(0, 30, 95, 0), Bench.reading(1_200, 30, 95, 0));
    young.rollups.catchUp();
    assertEquals(0, young.hours.size());
  }

  @Test
  void aWriteThatFailsLeavesTheRollupsUsable() {
    steady(5, 30);
    bench.rollups.catchUp();
    int kept = bench.hours.size();
    bench.rollups.afterWrite(
        bench.rollups.beforeWrite(java.util.List.of(Bench.reading(5_000, 1, 1, 1))));
    assertTrue(bench.hours.size() < kept, "the hours around it are invalidated");
    bench.rollups.catchUp();
    assertEquals(kept, bench.hours.size());
  }

  @Test
  void noHoursAreStoredDuringAWrite() {
    steady(5, 30);
    var touched = bench.rollups.beforeWrite(java.util.List.of(Bench.reading(5_000, 1, 1, 1)));
    bench.rollups.catchUp();
    assertEquals(0, bench.hours.size());
    bench.rollups.afterWrite(touched);
    bench.rollups.catchUp();
    assertTrue(bench.hours.size() > 0);
  }

  @Test
  void aDayHasTwentyThreeHoursWhenTheClocksGoForward() {
    Bench march = new Bench(Bench.START.plus(Duration.ofDays(40)));
    for (int hour = 0; hour <= 31 * 24; hour++) {
      for (int minute = 0; minute < 60; minute += 20) {
        march.store(Bench.reading(hour * 3_600L + minute * 60L, 30, 95, 0));
      }
    }
    var days =
        march.history.heatByDay(
            march.container(), hours(1, 31 * 24), RULE, ZoneId.of("Europe/Berlin"));
    assertEquals(23 * 18, days.get(java.time.LocalDate.of(2026, 3, 29)).degreeHours(), 1e-9);
    assertEquals(24 * 18, days.get(java.time.LocalDate.of(2026, 3, 28)).degreeHours(), 1e-9);
    var elsewhere =
        march.history.heatByDay(
            march.container(), hours(1, 31 * 24), RULE, ZoneId.of("Asia/Kolkata"));
    assertEquals(24 * 18, elsewhere.get(java.time.LocalDate.of(2026, 3, 28)).degreeHours(), 1e-9);
  }

  @Test
  void heatStaysWhenRawReadingsAreDeleted() {
    steady(48, 30);
    Span whole = hours(1, 48);
    double before = bench.history.heat(bench.container(), whole, RULE).degreeHours();
    bench.readings.deleteBefore(
        bench.rollups.prepareDeletionBefore(Bench.START.plus(Duration.ofHours(30))));
    assertEquals(
        before, bench.history.heat(bench.container(), whole, RULE).degreeHours(), 18 * 0.75);
    // The part of an hour at the start has gone; whole hours have not.
    Span wholeHours = new Span(Bench.START.plusSeconds(43 * 60), hours(0, 48).to());
    assertEquals(
        18 * (48 - 43 / 60.0),
        bench.history.heat(bench.container(), wholeHours, RULE).degreeHours(),
        1e-9);
    Instant now = Bench.START.plus(Duration.ofDays(2));
    assertEquals(
        Bench.START.plusSeconds(43 * 60),
        bench.history.extent(bench.container().id(), now).orElseThrow().from());
  }

  @Test
  void aNewBaseDoesNotRestoreDeletedReadings() {
    steady(48, 30);
    bench.readings.deleteBefore(
        bench.rollups.prepareDeletionBefore(Bench.START.plus(Duration.ofHours(30))));
    bench.register.change(bench.container().id(), Bench.settings(20, null));
    Span old = new Span(Bench.START.plusSeconds(43 * 60), hours(0, 20).to().minusSeconds(17 * 60));
    HeatRule now = new HeatRule(20, null);
    assertEquals(
        18 * old.length().toMinutes() / 60.0,
        bench.history.heat(bench.container(), old, now).degreeHours(),
        1e-9,
        "hours without readings keep the base they were worked out with");
  }

  @Test
  void aReadingOlderThanTheDeletedOnesIsRefusedWithAReason() {
    steady(48, 30);
    Instant kept = bench.rollups.prepareDeletionBefore(Bench.START.plus(Duration.ofHours(30)));
    bench.readings.deleteBefore(kept);
    var result =
        bench.sink.write(
            java.util.List.of(
                Bench.reading(61, 25, 90, 0), Bench.reading(48 * 3_600 + 60, 25, 90, 0)));
    assertEquals(1, result.stored());
    assertEquals(1, result.refused().size());
    assertTrue(result.refused().get(0).reason().contains("keepRawDays"));
  }

  @Test
  void aLateReadingAfterTheDeletedOnesLeavesTheHourBeforeUnchanged() {
    steady(48, 30);
    bench.readings.deleteBefore(
        bench.rollups.prepareDeletionBefore(Bench.START.plus(Duration.ofHours(30))));
    Instant kept = bench.rollups.rawFrom();
    Span before = new Span(kept.minus(Duration.ofHours(3)), kept);
    bench.store(
        Readings.ofAir(Bench.SENSOR, kept.plus(Duration.ofMinutes(5)), 30.0, 95.0, 0.0, null));

    bench.rollups.catchUp();

    assertEquals(18 * 3, bench.history.heat(bench.container(), before, RULE).degreeHours(), 1e-9);
  }

  @Test
  void hoursWithoutAStoredRollupAreNotDeleted() {
    steady(48, 30);
    var touched = bench.rollups.beforeWrite(List.of(Bench.reading(5_000, 1, 1, 1)));

    Instant most = bench.rollups.prepareDeletionBefore(Bench.START.plus(Duration.ofHours(30)));

    assertTrue(!most.isAfter(Bench.START.plusSeconds(43 * 60)), "let go before " + most);
    bench.rollups.afterWrite(touched);
    bench.rollups.prepareDeletionBefore(Bench.START.plus(Duration.ofHours(30)));
    assertEquals(
        Bench.START.plus(Duration.ofHours(30)).minusSeconds(17 * 60), bench.rollups.rawFrom());
  }

  @Test
  void theFirstHourAfterTheDeletedOnesIsRecalculatedAsAWhole() {
    steady(48, 30);
    bench.readings.deleteBefore(
        bench.rollups.prepareDeletionBefore(Bench.START.plus(Duration.ofHours(30))));
    bench.register.change(bench.container().id(), Bench.settings(20, null));
    Instant kept = bench.rollups.rawFrom();

    Span hour = new Span(kept, kept.plus(Duration.ofHours(1)));

    assertEquals(
        10,
        bench.history.heat(bench.container(), hour, new HeatRule(20, null)).degreeHours(),
        1e-9);
  }

  @Test
  void newReadingsInvalidateHoursStoredBeforeTheClockWasSetBack() {
    steady(24, 30);
    bench.rollups.catchUp();
    Clock earlier = Clock.fixed(Bench.START.plus(Duration.ofHours(10)), ZoneOffset.UTC);
    HourlyRollups later = new HourlyRollups(bench.calibrated, bench.register, bench.hours, earlier);
    int kept = bench.hours.size();

    later.afterWrite(later.beforeWrite(List.of(Bench.reading(12 * 3_600L, 1, 1, 1))));

    assertTrue(bench.hours.size() < kept, "the hours around it are invalidated");
  }

  /** A result computed between the announcement and the write of a batch must not be stored. */
  @Test
  void resultsReadDuringAWriteAreNotCached() {
    Bench bench = new Bench(Bench.START.plusSeconds(10 * 86_400));
    List<Reading> batch = new ArrayList<>();
    for (int minute = 0; minute <= 600; minute += 10) {
      batch.add(Bench.reading(60L * minute, 30, 90, 0));
    }
    var touched = bench.rollups.beforeWrite(batch);
    bench.readings.afterNextRead(
        () -> {
          bench.readings.write(batch);
          bench.rollups.afterWrite(touched);
        });
    Span hours =
        new Span(Instant.parse("2026-03-01T01:00:00Z"), Instant.parse("2026-03-01T09:00:00Z"));
    HeatRule own = HeatRule.of(bench.container().settings());
    assertEquals(0, bench.history.heat(bench.container(), hours, own).coveredMs());
    assertEquals(8 * 18, bench.history.heat(bench.container(), hours, own).degreeHours(), 1e-9);
  }
}
