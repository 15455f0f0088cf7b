package tepidarium.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import tepidarium.records.sqlite.SqliteRecords;
import tepidarium.rollup.sqlite.SqliteRollups;
import tepidarium.series.sqlite.SqliteReadings;

/** What happens with parts of the data folder that are missing, emptied or damaged. */
class DataPartsTest {
  private static final Clock CLOCK =
      Clock.fixed(Instant.parse("2026-03-01T06:00:00Z"), ZoneOffset.UTC);

  @TempDir private Path folder;
  @TempDir private Path backupDisk;

  private DataParts parts(@Nullable Manifest before, Set<DataPart> setAside, boolean removesRaw) {
    return new DataParts(
        folder, new Backups(folder, backupDisk), CLOCK, before, setAside, removesRaw);
  }

  /** One start and its end, as the service does it. */
  private List<String> start(DataPart... setAside) {
    return start(false, setAside);
  }

  private List<String> start(boolean removesRaw, DataPart... setAside) {
    Manifest before = Manifest.read(folder);
    DataParts parts = parts(before, Set.of(setAside), removesRaw);
    parts.open(DataPart.READINGS, SqliteReadings::open).close();
    parts.open(DataPart.RECORDS, SqliteRecords::open).close();
    parts.open(DataPart.ROLLUPS, SqliteRollups::open).close();
    parts.saveManifest("tepidarium-1");
    return parts.notes();
  }

  private String refused(DataPart... setAside) {
    String words = assertThrows(IllegalStateException.class, () -> start(setAside)).getMessage();
    assertFalse(words.contains("null"), words);
    return words;
  }

  private Path path(DataPart part) {
    return folder.resolve(part.fileName());
  }

  private void halve(DataPart part) throws IOException {
    byte[] whole = Files.readAllBytes(path(part));
    Files.write(path(part), Arrays.copyOf(whole, whole.length / 2));
  }

  private List<String> setAsideFiles() throws IOException {
    try (var files = Files.list(folder)) {
      return files
          .map(file -> file.getFileName().toString())
          .filter(name -> name.contains(".set-aside-"))
          .toList();
    }
  }

  @Test
  void aHealthyFolderGivesNoNotes() {
    assertEquals(List.of(), start());
    assertEquals(List.of(), start());
    assertEquals(
        Set.of("readings.db", "records.db", "ledger.db"), Manifest.read(folder).parts().keySet());
  }

  @ParameterizedTest
  @EnumSource(names = {"READINGS", "RECORDS"})
  void aMissingOrEmptyPartIsRefused(DataPart part) throws IOException {
    start();
    Files.delete(path(part));
    assertTrue(refused().startsWith(path(part) + " is missing. It contained "));
    Files.createFile(path(part));
    assertTrue(refused().startsWith(path(part) + " is empty. It contained "));
    assertTrue(refused().contains("--set-aside " + part.fileName()));
    assertEquals(1, start(part).size());
    assertEquals(List.of(), start());
  }

  @ParameterizedTest
  @EnumSource(names = {"READINGS", "RECORDS"})
  void aMissingPartIsNoticedInAFolderWithoutAManifest(DataPart part) throws IOException {
    start();
    Files.delete(folder.resolve(Manifest.FILE_NAME));
    Files.delete(path(part));
    assertTrue(refused().startsWith(path(part) + " is missing. It contained "));
  }

  @Test
  void anInterruptedFirstStartIsNotReportedAsLoss() {
    DataParts parts = parts(Manifest.read(folder), Set.of(), false);
    parts.open(DataPart.READINGS, SqliteReadings::open).close();
    assertEquals(List.of(), start());
  }

  @ParameterizedTest
  @EnumSource(names = {"READINGS", "RECORDS"})
  void aDamagedPartIsSetAsideOnlyWhenAsked(DataPart part) throws IOException {
    start();
    halve(part);
    byte[] damaged = Files.readAllBytes(path(part));
    String words = refused();
    assertTrue(words.startsWith(path(part) + " is damaged: "), words);
    String searched = folder.resolve("backups") + " or " + backupDisk;
    assertTrue(words.contains("there is none in " + searched), words);
    assertEquals(damaged.length, Files.size(path(part)));
    refused(DataPart.BROKER);

    assertEquals(1, start(part).size());
    String aside = part.fileName() + ".set-aside-20260301T060000Z";
    assertEquals(damaged.length, Files.size(folder.resolve(aside)));
    assertEquals(List.of(), start());
  }

