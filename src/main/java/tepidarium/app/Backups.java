package tepidarium.app;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.util.Comparator;
import java.util.Optional;
import java.util.stream.Stream;

/** Finds copies of data files below the folder {@code backups} of the data folder. */
final class Backups {
  static final String FOLDER_NAME = "backups";
  private static final int MAX_DEPTH = 3;

  private Backups() {}

  /**
   * Returns the newest copy of a part: a file or folder whose name starts with the part's name,
   * such as {@code backups/2026-03-01/records.db} or {@code backups/records-2026-03-01.db}.
   */
  static Optional<Path> newest(Path dataFolder, DataPart part) {
    Path backups = dataFolder.resolve(FOLDER_NAME);
    if (!Files.isDirectory(backups)) {
      return Optional.empty();
    }
    try (Stream<Path> all = Files.walk(backups, MAX_DEPTH)) {
      return all.filter(path -> !path.equals(backups))
          .filter(path -> path.getFileName().toString().startsWith(part.stem()))
          .filter(path -> !path.toString().matches(".*(-(wal|shm|journal)|\\.part(\\.db)?)"))
          .max(Comparator.comparing(Backups::modified));
    } catch (IOException e) {
      return Optional.empty();
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
