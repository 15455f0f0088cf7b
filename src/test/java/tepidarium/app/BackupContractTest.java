package tepidarium.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import tepidarium.backup.BackupFile;
import tepidarium.backup.BackupManifest;
import tepidarium.records.ContainerRecords;
import tepidarium.records.Database;
import tepidarium.records.GerminationRecords;
import tepidarium.records.sqlite.SqliteRecords;
import tepidarium.series.sqlite.SqliteReadings;

/** Backups of released versions can be restored and opened. DEVELOPERS.md tells how to add one. */
class BackupContractTest {
  @TempDir private Path folder;

  static List<Path> backups() throws IOException {
    try (Stream<Path> files = Files.list(Path.of("src/test/resources/backups"))) {
      return files.sorted().toList();
    }
  }

  @ParameterizedTest
  @MethodSource
  void backups(Path file) throws IOException {
    Path data = folder.resolve("data");
    BackupManifest.Contents contents = FolderRestore.restore(file, data).manifest().contents();
    assertTrue(BackupFile.open(file).extractedBytes() > 0);
    try (Database records = SqliteRecords.open(data.resolve("records.db"))) {
      assertEquals(contents.containers(), new ContainerRecords(records).containers().size());
      assertTrue(contents.containers() > 0 && contents.sowings() > 0, contents.toString());
      var entries = new GerminationRecords(records).entries();
      assertEquals(
          contents.sowings(), entries.stream().map(entry -> entry.sowing()).distinct().count());
      assertFalse(new GerminationRecords(records).lots().isEmpty());
    }
    try (SqliteReadings readings = SqliteReadings.open(data.resolve("readings.db"))) {
      assertTrue(contents.readings() > 0);
      assertEquals(contents.firstReading(), readings.oldest().orElseThrow());
    }
  }
}
