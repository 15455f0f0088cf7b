package tepidarium.backup;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.FileAttribute;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.Set;

/**
 * Replaces small files atomically: after a crash or power cut, a file has its complete old or its
 * complete new content.
 */
public final class DurableFile {
  private DurableFile() {}

  /** Writes a temporary file, syncs it, renames it over the old one, and syncs the folder. */
  public static void write(Path file, byte[] content) throws IOException {
    write(file, content, new FileAttribute<?>[0]);
  }

  /** Writes a file in the same way that only its owner may read, where the system has owners. */
  public static void writePrivate(Path file, byte[] content) throws IOException {
    if (file.getFileSystem().supportedFileAttributeViews().contains("posix")) {
      write(
          file,
          content,
          PosixFilePermissions.asFileAttribute(PosixFilePermissions.fromString("rw-------")));
    } else {
      write(file, content);
    }
  }

  private static void write(Path file, byte[] content, FileAttribute<?>... attributes)
      throws IOException {
    Path temporary = file.resolveSibling(file.getFileName() + ".new");
    Files.deleteIfExists(temporary);
    Set<StandardOpenOption> options =
        Set.of(StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE);
    try (FileChannel channel = FileChannel.open(temporary, options, attributes)) {
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
