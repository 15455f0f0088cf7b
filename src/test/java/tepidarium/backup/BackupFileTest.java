package tepidarium.backup;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.function.Consumer;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tepidarium.reading.InvalidInput;

/** Backup files: their contents, and damage of any kind. */
class BackupFileTest {
  @TempDir private static Path shared;
  private static Path data;
  private static Path good;

  @TempDir private Path folder;
  private Path file;

  @BeforeAll
  static void writeBackup() {
    data = SmallFolder.create(shared.resolve("data"));
    good = shared.resolve("good.zip");
    new BackupWriter(SmallFolder.CLOCK).write(SmallFolder.source(data), good);
  }

  @BeforeEach
  void copyBackup() throws IOException {
    file = Files.copy(good, folder.resolve("backup.zip"));
  }

  private String refused() {
    String words =
        assertThrows(
                InvalidInput.class,
                () -> {
                  BackupFile backup = BackupFile.open(file);
                  backup.extractInto(Files.createTempDirectory(folder, "restored"));
                })
            .getMessage();
    assertTrue(words.startsWith(file.toString()), words);
    assertFalse(words.contains("null") || words.contains("Exception"), words);
    return words;
  }

  @Test
  void itsManifestSaysWhatItContains() throws IOException {
    BackupManifest manifest = BackupFile.open(file).manifest();
    assertEquals(
        new BackupManifest.Contents(
            1, 0, 0, 100, SmallFolder.START, Instant.parse("2026-03-01T07:39:00Z")),
        manifest.contents());
    assertEquals(SmallFolder.CLOCK.instant(), manifest.createdAt());
    assertEquals(
        List.of("readings.db", "records.db", "settings.yaml"),
        List.copyOf(manifest.parts().keySet()));
    Path restored = Files.createDirectory(folder.resolve("restored"));
    BackupFile.open(file).extractInto(restored);
    assertEquals("timeZone: UTC\n", Files.readString(restored.resolve("settings.yaml")));
  }

  @Test
  void nothingTemporaryStaysBesideIt() throws IOException {
    try (Stream<Path> files = Files.list(shared)) {
      assertEquals(List.of(data, good), files.sorted().toList());
    }
  }

  /** One byte of each 100, and each byte of the seal; all bytes would take a minute. */
  @Test
  void aChangeOfAnyByteIsDetected() throws IOException {
    byte[] whole = Files.readAllBytes(file);
    long seed = System.nanoTime();
    Random random = new Random(seed);
    int sealStart = whole.length - Seal.PLACEHOLDER.length();
    int at = random.nextInt(100);
    while (at < whole.length) {
      byte[] flipped = whole.clone();
      flipped[at] ^= (byte) (1 << random.nextInt(8));
      Files.write(file, flipped);
      int tried = at;
      assertThrows(
          InvalidInput.class,
          () -> BackupFile.open(file),
          () -> "byte " + tried + ", seed " + seed);
      at += at < sealStart ? 1 + random.nextInt(199) : 1;
    }
  }

  @Test
  void atAnyLengthAFileThatIsCutOffIsDetected() throws IOException {
    byte[] whole = Files.readAllBytes(file);
    for (int length = 0; length < whole.length; length += 97) {
      Files.write(file, Arrays.copyOf(whole, length));
      assertTrue(refused().contains("is cut off"));
    }
    Files.write(file, Arrays.copyOf(whole, whole.length + 1));
    refused();
  }

  /** A part that was exchanged by somebody who sealed the file again. */
  @Test
  void aChangedByteOfAPartIsDetectedAlsoUnderARightSeal() throws IOException {
    for (String name : List.of("records.db", "readings.db", "settings.yaml")) {
      change(
          entries -> {
            byte[] content = entries.get(name);
            content[content.length / 2] ^= 1;
          });
      assertTrue(refused().contains("the checksum of " + name + " is wrong"));
    }
  }

  @Test
  void aPathOutsideOfTheFolderIsRefused() throws IOException {
    change(entries -> entries.put("../x", new byte[] {1}));
    assertTrue(refused().contains("the entry \"../x\", which no backup has"));
    // Also if the manifest names it, with its right checksum.
    change(
        entries -> {
          entries.put("../x", entries.remove("settings.yaml"));
          replace(entries, "\"settings.yaml\"", "\"../x\"");
        });
    assertTrue(refused().contains("the entry \"../x\", which no backup has"));
    assertFalse(Files.exists(folder.resolve("x")));
  }

