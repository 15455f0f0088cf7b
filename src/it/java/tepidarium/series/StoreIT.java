package tepidarium.series;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tepidarium.reading.Reading;
import tepidarium.reading.SensorId;
import tepidarium.reading.Span;
import tepidarium.series.sqlite.SqliteReadings;

/** Runs the store contract against a real SQLite file. */
class StoreIT extends SeriesContract<SqliteReadings> {
  private final Path file;

  StoreIT(@TempDir Path folder) {
    file = folder.resolve("readings.db");
  }

  @Override
  SqliteReadings open() {
    return SqliteReadings.open(file);
  }

  @Override
  void close(SqliteReadings opened) {
    opened.close();
  }

  @Test
  void aLockedFileTakesNothingAndTakesEverythingOnceItIsFree() throws SQLException {
    List<Reading> batch =
        new ArrayList<>(IntStream.range(0, 100).mapToObj(i -> warm(i, 30)).toList());
    SensorId newcomer = new SensorId("newcomer");
    batch.add(warm(newcomer, 0, 20));
    try (Connection other = DriverManager.getConnection("jdbc:sqlite:" + file);
        Statement statement = other.createStatement()) {
      statement.execute("BEGIN EXCLUSIVE");
      assertThrows(StoreException.class, () -> store().write(batch));
      assertEquals(Map.of(), store().summaries());
    }

    assertEquals(new WriteResult(101, 0), store().write(batch));
    assertEquals(new WriteResult(0, 101), store().write(batch));
    assertEquals(Map.of(second(0), 20.0), temperatures(newcomer, new Span(second(0), second(1))));
  }

  @Test
  void noLockIsHeldBetweenWrites() throws SQLException {
    store().write(List.of(warm(0, 30)));
    try (Connection other = DriverManager.getConnection("jdbc:sqlite:" + file);
        Statement statement = other.createStatement()) {
      statement.execute("PRAGMA busy_timeout = 0");
      statement.execute("BEGIN EXCLUSIVE");
      statement.execute("ROLLBACK");
    }
    assertEquals(new WriteResult(1, 0), store().write(List.of(warm(1, 30))));
  }
}
