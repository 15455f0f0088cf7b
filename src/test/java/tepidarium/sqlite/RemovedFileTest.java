package tepidarium.sqlite;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tepidarium.reading.Reading;
import tepidarium.reading.Readings;
import tepidarium.reading.SensorId;
import tepidarium.records.sqlite.SqliteRecords;
import tepidarium.series.StoreException;
import tepidarium.series.sqlite.SqliteReadings;

/** Removes or replaces a file that is in use; SQLite itself goes on writing to it. */
class RemovedFileTest {
  @TempDir private Path folder;

  private static List<Reading> reading(String sensor) {
    return List.of(
        Readings.ofAir(new SensorId(sensor), Instant.ofEpochMilli(1), 30.0, null, null, null));
  }

  @Test
  void readingsAreNotWrittenToARemovedFile() throws IOException {
    Path file = folder.resolve("readings.db");
    try (SqliteReadings readings = SqliteReadings.open(file)) {
      assertEquals(1, readings.write(reading("a")).stored());
      Path kept = folder.resolve("kept.db");
      Files.move(file, kept);
      String words =
          assertThrows(StoreException.class, () -> readings.write(reading("b"))).getMessage();
      assertTrue(words.contains("was removed while the service was running"), words);

      Files.move(kept, file);
      assertEquals(1, readings.write(reading("b")).stored());
    }
  }

  @Test
  void recordsAreNotWrittenToAReplacedFile() throws IOException {
    Path file = folder.resolve("records.db");
    try (SqliteRecords records = SqliteRecords.open(file)) {
      Path backup = folder.resolve("backup.db");
      Files.copy(file, backup);
      Files.move(file, folder.resolve("kept.db"));
      Files.move(backup, file);
      String words =
          assertThrows(
                  StoreException.class,
                  () -> records.transaction(handle -> handle.execute("SELECT 1")))
              .getMessage();
      assertTrue(words.contains("was replaced while the service was running"), words);
    }
  }
}
