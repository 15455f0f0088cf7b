package tepidarium.app;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.Arrays;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import tepidarium.ingest.mqtt.DamagedJournal;
import tepidarium.sqlite.SqliteFile;
import tepidarium.sqlite.UnusableFile;

/**
 * Opens the parts of a data folder and handles parts that are missing, empty, damaged or of a later
 * version. Such a part stops the start with a message that says what to do. Two kinds do not: a
 * part that the service can recalculate, and a part that the user has asked to set aside. To set a
 * part aside means to rename it and to create a new one. Thread-safe if each thread opens different
 * parts.
 */
final class DataParts {
  private static final Logger LOG = LoggerFactory.getLogger(DataParts.class);
  private static final DateTimeFormatter STAMP =
      DateTimeFormatter.ofPattern("uuuuMMdd'T'HHmmss'Z'").withZone(ZoneOffset.UTC);

  /** Largest SQLite file that is checked for missing tables. A file with tables is larger. */
  private static final long MAX_EMPTY_FILE_BYTES = 8_192;

  private final Path folder;
  private final Backups backups;
  private final Clock clock;
  private final Set<DataPart> setAside;
  private final @Nullable Manifest previous;
  private final boolean rawReadingsRemoved;
  private final Map<DataPart, Integer> versions = new ConcurrentHashMap<>();
  private final List<String> notes = new CopyOnWriteArrayList<>();

  /**
   * Prepares to open the parts.
   *
   * @param backups where copies of the parts are looked for, to name them in messages
   * @param previous the manifest of the last start; null if there is none
   * @param setAside the parts to set aside if they cannot be used
   * @param removesRawReadings whether the settings allow the removal of old raw readings
   */
  DataParts(
      Path folder,
      Backups backups,
      Clock clock,
      @Nullable Manifest previous,
      Set<DataPart> setAside,
      boolean removesRawReadings) {
    this.folder = folder;
    this.backups = backups;
    this.clock = clock;
    this.previous = previous == null && isNewFolder() ? createManifest() : previous;
    this.setAside = setAside.isEmpty() ? EnumSet.noneOf(DataPart.class) : EnumSet.copyOf(setAside);
    this.rawReadingsRemoved =
        removesRawReadings || (previous != null && previous.rawReadingsRemoved());
  }

  private boolean isNewFolder() {
    return Arrays.stream(DataPart.values()).noneMatch(this::exists);
  }

  /**
   * Writes an empty manifest. If this start is interrupted, the next one then knows that the folder
   * is not from an older version, which had no manifest.
   */
  private Manifest createManifest() {
    Manifest empty = new Manifest(Map.of(), null, false);
    empty.write(folder, null);
    return empty;
  }

  /**
   * Opens a part.
   *
   * @throws IllegalStateException when it cannot be used; the message names it and the remedy
   */
  <T> T open(DataPart part, Function<Path, T> opener) {
    Path path = folder.resolve(part.fileName());
    try {
      if (isMissingOrEmpty(part, path)) {
        handleMissing(part, path);
      }
      return openAndNoteVersion(part, path, opener);
    } catch (UnusableFile | DamagedJournal e) {
      return setAsideAndOpen(part, path, opener, e);
    }
  }

  private <T> T setAsideAndOpen(
      DataPart part, Path path, Function<Path, T> opener, IllegalStateException reason) {
    boolean recalculable =
        part == DataPart.ROLLUPS && reason instanceof UnusableFile.Damaged && !rawReadingsRemoved;
    if (!recalculable && !setAside.contains(part)) {
      String remedy =
          reason instanceof UnusableFile.NewerVersion ? downgradeRemedy(part) : remedy(part);
      throw new IllegalStateException(reason.getMessage() + ". " + remedy, reason);
    }
    Path aside = setAside(path);
    note(
        "%s. The old file is now %s. %s"
            .formatted(
                reason.getMessage(),
                aside.getFileName(),
                recalculable
                    ? "Its sums are recalculated from the readings."
                    : "A new one was created because of --set-aside."));
    return openAndNoteVersion(part, path, opener);
  }

  private <T> T openAndNoteVersion(DataPart part, Path path, Function<Path, T> opener) {
    if (isMigratedWithCopy(part)) {
      new MigrationCopies(folder).take(part, path).ifPresent(this::note);
    }
    T opened = opener.apply(path);
    versions.put(part, part == DataPart.BROKER ? 0 : SqliteFile.version(path));
    return opened;
  }

  /** The hourly sums can be recalculated, unless raw readings have been removed. */
  private boolean isMigratedWithCopy(DataPart part) {
    return part != DataPart.BROKER && (part != DataPart.ROLLUPS || rawReadingsRemoved);
  }

