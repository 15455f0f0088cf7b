package tepidarium.ingest.mqtt;

import java.io.DataInputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import tepidarium.disk.DiskSpace;

/**
 * Checks the embedded broker's files before the broker starts. The broker itself would treat
 * damaged or missing files as empty.
 */
final class JournalFiles {
  private static final List<String> ENDINGS = List.of(".amq", ".bindings");

  /**
   * Minimum size of a file, 1 MiB. The broker creates each file under a temporary name and renames
   * it once it has its full size.
   */
  private static final long MIN_FILE_BYTES = 1L << 20;

  /** The first four bytes of each file; {@code JournalImpl.FORMAT_VERSION} of the broker. */
  private static final int FORMAT_VERSION = 2;

  private JournalFiles() {}

  /**
   * Checks that both journals are present, and that each file has its full size and the right
   * format version.
   *
   * @throws DamagedJournal naming the file
   */
  static void requireIntact(Path folder) {
    List<Path> messages = filesIn(folder, "journal");
    List<Path> sessions = filesIn(folder, "bindings");
    if (messages.isEmpty() != sessions.isEmpty()) {
      String missing = messages.isEmpty() ? "journal" : "bindings";
      throw new DamagedJournal(folder, "the files in " + missing + " are missing", null);
    }
    for (Path file : Stream.concat(messages.stream(), sessions.stream()).toList()) {
      checkFile(folder, file);
    }
  }

  private static void checkFile(Path folder, Path file) {
    try (DataInputStream in = new DataInputStream(Files.newInputStream(file))) {
      long length = Files.size(file);
      if (length < MIN_FILE_BYTES) {
        throw new DamagedJournal(
            folder, file.getFileName() + " is truncated to " + length + " bytes", null);
      }
      if (in.readInt() != FORMAT_VERSION) {
        throw new DamagedJournal(folder, file.getFileName() + " is not a journal file", null);
      }
    } catch (IOException e) {
      throw new DamagedJournal(folder, file + " cannot be read", e);
    }
  }

  private static List<Path> filesIn(Path folder, String name) {
    Path inside = folder.resolve(name);
    if (!Files.isDirectory(inside)) {
      return List.of();
    }
    try (Stream<Path> files = Files.list(inside)) {
      return files
          .filter(file -> ENDINGS.stream().anyMatch(file.getFileName().toString()::endsWith))
          .toList();
    } catch (IOException e) {
      throw new DamagedJournal(folder, inside + " cannot be read", e);
    }
  }

  /** Creates the exception for a failed start of the broker. */
  static IllegalStateException startFailure(
      Path folder, long minFreeBytes, @Nullable Throwable cause) {
    if (cause instanceof IllegalStateException known) {
      return known;
    }
    if (!Files.isWritable(folder) || DiskSpace.isShort(folder, minFreeBytes)) {
      return new IllegalStateException(
          "the embedded broker cannot write to " + folder + "; the disk may be full", cause);
    }
    String reason = cause == null ? "no reason given" : cause.getMessage();
    return new DamagedJournal(
        folder,
        "its files cannot be read ("
            + (reason == null ? String.valueOf(cause) : reason.lines().findFirst().orElse(""))
            + ")",
        cause);
  }
}
