package tepidarium.backup;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tepidarium.it.MovableClock;

/** Automatic backups: when they are made, what is deleted, and what happens when they fail. */
class ScheduledBackupsTest {
  private static final Instant START = Instant.parse("2026-03-02T06:00:00Z");
  private static final int KEEP = 3;

  @TempDir private Path folder;
  private final MovableClock clock = new MovableClock(START);
  private boolean clockInDoubt;
  private Path data;
  private ScheduledBackups backups;

  @BeforeEach
  void begin() {
    data = SmallFolder.create(folder.resolve("data"));
    backups = daily(data.resolve("backups"), true);
  }

  /** The service after a start. */
  private ScheduledBackups daily(Path target, boolean create) {
    return new ScheduledBackups(
        new BackupSchedule(Duration.ofDays(1), KEEP),
        data,
        () -> SmallFolder.recordsOnly(data),
        new ScheduledBackups.Target(target, create),
        () -> clockInDoubt,
        clock);
  }

  private void runAfter(Duration wait) {
    clock.pass(wait);
    backups.run();
  }

  private List<String> files() throws IOException {
    return files(data.resolve("backups"));
  }

  private static List<String> files(Path target) throws IOException {
    try (Stream<Path> files = Files.list(target)) {
      return files.map(path -> path.getFileName().toString()).sorted().toList();
    }
  }

  @Test
  void oneIsMadeADayAndTheNewestAreKept() throws IOException {
    backups.run();
    runAfter(Duration.ofHours(23));
    assertEquals(List.of("records-20260302T060000Z.zip"), files());
    for (int day = 0; day < 4; day++) {
      runAfter(Duration.ofDays(1));
    }
    assertEquals(
        List.of(
            "records-20260305T050000Z.zip",
            "records-20260306T050000Z.zip",
            "records-20260307T050000Z.zip"),
        files());
    assertNull(backups.problem());
    assertTrue(
        backups.description().endsWith("records-20260307T050000Z.zip; next 2026-03-08T05:00:00Z"),
        backups.description());
    assertFalse(
        BackupFile.open(data.resolve("backups/records-20260307T050000Z.zip"))
            .manifest()
            .contains(BackupPart.READINGS));
  }

  @Test
  void aTimeThatWasMissedIsMadeUpAtTheStart() throws IOException {
    backups.run();
    clock.set(START.plus(Duration.ofDays(5)));
    backups = daily(data.resolve("backups"), true);
    assertTrue(backups.description().startsWith("last backup 2026-03-02T06:00:00Z"));
    backups.run();
    assertEquals(2, files().size());
    backups.run();
    assertEquals(2, files().size());
  }

  @Test
  void onlyItsOwnFilesAreDeleted() throws IOException {
    Path target = Files.createDirectories(data.resolve("backups"));
    Files.writeString(target.resolve("records-20250101T000000Z.zip"), "of another service");
    Files.writeString(target.resolve("diary.txt"), "of the grower");
    backups.run();
    // Replaced by the grower under the same name.
    Files.writeString(target.resolve("records-20260302T060000Z.zip"), "replaced");
    for (int day = 0; day < 6; day++) {
      runAfter(Duration.ofDays(1));
    }
    assertEquals(3 + KEEP, files().size(), files().toString());
    assertTrue(
        files()
            .containsAll(
                List.of(
                    "diary.txt", "records-20250101T000000Z.zip", "records-20260302T060000Z.zip")));
  }

  @Test
  void aClockInDoubtDeletesNothing() throws IOException {
    clockInDoubt = true;
    for (int day = 0; day < 6; day++) {
      runAfter(Duration.ofDays(400));
    }
    assertEquals(6, files().size());
    clockInDoubt = false;
    runAfter(Duration.ofDays(1));
    assertEquals(KEEP, files().size());
  }

  @Test
  void aClockThatWasSetBackStopsNeitherBackupsNorDeletesTheNewest() throws IOException {
    for (int day = 0; day < 3; day++) {
      runAfter(Duration.ofDays(1));
    }
    clock.set(Instant.parse("2023-01-01T00:00:00Z"));
    backups.run();
    assertEquals(KEEP, files().size());
    assertTrue(files().contains("records-20230101T000000Z.zip"), files().toString());
  }

  @Test
  void aMissingFolderIsReportedAndTriedAgainAfterAnHour() throws IOException {
    Path stick = folder.resolve("stick");
    backups = daily(stick, false);
    backups.run();
    assertEquals(
        "there is no folder " + stick + ". Create it, or mount its disk", backups.problem());
    assertFalse(Files.exists(stick));
    String words = backups.description();
    assertTrue(words.startsWith("the backup at 2026-03-02T06:00:00Z failed: there is no"), words);
    assertTrue(words.endsWith("No backup yet; next attempt 2026-03-02T07:00:00Z"), words);
    assertNotNull(daily(stick, false).problem(), "forgotten at the restart");
    Files.createDirectory(stick);
    runAfter(Duration.ofMinutes(59));
    assertEquals(List.of(), files(stick));
    runAfter(Duration.ofMinutes(1));
    assertEquals(List.of("records-20260302T070000Z.zip"), files(stick));
    assertNull(backups.problem());
  }

  @Test
  void aFailureDeletesNoOlderBackup() throws IOException {
    backups.run();
    byte[] records = Files.readAllBytes(data.resolve("records.db"));
    Files.writeString(data.resolve("records.db"), "no database ".repeat(1_000));
    runAfter(Duration.ofDays(1));
    assertTrue(backups.problem().contains("records.db is damaged"), backups.problem());
    assertEquals(List.of("records-20260302T060000Z.zip"), files());
    assertTrue(backups.description().contains("Last backup 2026-03-02T06:00:00Z"));
    Files.write(data.resolve("records.db"), records);
    runAfter(Duration.ofHours(1));
    assertEquals(2, files().size());
  }

  @Test
  void whatAKilledBackupLeftIsDeletedByTheNextOne() throws IOException {
    Path target = Files.createDirectories(data.resolve("backups"));
    Path killed = target.toAbsolutePath().resolve("records-20260301T060000Z.zip");
    Files.writeString(target.resolve(killed.getFileName() + ".part"), "half");
    Files.writeString(target.resolve(killed.getFileName() + ".part.db"), "half");
    BackupState.NONE.started(killed).write(data);
    backups = daily(target, true);
    backups.run();
    assertEquals(List.of("records-20260302T060000Z.zip"), files());
  }

  @Test
  void aDamagedStateDeletesNothing() throws IOException {
    backups.run();
    Files.writeString(data.resolve(BackupState.FILE_NAME), "{");
    backups = daily(data.resolve("backups"), true);
    for (int day = 0; day < 5; day++) {
      runAfter(Duration.ofDays(1));
    }
    assertEquals(KEEP + 1, files().size());
  }

  @Test
  void withoutAnIntervalNoneIsMade() {
    backups =
        new ScheduledBackups(
            new BackupSchedule(null, 1),
            data,
            () -> SmallFolder.recordsOnly(data),
            new ScheduledBackups.Target(data.resolve("backups"), true),
            () -> false,
            clock);
    backups.run();
    assertFalse(Files.exists(data.resolve("backups")));
    assertEquals("no automatic backups, because backups.every is never", backups.description());
  }
}
