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
import java.util.Locale;
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
 * Opens the parts of a data folder and decides about those that are missing, emptied, damaged or of
 * a later version: the start is refused with the remedy, unless the part holds nothing that cannot
 * be made again, or the user has asked to set it aside. A part that is set aside keeps its content
 * under a new name. Safe for use by several threads, each opening parts of its own.
 */
final class DataParts {
  private static final Logger LOG = LoggerFactory.getLogger(DataParts.class);
  private static final DateTimeFormatter STAMP =
      DateTimeFormatter.ofPattern("uuuuMMdd'T'HHmmss'Z'").withZone(ZoneOffset.UTC);

  /** An SQLite file up to this size may be one whose tables have been removed. */
  private static final long MAY_BE_EMPTIED_BYTES = 8_192;

  private final Path folder;
  private final Clock clock;
  private final Set<DataPart> setAside;
  private final @Nullable Manifest before;
  private final boolean rawReadingsRemoved;
  private final Map<DataPart, Integer> versions = new ConcurrentHashMap<>();
  private final List<String> notes = new CopyOnWriteArrayList<>();

  /**
   * Prepares to open the parts.
   *
   * @param before the list of the last start; null where there is none
   * @param setAside the parts to be set aside if they cannot be used
   * @param removesRawReadings whether the settings let old raw readings be removed
   */
  DataParts(
      Path folder,
      Clock clock,
      @Nullable Manifest before,
      Set<DataPart> setAside,
      boolean removesRawReadings) {
    this.folder = folder;
    this.clock = clock;
    this.before = before == null && isFresh() ? begin() : before;
    this.setAside = setAside.isEmpty() ? EnumSet.noneOf(DataPart.class) : EnumSet.copyOf(setAside);
    this.rawReadingsRemoved = removesRawReadings || (before != null && before.rawReadingsRemoved());
  }

  private boolean isFresh() {
    return Arrays.stream(DataPart.values()).noneMatch(this::exists);
  }

  /** Tells a start that was cut short from a folder of an older version, which has no list. */
  private Manifest begin() {
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
      if (isLost(part, path)) {
        decideOnLost(part, path);
      }
      return opened(part, path, opener);
    } catch (UnusableFile | DamagedJournal e) {
      return afterSettingAside(part, path, opener, e);
    }
  }

  private <T> T afterSettingAside(
      DataPart part, Path path, Function<Path, T> opener, IllegalStateException reason) {
    boolean byItself =
        part == DataPart.LEDGER && reason instanceof UnusableFile.Damaged && !rawReadingsRemoved;
    if (!byItself && !setAside.contains(part)) {
      throw new IllegalStateException(reason.getMessage() + ". " + remedy(part), reason);
    }
    Path aside = setAside(path);
    note(
        "%s. It is kept as %s. %s"
            .formatted(
                reason.getMessage(),
                aside.getFileName(),
                byItself
                    ? "Its sums are made again from the readings."
                    : "A new one was begun, as --set-aside says."));
    return opened(part, path, opener);
  }

  private <T> T opened(DataPart part, Path path, Function<Path, T> opener) {
    T opened = opener.apply(path);
    versions.put(part, part == DataPart.BROKER ? 0 : SqliteFile.version(path));
    return opened;
  }

  private boolean isLost(DataPart part, Path path) {
    if (!isExpected(part)) {
      return false;
    }
    try {
      if (!Files.exists(path)) {
        return true;
      }
      return part != DataPart.BROKER
          && Files.size(path) <= MAY_BE_EMPTIED_BYTES
          && SqliteFile.version(path) == 0;
    } catch (IOException e) {
      throw new IllegalStateException("cannot read " + path + ": " + e, e);
    }
  }

  /**
   * Whether the part was there before. Without a list, one of readings and records is expected
   * where the other is; readings may be in InfluxDB where there is a spool.
   */
  private boolean isExpected(DataPart part) {
    Manifest known = before;
    if (known != null) {
      return known.parts().containsKey(part.fileName());
    }
    return switch (part) {
      case READINGS -> holds(DataPart.RECORDS) && !exists(DataPart.SPOOL);
      case RECORDS -> holds(DataPart.READINGS) || exists(DataPart.SPOOL);
      case LEDGER, SPOOL, BROKER -> false;
    };
  }

  boolean exists(DataPart part) {
    return Files.exists(folder.resolve(part.fileName()));
  }

  private boolean holds(DataPart part) {
    return SqliteFile.version(folder.resolve(part.fileName())) > 0;
  }

  private void decideOnLost(DataPart part, Path path) {
    String what = path + (Files.exists(path) ? " has been emptied" : " is missing");
    if (setAside.contains(part)) {
      note(what + ". A new one was begun, as --set-aside says.");
    } else if (part == DataPart.LEDGER && !rawReadingsRemoved) {
      note(what + ". Its sums are made again from the readings.");
    } else if (part == DataPart.BROKER) {
      note(what + ". " + capital(part.content()) + " were lost with it, if there were any.");
      return;
    } else {
      throw new IllegalStateException(
          what + ", and it held " + part.content() + ". " + remedy(part));
    }
    if (Files.exists(path)) {
      setAside(path);
    }
  }

  private static String capital(String words) {
    return words.substring(0, 1).toUpperCase(Locale.ROOT) + words.substring(1);
  }

  private String remedy(DataPart part) {
    String backup =
        Backups.newest(folder, part)
            .map(path -> "Put its newest backup in its place (" + path + ")")
            .orElse(
                "Put a backup in its place (there is none in "
                    + folder.resolve(Backups.FOLDER_NAME)
                    + ")");
    return backup
        + ", or start once with --set-aside "
        + part.fileName()
        + ", which keeps the old one under a new name and begins an empty one.";
  }

  private Path setAside(Path path) {
    String suffix = ".set-aside-" + STAMP.format(clock.instant());
    Path aside = path.resolveSibling(path.getFileName() + suffix);
    try {
      for (String more : List.of("-wal", "-shm", "")) {
        Path from = path.resolveSibling(path.getFileName() + more);
        if (Files.exists(from)) {
          Files.move(from, path.resolveSibling(path.getFileName() + suffix + more));
        }
      }
      return aside;
    } catch (IOException e) {
      throw new IllegalStateException("cannot rename " + path + " to " + aside + ": " + e, e);
    }
  }

  private void note(String words) {
    LOG.warn("{}", words);
    notes.add(words);
  }

  /** Says so where the user wanted to set aside what can be used. */
  void tellOfNeedless() {
    setAside.stream()
        .filter(part -> notes.stream().noneMatch(note -> note.contains(part.fileName())))
        .forEach(part -> LOG.warn("{} can be used, so it is not set aside", part.fileName()));
  }

  /** Keeps the list for the next start. Parts that were not opened this time stay in it. */
  void remember(String clientId) {
    Map<String, Integer> parts = new TreeMap<>(before == null ? Map.of() : before.parts());
    versions.forEach((part, version) -> parts.put(part.fileName(), version));
    new Manifest(parts, clientId, rawReadingsRemoved).write(folder, before);
  }

  /** What was decided about parts that could not be used, in words; empty where nothing was. */
  List<String> notes() {
    return List.copyOf(notes);
  }
}
