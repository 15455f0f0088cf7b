package tepidarium.backup;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;

/** Checks the free space of a disk before something large is written to it. */
public final class Room {
  private Room() {}

  /**
   * Checks the disk of a file or folder that may not exist yet.
   *
   * @param reserveBytes space that must stay free
   * @param what the name of the files to be written, for the message
   * @throws IllegalStateException when there is not enough room
   */
  public static void check(Path target, long neededBytes, long reserveBytes, String what)
      throws IOException {
    Path folder = target.toAbsolutePath();
    while (!Files.exists(folder) && folder.getParent() != null) {
      folder = folder.getParent();
    }
    long free = Files.getFileStore(folder).getUsableSpace();
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
}