  @Test
  void theNewestBackupIsNamed() throws IOException {
    start();
    Path backups = Files.createDirectories(folder.resolve("backups/2026-02-01"));
    Files.copy(path(DataPart.RECORDS), backups.resolve("records.db"));
    halve(DataPart.RECORDS);
    assertTrue(refused().contains("(" + backups.resolve("records.db") + ")"));
  }

  @Test
  void aNewerBackupInTheFolderOfTheSettingsIsNamed() throws IOException {
    start();
    Path older = Files.createDirectories(folder.resolve("backups")).resolve("records-1.zip");
    Path newer = backupDisk.resolve("records-2.zip");
    Files.setLastModifiedTime(Files.createFile(older), FileTime.from(CLOCK.instant()));
    Files.setLastModifiedTime(
        Files.createFile(newer), FileTime.from(CLOCK.instant().plusMillis(9)));
    halve(DataPart.RECORDS);
    assertTrue(refused().contains("(" + newer + ") with the command restore"), refused());

    Files.delete(newer);
    assertTrue(refused().contains("(" + older + ")"), refused());
  }

  @Test
  void damagedRollupsAreRecalculatedAndReported() throws IOException {
    start();
    halve(DataPart.ROLLUPS);
    List<String> notes = start();
    assertEquals(1, notes.size());
    assertTrue(notes.get(0).startsWith(path(DataPart.ROLLUPS) + " is damaged: "), notes.get(0));
    assertTrue(notes.get(0).endsWith("Its sums are recalculated from the readings."), notes.get(0));
    assertEquals(List.of("ledger.db.set-aside-20260301T060000Z"), setAsideFiles());
    assertEquals(List.of(), start());
  }

  @Test
  void rollupsWithoutRawReadingsAreNotReplaced() throws IOException {
    start(true);
    halve(DataPart.ROLLUPS);
    assertTrue(refused().startsWith(path(DataPart.ROLLUPS) + " is damaged: "));
    Files.delete(path(DataPart.ROLLUPS));
    assertTrue(refused().startsWith(path(DataPart.ROLLUPS) + " is missing"));
    assertEquals(1, start(DataPart.ROLLUPS).size());
  }

  @Test
  void aUsablePartIsNotSetAside() throws IOException {
    start();
    assertEquals(List.of(), start(DataPart.RECORDS, DataPart.ROLLUPS));
    assertEquals(List.of(), setAsideFiles());
  }

  @Test
  void aDamagedManifestIsWrittenAgain() throws IOException {
    start();
    Path manifest = folder.resolve(Manifest.FILE_NAME);
    byte[] good = Files.readAllBytes(manifest);
    for (String damaged : List.of("", "null", "[1]", "{\"format\":1,\"par", "{}", "\u0000\u0001")) {
      Files.writeString(manifest, damaged);
      assertNull(Manifest.read(folder), damaged);
      assertEquals(List.of(), start());
      assertEquals(new String(good), Files.readString(manifest));
    }
  }

  @Test
  void aManifestOfALaterVersionIsRefused() throws IOException {
    start();
    Path manifest = folder.resolve(Manifest.FILE_NAME);
    Files.writeString(manifest, "{\"format\":9,\"product\":\"3.1\",\"parts\":{}}");
    assertTrue(
        refused().startsWith(manifest + " was written by a later version of Tepidarium (3.1)"));
  }

  @Test
  void anUnusableClientIdIsReplacedByTheOneInTheManifest() throws IOException {
    try (DataFolder data = DataFolder.open(folder)) {
      Path file = folder.resolve("client-id");
      for (byte[] odd : List.of(new byte[0], new byte[] {(byte) 0xC3, 0x28}, new byte[300])) {
        Files.write(file, odd);
        assertEquals("tepidarium-1", data.clientId("tepidarium-1"));
        assertEquals("tepidarium-1", Files.readString(file));
      }
      Files.write(file, new byte[0]);
      String fresh = data.clientId(null);
      assertTrue(fresh.matches("tepidarium-[0-9a-f]{12}"), fresh);
      assertEquals(fresh, data.clientId("other"));
      assertEquals(fresh, Files.readString(file));
    }
  }

  @Test
  void partsThatWereNotOpenedStayInTheManifest() {
    new Manifest(Map.of("spool.db", 2), null, false).write(folder, null);
    start();
    assertEquals(2, Manifest.read(folder).parts().get("spool.db"));
  }
}