  private boolean isMissingOrEmpty(DataPart part, Path path) {
    if (!isExpected(part)) {
      return false;
    }
    try {
      if (!Files.exists(path)) {
        return true;
      }
      return part != DataPart.BROKER
          && Files.size(path) <= MAX_EMPTY_FILE_BYTES
          && SqliteFile.version(path) == 0;
    } catch (IOException e) {
      throw new IllegalStateException("cannot read " + path + ": " + e, e);
    }
  }

  /**
   * Returns whether the folder should contain the part. Without a manifest, readings are expected
   * if there are records, and the reverse. If there is a spool, readings may be on a server
   * instead.
   */
  private boolean isExpected(DataPart part) {
    Manifest manifest = previous;
    if (manifest != null) {
      return manifest.parts().containsKey(part.fileName());
    }
    return switch (part) {
      case READINGS -> holds(DataPart.RECORDS) && !exists(DataPart.SPOOL);
      case RECORDS -> holds(DataPart.READINGS) || exists(DataPart.SPOOL);
      case ROLLUPS, SPOOL, BROKER -> false;
    };
  }

  boolean exists(DataPart part) {
    return Files.exists(folder.resolve(part.fileName()));
  }

  private boolean holds(DataPart part) {
    return SqliteFile.version(folder.resolve(part.fileName())) > 0;
  }

  private void handleMissing(DataPart part, Path path) {
    String problem = path + (Files.exists(path) ? " is empty" : " is missing");
    if (setAside.contains(part)) {
      note(problem + ". A new one was created because of --set-aside.");
    } else if (part == DataPart.ROLLUPS && !rawReadingsRemoved) {
      note(problem + ". Its sums are recalculated from the readings.");
    } else if (part == DataPart.BROKER) {
      note(problem + ". If it contained " + part.content() + ", they are lost.");
      return;
    } else {
      throw new IllegalStateException(
          problem + ". It contained " + part.content() + ". " + remedy(part));
    }
    if (Files.exists(path)) {
      setAside(path);
    }
  }

  /** What to do after a return to an older version of the program. */
  private String downgradeRemedy(DataPart part) {
    return "Start the later version again. "
        + new MigrationCopies(folder)
            .newestReadable(part)
            .map(
                copy ->
                    "Or put the copy from before the upgrade ("
                        + copy
                        + ") in its place; what was stored since then is missing in it. ")
            .orElse("")
        + "Or start once with --set-aside "
        + part.fileName()
        + ", which renames the file and creates an empty one.";
  }

  private String remedy(DataPart part) {
    String newest =
        backups
            .newest(part)
            .map(
                path ->
                    path.toString().endsWith(".zip")
                        ? "Restore its newest backup (" + path + ") with the command restore"
                        : "Restore its newest backup (" + path + ")")
            .orElse("Restore a backup (there is none in " + backups.folders() + ")");
    return newest
        + ", or start once with --set-aside "
        + part.fileName()
        + ", which renames the old one and creates a new one.";
  }

  private Path setAside(Path path) {
    String suffix = ".set-aside-" + STAMP.format(clock.instant());
    Path aside = path.resolveSibling(path.getFileName() + suffix);
    try {
      for (String extension : List.of("-wal", "-shm", "")) {
        Path from = path.resolveSibling(path.getFileName() + extension);
        if (Files.exists(from)) {
          Files.move(from, path.resolveSibling(path.getFileName() + suffix + extension));
        }
      }
      return aside;
    } catch (IOException e) {
      throw new IllegalStateException("cannot rename " + path + " to " + aside + ": " + e, e);
    }
  }

  private void note(String message) {
    LOG.warn("{}", message);
    notes.add(message);
  }

  /** Logs each part that the user asked to set aside although it can be used. */
  void warnOfUnneededSetAside() {
    setAside.stream()
        .filter(part -> notes.stream().noneMatch(note -> note.contains(part.fileName())))
        .forEach(part -> LOG.warn("{} can be used; it was not set aside", part.fileName()));
  }

  /** Writes the manifest for the next start. Parts that were not opened this time stay in it. */
  void saveManifest(String clientId) {
    Map<String, Integer> parts = new TreeMap<>(previous == null ? Map.of() : previous.parts());
    versions.forEach((part, version) -> parts.put(part.fileName(), version));
    new Manifest(parts, clientId, rawReadingsRemoved).write(folder, previous);
  }

  /** Returns a message about each part that could not be used; empty if all could. */
  List<String> notes() {
    return List.copyOf(notes);
  }
}
