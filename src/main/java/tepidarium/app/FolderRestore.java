package tepidarium.app;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Stream;
import tepidarium.backup.BackupFile;
import tepidarium.backup.BackupPart;
import tepidarium.backup.DurableFile;
import tepidarium.disk.DiskSpace;
import tepidarium.reading.InvalidInput;

/**
 * Restores a backup into an empty or new folder. Extracts all parts into a subfolder, checks them,
 * and only then moves them into the folder. After a failure, it deletes the files that it made. A
 * killed restore leaves the subfolder; the next restore deletes it.
 */
final class FolderRestore {
  /** Name of the restored settings in the data folder. The service does not read this file. */
  static final String SETTINGS = "restored-settings.yaml";

  private static final String SUBFOLDER = "restoring";
  private static final long RESERVE_BYTES = 32L << 20;

  /** Names that do not make a folder count as used; file systems create the last one. */
  private static final Set<String> UNUSED = Set.of("in-use", SUBFOLDER, "lost+found");

  private FolderRestore() {}

  /**
   * Restores a backup.
   *
   * @throws InvalidInput when the backup cannot be used or the folder is not empty
   * @throws IllegalStateException when the folder cannot be used or is too small
   */
  static BackupFile restore(Path file, Path folder) throws IOException {
    BackupFile backup = BackupFile.open(file);
    checkUnused(folder);
    DiskSpace.require(folder, backup.extractedBytes(), RESERVE_BYTES, "the restored data");
    boolean isNew = !Files.exists(folder);
    boolean restored = false;
    try (DataFolder locked = DataFolder.open(folder)) {
      checkUnused(locked.path());
      try {
        restore(backup, folder);
        restored = true;
      } finally {
        if (!restored) {
          deleteContents(folder);
        }
      }
    } finally {
      if (!restored && isNew) {
        Files.deleteIfExists(folder.resolve("in-use"));
        Files.deleteIfExists(folder);
      }
    }
    return backup;
  }

  private static void checkUnused(Path folder) throws IOException {
    if (Files.exists(folder) && !Files.isDirectory(folder)) {
      throw new InvalidInput(folder + " is not a folder. Name another one with --data");
    }
    if (Files.exists(folder)) {
      try (Stream<Path> inside = Files.list(folder)) {
        if (inside.anyMatch(path -> !UNUSED.contains(path.getFileName().toString()))) {
          throw new InvalidInput(
              "the folder "
                  + folder.toAbsolutePath()
                  + " is not empty, and nothing in it was changed. Name an empty or new folder with"
                  + " --data, and start the service with the same option");
        }
      }
    }
  }

  private static void restore(BackupFile backup, Path folder) throws IOException {
    Path subfolder = folder.resolve(SUBFOLDER);
    delete(subfolder);
    Files.createDirectory(subfolder);
    backup.extractInto(subfolder);
    // From here on, the service would miss a part that has not got its place yet.
    manifest(backup).write(folder, null);
    DurableFile.rename(subfolder.resolve("settings.yaml"), folder.resolve(SETTINGS));
    for (BackupPart part : BackupPart.values()) {
      if (backup.manifest().contains(part)) {
        DurableFile.rename(subfolder.resolve(part.fileName()), folder.resolve(part.fileName()));
      }
    }
    delete(subfolder);
  }

  /** Without hourly sums in the backup, the service calculates all of them again. */
  private static Manifest manifest(BackupFile backup) {
    Map<String, Integer> parts = new TreeMap<>();
    for (BackupPart part : BackupPart.values()) {
      var entry = backup.manifest().parts().get(part.fileName());
      if (entry != null) {
        parts.put(part.fileName(), entry.schemaVersion());
      }
    }
    return new Manifest(parts, null, backup.manifest().contains(BackupPart.ROLLUPS));
  }

  /** Deletes everything except the lock, which is still held, and lost+found. */
  private static void deleteContents(Path folder) throws IOException {
    try (Stream<Path> inside = Files.list(folder)) {
      for (Path path : inside.toList()) {
        if (!List.of("in-use", "lost+found").contains(path.getFileName().toString())) {
          delete(path);
        }
      }
    }
  }

  private static void delete(Path path) throws IOException {
    if (!Files.exists(path)) {
      return;
    }
    try (Stream<Path> all = Files.walk(path)) {
      for (Path each : all.sorted(Comparator.reverseOrder()).toList()) {
        Files.delete(each);
      }
    }
  }
}
