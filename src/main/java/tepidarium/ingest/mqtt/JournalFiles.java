package tepidarium.ingest.mqtt;

import java.io.DataInputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/**
 * Looks at the embedded broker's files before it starts. The broker itself starts with empty or
 * missing files as if nothing had been in them.
 */
final class JournalFiles {
  private static final List<String> ENDINGS = List.of(".amq", ".bindings");

  /** The broker makes its files at full size under another name; none has ever been shorter. */
  private static final long LEAST_FILE_BYTES = 1L << 20;

  /** The first four bytes of each file; {@code JournalImpl.FORMAT_VERSION} of the broker. */
  private static final int FORMAT_VERSION = 2;

  private JournalFiles() {}

  /**
   * Refuses a folder in which one of the two journals is missing, or a file is cut short or does
   * not begin as it must.
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
      refuseDamagedFile(folder, file);
    }
  }

  private static void refuseDamagedFile(Path folder, Path file) {
    try (DataInputStream in = new DataInputStream(Files.newInputStream(file))) {
      long length = Files.size(file);
      if (length < LEAST_FILE_BYTES) {
        throw new DamagedJournal(
            folder, file.getFileName() + " has been cut to " + length + " bytes", null);
      }
      if (in.readInt() != FORMAT_VERSION) {
        throw new DamagedJournal(
            folder, file.getFileName() + " does not begin as a journal file", null);
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

  /** Why the broker did not start on this folder, in words. */
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
