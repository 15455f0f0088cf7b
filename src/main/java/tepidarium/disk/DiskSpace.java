package tepidarium.disk;

import java.io.IOException;
import java.nio.file.FileVisitResult;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.SimpleFileVisitor;
import java.nio.file.attribute.BasicFileAttributes;
import java.util.concurrent.atomic.AtomicLong;

/** Reads the free space of disks and the sizes of folders. */
public final class DiskSpace {
  private DiskSpace() {}

  /** Returns the free bytes on the disk of a file or folder, which may not exist yet. */
  public static long freeBytes(Path target) throws IOException {
    Path folder = target.toAbsolutePath();
    while (!Files.exists(folder) && folder.getParent() != null) {
      folder = folder.getParent();
    }
    return Files.getFileStore(folder).getUsableSpace();
  }

  /** Whether a disk has less free space than this; also if its free space cannot be read. */
  public static boolean isShort(Path target, long bytes) {
    try {
      return freeBytes(target) < bytes;
    } catch (IOException e) {
      return true;
    }
  }

  /**
   * Checks the free space before something large is written.
   *
   * @param target a file or folder that may not exist yet
   * @param reserveBytes space that must stay free
   * @param what the name of the files to be written, for the message
   * @throws IllegalStateException when there is not enough room
   */
  public static void require(Path target, long neededBytes, long reserveBytes, String what)
      throws IOException {
    long free = freeBytes(target);
    if (free - reserveBytes < neededBytes) {
      throw new IllegalStateException(
          ("there is not enough room on the disk of %s: %s needs up to %,d MiB, and %,d MiB are free."
                  + " Free some space, or choose another disk")
              .formatted(target, what, megabytes(neededBytes + reserveBytes), free >> 20));
    }
  }

  /** Rounds up. */
  private static long megabytes(long bytes) {
    return (bytes >> 20) + 1;
  }

  /** Returns the bytes in all files of a folder. Leaves out files that vanish meanwhile. */
  public static long usedBytes(Path folder) throws IOException {
    AtomicLong bytes = new AtomicLong();
    Files.walkFileTree(
        folder,
        new SimpleFileVisitor<>() {
          @Override
          public FileVisitResult visitFile(Path file, BasicFileAttributes attributes) {
            bytes.addAndGet(attributes.isRegularFile() ? attributes.size() : 0);
            return FileVisitResult.CONTINUE;
          }

          @Override
          public FileVisitResult visitFileFailed(Path file, IOException e) throws IOException {
            if (file.equals(folder)) {
              throw e;
            }
            return FileVisitResult.CONTINUE;
          }

          @Override
          public FileVisitResult postVisitDirectory(Path visited, IOException e) {
            return FileVisitResult.CONTINUE;
          }
        });
    return bytes.get();
  }
}
