package tepidarium.ingest.mqtt;

import java.io.DataInputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/**
 * Checks the embedded broker's files before it starts. The broker itself would start with damaged
 * or missing files as if they had been empty.
 */
final class JournalFiles {
  private static final List<String> ENDINGS = List.of(".amq", ".bindings");

  /** Minimum size of a file. The broker creates each file at full size under a temporary name. */
  private static final long LEAST_FILE_BYTES = 1L << 20;

  /** The first four bytes of each file; {@code JournalImpl.FORMAT_VERSION} of the broker. */
  private static final int FORMAT_VERSION = 2;

  private JournalFiles() {}

  /**
   * Checks that both journals are present, and that each file has its full size and the right
   * format version.
   *
   * @throws DamagedJournal naming the file
   */
  static void refuseDamaged(Path folder) {
    List<Path> messages = in(folder, "journal");
    List<Path> sessions = in(folder, "bindings");
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
      if (length < LEAST_FILE_BYTES) {
        throw new DamagedJournal(
            folder, file.getFileName() + " has been cut to " + length + " bytes", null);
      }
      if (in.readInt() != FORMAT_VERSION) {
        throw new DamagedJournal(folder, file.getFileName() + " is not a journal file", null);
      }
    } catch (IOException e) {
      throw new DamagedJournal(folder, file + " cannot be read", e);
    }
  }

  private static List<Path> in(Path folder, String name) {
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
  static IllegalStateException failed(Path folder, long leastFreeBytes, @Nullable Throwable cause) {
    if (cause instanceof IllegalStateException known) {
      return known;
    }
    if (!Files.isWritable(folder) || folder.toFile().getUsableSpace() < leastFreeBytes) {
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
