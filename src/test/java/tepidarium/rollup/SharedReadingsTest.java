package tepidarium.rollup;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tepidarium.container.ContainerId;
import tepidarium.fault.SensorDay;
import tepidarium.reading.SensorId;
import tepidarium.reading.Span;
import tepidarium.rollup.sqlite.SqliteRollups;

/** Stored sums of a service that shares its readings: another one may have stored some since. */
class SharedReadingsTest {
  private static final ContainerId JAR = new ContainerId("jar");
  private static final SensorId PROBE = new SensorId("probe");
  private static final long HOUR = 3_600_000;
  private static final long DAYS = 4;

  private SqliteRollups store;

  @BeforeEach
  void open(@TempDir Path folder) {
    store = SqliteRollups.open(folder.resolve("ledger.db"));
    store.follow(7);
    for (long day = 0; day < DAYS; day++) {
      long fromMs = day * 24 * HOUR;
      Span hour = Span.ofMillis(fromMs, fromMs + HOUR);
      store.put(
          JAR,
          1,
          List.of(RollupRow.of(Map.of(), hour, Bench.settings(12, 33.0), Duration.ofMinutes(30))));
      store
          .sensorDays()
          .put(
              List.of(
                  new SensorDay(
                      PROBE, day, List.of(), 0, Double.NaN, Double.NaN, Map.of(), Map.of())));
    }
  }

  @AfterEach
  void close() {
    store.close();
  }

  private void check(Long... days) {
    List<Long> hours =
        store.read(JAR, 1, 0, DAYS * 24 * HOUR).stream()
            .map(row -> row.fromMs() / (24 * HOUR))
            .toList();
    assertEquals(List.of(days), hours);
    List<Long> searched =
        store.sensorDays().read(PROBE, 0, DAYS).stream().map(SensorDay::day).toList();
    assertEquals(List.of(days), searched);
  }

  @Test
  void aRestartKeepsThem() {
    store.follow(8);
    check(0L, 1L, 2L, 3L);
  }

  @Test
  void theyAreDroppedOnceAfterAnotherServiceWorked() {
    store.follow(9);
    check();
  }

  @Test
  void theSumsOfDeletedReadingsAreKept() {
    store.rawFromMs(2 * 24 * HOUR);
    store.follow(9);
    check(0L, 1L);
  }
}
