package tepidarium.rollup;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Duration;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tepidarium.container.ContainerId;
import tepidarium.heat.HeatRule;
import tepidarium.reading.Quantity;
import tepidarium.reading.Samples;
import tepidarium.reading.Span;
import tepidarium.rollup.sqlite.SqliteRollups;

/** Two hours at 30 °C, one reading every 10 min; the reading at 90 min does not count. */
class StoredLeftOutTest {
  private static final ContainerId JAR = new ContainerId("jar");
  private static final long HOUR = 3_600_000;

  @TempDir Path folder;

  private static RollupRow row(long fromMs) {
    Samples.Builder raw = new Samples.Builder(13);
    for (int i = 0; i <= 12; i++) {
      raw.add(i * HOUR / 6, 30);
    }
    Samples counted = raw.build().without((atMs, value) -> atMs == 3 * HOUR / 2);
    return RollupRow.of(
        Map.of(Quantity.TEMPERATURE, counted),
        Span.ofMillis(fromMs, fromMs + HOUR),
        Bench.settings(12, 33.0),
        Duration.ofMinutes(30));
  }

  private SqliteRollups open() {
    return SqliteRollups.open(folder.resolve("ledger.db"));
  }

  @Test
  void aStoredHourKeepsTheTimeLeftOut() {
    try (SqliteRollups store = open()) {
      store.put(JAR, 1, List.of(row(0), row(HOUR)));
      List<RollupRow> rows = store.read(JAR, 1, 0, 2 * HOUR);
      assertEquals(0, rows.get(0).heat().leftOutMs());
      assertEquals(HOUR / 3, rows.get(1).heat().leftOutMs());
      assertEquals(HOUR / 3, rows.get(1).histogram().heat(new HeatRule(15, null)).leftOutMs());
    }
  }

  /** An hour without a gap has nothing left out, so it need not be calculated again. */
  @Test
  void anUpgradeDropsOnlyHoursWithAGap() throws SQLException {
    try (SqliteRollups store = open()) {
      store.put(JAR, 1, List.of(row(0), row(HOUR)));
    }
    try (Connection file =
            DriverManager.getConnection("jdbc:sqlite:" + folder.resolve("ledger.db"));
        Statement statement = file.createStatement()) {
      statement.execute("ALTER TABLE hour DROP COLUMN left_out_ms");
      statement.execute("DROP TABLE records_epoch");
      statement.execute("DELETE FROM flyway_schema_history WHERE version IN ('6', '7')");
    }
    try (SqliteRollups store = open()) {
      List<RollupRow> rows = store.read(JAR, 1, 0, 2 * HOUR);
      assertEquals(List.of(0L), rows.stream().map(RollupRow::fromMs).toList());
      assertEquals(0, rows.get(0).heat().leftOutMs());
    }
  }
}
