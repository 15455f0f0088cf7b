package tepidarium.backup;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;

/**
 * Replaces small files atomically: after a crash or power cut, a file has its complete old or its
 * complete new content.
 */
public final class DurableFile {
  private DurableFile() {}

  /** Writes a temporary file, syncs it, renames it over the old one, and syncs the folder. */
  public static void write(Path file, byte[] content) throws IOException {
    Path temporary = file.resolveSibling(file.getFileName() + ".new");
    try (FileChannel channel =
        FileChannel.open(
            temporary,
            StandardOpenOption.CREATE,
            StandardOpenOption.TRUNCATE_EXISTING,
            StandardOpenOption.WRITE)) {
      ByteBuffer rest = ByteBuffer.wrap(content);
      while (rest.hasRemaining()) {
        channel.write(rest);
      }
      channel.force(true);
    }
    rename(temporary, file);
  }

  /** Syncs a complete file to the disk. */
  public static void sync(Path file) throws IOException {
    try (FileChannel channel = FileChannel.open(file, StandardOpenOption.WRITE)) {
      channel.force(true);
    }
  }

  /** Renames a synced file, replaces an existing one, and syncs the folder. */
  public static void rename(Path from, Path to) throws IOException {
    Files.move(from, to, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
    syncFolder(to.toAbsolutePath().resolveSibling("."));
  }

  private static void syncFolder(Path folder) {
    try (FileChannel channel = FileChannel.open(folder, StandardOpenOption.READ)) {
      channel.force(true);
    } catch (IOException e) {
      // Some systems cannot sync a folder. The rename is still atomic on them.
    }
  }
}
