package tepidarium.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Clock;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import org.flywaydb.core.Flyway;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tepidarium.records.sqlite.SqliteRecords;
import tepidarium.sqlite.SqliteCopy;
import tepidarium.sqlite.SqliteFile;

/** Copies that are made before a data file is migrated. */
class MigrationCopiesTest {
  private static final int NEWEST = DataPart.RECORDS.schemaVersion();
  private static final long TOO_MUCH = Long.MAX_VALUE >> 1;

  @TempDir private Path data;

  private Path oldFile(DataPart part, String scripts, int version) {
    Path file = data.resolve(part.fileName());
    Flyway.configure()
        .dataSource("jdbc:sqlite:" + file, null, null)
        .locations("classpath:db/" + scripts)
        .target(String.valueOf(version))
        .load()
        .migrate();
    return file;
  }

  private Path oldRecords(int version) {
    return oldFile(DataPart.RECORDS, "records", version);
  }

  private List<String> copies() throws IOException {
    try (Stream<Path> files = Files.list(data.resolve("backups"))) {
      return files.map(path -> path.getFileName().toString()).sorted().toList();
    }
  }

  private DataParts parts() {
    return new DataParts(
        data,
        new Backups(data, data.resolve("backups")),
        Clock.systemUTC(),
        Manifest.read(data),
        Set.of(),
        false);
  }

  private static void execute(Path file, String sql) throws SQLException {
    try (Connection connection = DriverManager.getConnection("jdbc:sqlite:" + file);
        Statement statement = connection.createStatement()) {
      statement.execute(sql);
    }
  }

  @Test
  void recordsAreCopiedBeforeTheirMigration() throws IOException {
    oldRecords(14);
    parts().open(DataPart.RECORDS, SqliteRecords::open).close();
    String name = "records-v14-before-v" + NEWEST + ".db";
    assertEquals(List.of(name), copies());
    assertEquals(14, SqliteCopy.version(data.resolve("backups").resolve(name)));
    assertEquals(NEWEST, SqliteFile.version(data.resolve("records.db")));
    // An up-to-date file is not copied.
    parts().open(DataPart.RECORDS, SqliteRecords::open).close();
    assertEquals(List.of(name), copies());
  }

  @Test
  void withoutRoomRecordsAreNotMigrated() throws IOException {
    Path file = oldRecords(14);
    byte[] before = Files.readAllBytes(file);
    String words =
        assertThrows(
                IllegalStateException.class,
                () -> new MigrationCopies(data, TOO_MUCH).take(DataPart.RECORDS, file))
            .getMessage();
    assertTrue(words.startsWith(file + " was not copied before its migration from schema"), words);
    assertTrue(words.contains("there is not enough room on the disk of"), words);
    assertTrue(words.endsWith("start the version that you used before."), words);
    assertEquals(before.length, Files.size(file));
  }

  @Test
  void withoutRoomReadingsAreMigratedWithAMessage() {
    Path file = oldFile(DataPart.READINGS, "readings", 3);
    Optional<String> words = new MigrationCopies(data, TOO_MUCH).take(DataPart.READINGS, file);
    assertTrue(words.orElseThrow().contains("readings.db was not copied before its migration"));
    assertEquals(Optional.empty(), new MigrationCopies(data).take(DataPart.READINGS, file));
  }

  @Test
  void threeCopiesAreKeptAndNoOtherFileIsDeleted() throws IOException {
    Path folder = Files.createDirectories(data.resolve("backups"));
    for (String name :
        List.of(
            "records-v9-before-v11.db",
            "records-v11-before-v12.db",
            "records-v12-before-v13.db",
            "records-v1-before-lunch.db",
            "readings-v1-before-v2.db")) {
      Files.writeString(folder.resolve(name), name);
    }
    new MigrationCopies(data).take(DataPart.RECORDS, oldRecords(14));
    assertEquals(
        List.of(
            "readings-v1-before-v2.db",
            "records-v1-before-lunch.db",
            "records-v11-before-v12.db",
            "records-v12-before-v13.db",
            "records-v14-before-v" + NEWEST + ".db"),
        copies());
  }

  @Test
  void anOlderProgramNamesTheCopyFromBeforeTheUpgrade() throws IOException, SQLException {
    Path file = oldRecords(14);
    parts().open(DataPart.RECORDS, SqliteRecords::open).close();
    Path copy = data.resolve("backups/records-v" + NEWEST + "-before-v99.db");
    Files.move(data.resolve("backups/records-v14-before-v" + NEWEST + ".db"), copy);
    Files.copy(copy, data.resolve("backups/records-v98-before-v99.db"));
    execute(
        file,
        "INSERT INTO flyway_schema_history SELECT 90, '99', 'later', 'SQL', 'V99__later.sql', 1,"
            + " '', 0, 1, 1");
    String words =
        assertThrows(
                IllegalStateException.class,
                () -> parts().open(DataPart.RECORDS, SqliteRecords::open))
            .getMessage();
    assertTrue(words.contains("it has schema version 99"), words);
    assertTrue(words.contains(". Start the later version again. Or put the copy"), words);
    assertTrue(words.contains("(" + copy + ")"), words);
    assertFalse(words.contains("v98"), words);
  }
}
