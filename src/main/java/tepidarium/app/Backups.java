package tepidarium.app;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * Finds copies of data files in the folder {@code backups} of the data folder and in the folder of
 * automatic backups.
 */
final class Backups {
  static final String FOLDER_NAME = "backups";
  private static final int MAX_DEPTH = 3;

  private final Set<Path> folders;

  /**
   * Creates the search.
   *
   * @param backupFolder where the settings put automatic backups; may be {@code backups} itself
   */
  Backups(Path dataFolder, Path backupFolder) {
    folders = new LinkedHashSet<>(List.of(dataFolder.resolve(FOLDER_NAME), backupFolder));
  }

  /** The names of the folders, for a message. */
  String folders() {
    return folders.stream().map(Path::toString).collect(Collectors.joining(" or "));
  }

  /**
   * Returns the newest copy of a part: a file or folder whose name starts with the part's name,
   * such as {@code backups/2026-03-01/records.db} or {@code backups/records-2026-03-01.db}.
   */
  Optional<Path> newest(DataPart part) {
    return folders.stream()
        .flatMap(folder -> copies(folder, part).stream())
        .max(Comparator.comparing(Backups::modified));
  }

  private static List<Path> copies(Path folder, DataPart part) {
    if (!Files.isDirectory(folder)) {
      return List.of();
    }
    try (Stream<Path> all = Files.walk(folder, MAX_DEPTH)) {
      return all.filter(path -> !path.equals(folder))
          .filter(path -> path.getFileName().toString().startsWith(part.stem()))
          .filter(path -> !path.toString().matches(".*(-(wal|shm|journal)|\\.part(\\.db)?)"))
          .toList();
    } catch (IOException | UncheckedIOException e) {
      return List.of(); // A folder that cannot be read has no copy to restore.
    }
  }

  private static FileTime modified(Path path) {
    try {
      return Files.getLastModifiedTime(path);
    } catch (IOException e) {
      return FileTime.fromMillis(0);
    }
  }
}