  @Test
  void aMissingPartIsDetected() throws IOException {
    change(entries -> entries.remove("readings.db"));
    assertTrue(refused().contains("its entries are not those of its manifest"));
    change(entries -> entries.remove("manifest.json"));
    assertTrue(refused().contains("it has no manifest.json"));
  }

  @Test
  void aLaterSchemaOrFormatIsRefusedByItsVersion() throws IOException {
    int version = BackupPart.RECORDS.schemaVersion();
    changeManifest("\"schemaVersion\" : " + version, "\"schemaVersion\" : 99");
    String words = refused();
    assertTrue(words.contains("written by a later version of Tepidarium (0.1.0)"), words);
    assertTrue(words.contains("records.db has schema version 99"), words);
    assertTrue(words.endsWith("Restore it with that version or a later one"), words);
    changeManifest("\"format\" : 1", "\"format\" : 2");
    assertTrue(refused().contains("its format is 2"));
  }

  @Test
  void aFileOfAnotherKindIsRefused() throws IOException {
    Files.writeString(file, "this is a letter. ".repeat(100));
    assertTrue(refused().contains("it is not a backup of Tepidarium"));
    file = folder.resolve("nowhere.zip");
    assertThrows(InvalidInput.class, () -> BackupFile.open(file));
  }

  @Test
  void anExistingFileIsNeverOverwritten() throws IOException {
    Files.writeString(file, "precious");
    String words =
        assertThrows(
                InvalidInput.class,
                () -> new BackupWriter(SmallFolder.CLOCK).write(SmallFolder.source(data), file))
            .getMessage();
    assertTrue(words.endsWith("Choose another name for the backup"), words);
    assertEquals("precious", Files.readString(file));
  }

  @Test
  void aDamagedDataFileIsNotBackedUp() throws IOException {
    Path other = SmallFolder.create(folder.resolve("other"));
    byte[] content = Files.readAllBytes(other.resolve("records.db"));
    Arrays.fill(content, 3 * 4_096, content.length, (byte) 0x5A);
    Files.write(other.resolve("records.db"), content);
    Path target = folder.resolve("of-damaged.zip");
    String words =
        assertThrows(
                IllegalStateException.class,
                () -> new BackupWriter(SmallFolder.CLOCK).write(SmallFolder.source(other), target))
            .getMessage();
    assertTrue(words.contains("records.db is damaged: "), words);
    assertFalse(Files.exists(target) || Files.exists(folder.resolve("of-damaged.zip.part")));
  }

  @Test
  void aDiskThatIsTooSmallIsNotedBeforeAnythingIsWritten() {
    Path target = folder.resolve("large.zip");
    BackupWriter writer = new BackupWriter(SmallFolder.CLOCK, Long.MAX_VALUE >> 1);
    String words =
        assertThrows(
                IllegalStateException.class, () -> writer.write(SmallFolder.source(data), target))
            .getMessage();
    assertTrue(words.startsWith("there is not enough room on the disk of " + target), words);
    assertFalse(Files.exists(target));
  }

  /** Writes the entries again, changed, under a right seal. */
  private void change(Consumer<Map<String, byte[]>> change) throws IOException {
    BackupRewriter.change(good, file, change);
  }

  private void changeManifest(String from, String to) throws IOException {
    change(entries -> replace(entries, from, to));
  }

  private static void replace(Map<String, byte[]> entries, String from, String to) {
    String json = new String(entries.get("manifest.json"), StandardCharsets.UTF_8);
    assertTrue(json.contains(from), json);
    entries.put("manifest.json", json.replace(from, to).getBytes(StandardCharsets.UTF_8));
  }

  @Test
  void theSealIsThatOfTheFile() throws IOException {
    assertEquals(Seal.checksum(file), BackupFile.open(file).seal());
    assertArrayEquals(Files.readAllBytes(good), Files.readAllBytes(file));
  }
}
