package tepidarium.backup;

import java.io.BufferedOutputStream;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.zip.Deflater;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
import org.jspecify.annotations.Nullable;
import tepidarium.disk.DiskSpace;
import tepidarium.reading.InvalidInput;
import tepidarium.sqlite.SqliteCopy;
import tepidarium.sqlite.UnusableFile;

/**
 * Writes backup files. Copies each data file beside the target, checks the copy, and adds it to a
 * ZIP archive with a temporary name. Then it syncs the archive, reads it again to verify it, and
 * renames it. An interrupted backup leaves files whose names end in {@code .part} or {@code
 * .part.db}; the next backup to the same name deletes them.
 */
public final class BackupWriter {
  private static final long RESERVE_BYTES = 32L << 20;

  private final Clock clock;
  private final long reserveBytes;

  public BackupWriter(Clock clock) {
    this(clock, RESERVE_BYTES);
  }

  /**
   * Creates a writer.
   *
   * @param reserveBytes space that stays free on the disk of the target
   */
  BackupWriter(Clock clock, long reserveBytes) {
    this.clock = clock;
    this.reserveBytes = reserveBytes;
  }

  /**
   * Writes and verifies a backup.
   *
   * @param target the new file; must not exist
   * @throws InvalidInput when the target exists or there is nothing to back up
   * @throws IllegalStateException when the backup fails; the message names the reason
   */
  public BackupFile write(BackupSource source, Path target) {
    checkTarget(target);
    boolean withoutRecords =
        source.parts().contains(BackupPart.RECORDS)
            && !source.existing().contains(BackupPart.RECORDS);
    if (withoutRecords || source.existing().isEmpty()) {
      throw new InvalidInput(
          "there is no data in the folder "
              + source.data().toAbsolutePath()
              + ". Name the folder of the service with --data");
    }
    Path archive = partOf(target);
    try {
      checkRoom(source, target);
      writeArchive(source, archive, databaseOf(target));
      Seal.put(archive);
      DurableFile.sync(archive);
      BackupFile.open(archive).checkParts();
      checkTarget(target);
      DurableFile.rename(archive, target);
      BackupFile written = BackupFile.open(target);
      return written;
    } catch (UnusableFile e) {
      throw new IllegalStateException(
          e.getMessage() + ". No backup was written. Restore this file from an older backup", e);
    } catch (IOException e) {
      throw new IllegalStateException("cannot write the backup " + target + ": " + e, e);
    } finally {
      deleteLeftovers(target);
    }
  }

  private static void checkTarget(Path target) {
    if (Files.exists(target)) {
      throw new InvalidInput(
          target + " exists already and was not changed. Choose another name for the backup");
    }
    Path folder = target.toAbsolutePath().getParent();
    if (folder == null || !Files.isDirectory(folder)) {
      throw new InvalidInput("there is no folder " + folder + ". Create it, or mount its disk");
    }
  }

  private static Path partOf(Path target) {
    return target.resolveSibling(target.getFileName() + ".part");
  }

  private static Path databaseOf(Path target) {
    return target.resolveSibling(target.getFileName() + ".part.db");
  }

  /** Deletes what an interrupted backup to this target has left. */
  static void deleteLeftovers(Path target) {
    for (Path file : List.of(partOf(target), databaseOf(target), journalOf(target))) {
      try {
        Files.deleteIfExists(file);
      } catch (IOException e) {
        // The next backup to this name tries again.
      }
    }
  }

  private static Path journalOf(Path target) {
    return target.resolveSibling(target.getFileName() + ".part.db-journal");
  }

  /** The archive and the copy of the largest file are on the disk at the same time. */
  private void checkRoom(BackupSource source, Path target) throws IOException {
    long all = 0;
    long largest = 0;
    for (BackupPart part : source.existing()) {
      long bytes = Files.size(source.path(part));
      all += bytes;
      largest = Math.max(largest, bytes);
    }
    DiskSpace.require(target, all + largest, reserveBytes, "the backup");
  }

  private void writeArchive(BackupSource source, Path archive, Path database) throws IOException {
    Instant now = clock.instant();
    Map<String, BackupManifest.Part> parts = new TreeMap<>();
    BackupManifest.Contents contents = BackupManifest.Contents.NONE;
    try (ZipOutputStream zip =
        new ZipOutputStream(new BufferedOutputStream(Files.newOutputStream(archive)))) {
      // Measured on the readings of the demo: the best compression takes four times as long for 8 %
      // less.
      zip.setLevel(Deflater.BEST_SPEED);
      zip.setComment(Seal.PLACEHOLDER);
      for (BackupPart part : source.existing()) {
        SqliteCopy.copy(source.path(part), database);
        SqliteCopy.check(database);
        contents = Amounts.add(contents, part, database);
        int version = SqliteCopy.version(database);
        try (InputStream in = Files.newInputStream(database)) {
          parts.put(
              part.fileName(), add(zip, part.fileName(), in, Files.size(database), version, now));
        }
        Files.delete(database);
      }
      byte[] settings = source.settings().getBytes(StandardCharsets.UTF_8);
      parts.put(BackupManifest.SETTINGS, add(zip, BackupManifest.SETTINGS, settings, now));
      BackupManifest manifest =
          new BackupManifest(BackupManifest.FORMAT, source.product(), now, parts, contents);
      var unused =
          add(
              zip,
              BackupManifest.FILE_NAME,
              BackupManifest.JSON.writerWithDefaultPrettyPrinter().writeValueAsBytes(manifest),
              now);
    }
  }

  private static BackupManifest.Part add(
      ZipOutputStream zip, String name, byte[] content, Instant now) throws IOException {
    return add(zip, name, new ByteArrayInputStream(content), content.length, 0, now);
  }

  private static BackupManifest.Part add(
      ZipOutputStream zip, String name, InputStream in, long bytes, int version, Instant now)
      throws IOException {
    ZipEntry entry = new ZipEntry(name);
    entry.setTime(now.toEpochMilli());
    zip.putNextEntry(entry);
    String sha256 = Checksums.copy(in, zip, bytes);
    zip.closeEntry();
    return new BackupManifest.Part(bytes, sha256, version);
  }

  /** Counts the rows of copied data files. */
  private static final class Amounts {
    private Amounts() {}

    static BackupManifest.Contents add(
        BackupManifest.Contents before, BackupPart part, Path database) {
      return switch (part) {
        case RECORDS ->
            new BackupManifest.Contents(
                first(SqliteCopy.row(database, "container", "count(*)")),
                first(SqliteCopy.row(database, "seed_entry", "count(DISTINCT sowing)")),
                first(SqliteCopy.row(database, "seed_photo", "count(*)")),
                before.readings(),
                before.firstReading(),
                before.lastReading());
        case READINGS -> withReadings(before, database);
        case ROLLUPS -> before;
      };
    }

    private static long first(List<Long> row) {
      return row.isEmpty() ? 0 : row.get(0);
    }

    private static BackupManifest.Contents withReadings(
        BackupManifest.Contents before, Path database) {
      List<Long> row = SqliteCopy.row(database, "reading", "count(*), min(at_ms), max(at_ms)");
      long uncertain = first(SqliteCopy.row(database, "uncertain_reading", "count(*)"));
      boolean any = first(row) > 0;
      return new BackupManifest.Contents(
          before.containers(),
          before.sowings(),
          before.photos(),
          first(row) + uncertain,
          any ? instant(row.get(1)) : null,
          any ? instant(row.get(2)) : null);
    }

    private static @Nullable Instant instant(long ms) {
      return Instant.ofEpochMilli(ms);
    }
  }
}
