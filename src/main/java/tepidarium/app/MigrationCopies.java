package tepidarium.app;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import tepidarium.backup.DurableFile;
import tepidarium.disk.DiskSpace;
import tepidarium.sqlite.SqliteCopy;
import tepidarium.sqlite.SqliteFile;
import tepidarium.sqlite.UnusableFile;

/**
 * Copies a data file before its schema is migrated, so that the grower can go back to the older
 * version of the program. The name of a copy contains the versions, such as {@code
 * records-v14-before-v15.db}. A later copy for the same versions replaces it. The three copies of
 * the newest versions are kept for each part.
 *
 * <p>Records are never migrated without a copy. The other files may be larger than the free space
 * of a small disk; they are migrated without a copy then, because a migration that fails or is
 * interrupted leaves a file as it was.
 */
final class MigrationCopies {
  private static final Logger LOG = LoggerFactory.getLogger(MigrationCopies.class);
  private static final int KEPT = 3;
  private static final Pattern NAME = Pattern.compile("(\\w+)-v(\\d{1,6})-before-v(\\d{1,6})\\.db");

  private final Path folder;
  private final long reserveBytes;

  MigrationCopies(Path dataFolder) {
    this(dataFolder, 32L << 20);
  }

  /**
   * Creates the copies of a data folder.
   *
   * @param reserveBytes space that a copy leaves free on the disk
   */
  MigrationCopies(Path dataFolder, long reserveBytes) {
    this.folder = dataFolder.resolve(Backups.FOLDER_NAME);
    this.reserveBytes = reserveBytes;
  }

  /**
   * Copies a part if it is of an older version than this program.
   *
   * @return a message when the part will be migrated without a copy; empty otherwise
   * @throws IllegalStateException when records cannot be copied; the message names the remedy
   */
  Optional<String> take(DataPart part, Path file) {
    int found;
    try {
      found = SqliteFile.version(file);
    } catch (UnusableFile e) {
      return Optional.empty(); // Opening the file reports the damage.
    }
    if (found == 0 || found >= part.schemaVersion()) {
      return Optional.empty();
    }
    Path target =
        folder.resolve("%s-v%d-before-v%d.db".formatted(part.stem(), found, part.schemaVersion()));
    try {
      Files.createDirectories(folder);
      DiskSpace.require(target, Files.size(file), reserveBytes, "the copy of " + part.fileName());
      copy(file, target);
      deleteOld(part);
      LOG.info("copied {} to {} before its migration", file, target);
      return Optional.empty();
    } catch (UnusableFile e) {
      return Optional.empty(); // Opening the file reports the damage.
    } catch (IOException | IllegalStateException e) {
      String words =
          "%s was not copied before its migration from schema version %d to %d: %s"
              .formatted(file, found, part.schemaVersion(), e.getMessage());
      if (part == DataPart.RECORDS) {
        throw new IllegalStateException(
            words + ". Nothing was changed. Until then, start the version that you used before.",
            e);
      }
      return Optional.of(words + ".");
    }
  }

  private static void copy(Path file, Path target) throws IOException {
    Path temporary = target.resolveSibling(target.getFileName() + ".part");
    try {
      SqliteCopy.copy(file, temporary);
      SqliteCopy.check(temporary);
      DurableFile.sync(temporary);
      DurableFile.rename(temporary, target);
    } finally {
      Files.deleteIfExists(temporary);
    }
  }

  private void deleteOld(DataPart part) throws IOException {
    List<Path> copies = newestFirst(part);
    for (Path old : copies.subList(Math.min(KEPT, copies.size()), copies.size())) {
      Files.delete(old);
    }
  }

  /** Returns the newest copy of a part that this program can read. */
  Optional<Path> newestReadable(DataPart part) {
    try {
      return newestFirst(part).stream()
          .filter(copy -> version(copy) <= part.schemaVersion())
          .findFirst();
    } catch (IOException e) {
      return Optional.empty();
    }
  }

  private List<Path> newestFirst(DataPart part) throws IOException {
    if (!Files.isDirectory(folder)) {
      return List.of();
    }
    try (Stream<Path> files = Files.list(folder)) {
      return files
          .filter(path -> isCopyOf(part, path))
          .sorted(Comparator.comparingInt(MigrationCopies::version).reversed())
          .toList();
    }
  }

  private static boolean isCopyOf(DataPart part, Path path) {
    Matcher name = NAME.matcher(path.getFileName().toString());
    return name.matches() && name.group(1).equals(part.stem());
  }

  private static int version(Path copy) {
    Matcher name = NAME.matcher(copy.getFileName().toString());
    return name.matches() ? Integer.parseInt(name.group(2)) : 0;
  }
}
