package tepidarium.app;

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
final class DurableFile {
  private DurableFile() {}

  /** Writes a temporary file, syncs it, renames it over the old one, and syncs the folder. */
  static void write(Path file, byte[] content) throws IOException {
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
    Files.move(
        temporary, file, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
    syncFolder(file.toAbsolutePath().resolveSibling("."));
  }

  private static void syncFolder(Path folder) {
    try (FileChannel channel = FileChannel.open(folder, StandardOpenOption.READ)) {
      channel.force(true);
    } catch (IOException e) {
      // Some systems cannot sync a folder. The rename is still atomic on them.
    }
  }
}
