package tepidarium.faults;

import java.io.IOException;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.List;
import java.util.concurrent.TimeUnit;

/**
 * A small file system of a test's own, which can be filled up. To mount one needs a root that may
 * mount.
 */
final class SmallDisk implements AutoCloseable {
  private static final int LIMIT_SECONDS = 30;
  private static final int BLOCK_BYTES = 4_096;

  private final Path folder;
  private final List<String> mount;

  private SmallDisk(Path folder, List<String> mount) {
    this.folder = folder;
    this.mount = List.copyOf(mount);
  }

  /** Whether this machine lets the test mount one. */
  static boolean canMount() {
    try {
      Path folder = Files.createTempDirectory("small-disk");
      try (SmallDisk memory = inMemory(folder.resolve("memory"), 1)) {
        return Files.isDirectory(memory.folder);
      } catch (IllegalStateException e) {
        return false;
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** One in memory. */
  static SmallDisk inMemory(Path folder, int megabytes) {
    return new SmallDisk(
            folder,
            List.of("mount", "-t", "tmpfs", "-o", "size=" + megabytes + "m", "tmpfs", "" + folder))
        .mounted();
  }

  private SmallDisk mounted() {
    try {
      Files.createDirectories(folder);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    run(mount);
    return this;
  }

  Path folder() {
    return folder;
  }

  /** Takes all space that is left. */
  void fill() {
    byte[] block = new byte[BLOCK_BYTES];
    try (OutputStream ballast =
        Files.newOutputStream(ballast(), StandardOpenOption.CREATE, StandardOpenOption.APPEND)) {
      while (true) {
        ballast.write(block);
      }
    } catch (IOException e) {
      // Full.
    }
  }

  /** Gives back what was taken. */
  void free() {
    try {
      Files.delete(ballast());
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private Path ballast() {
    return folder.resolve("ballast");
  }

  private static void run(List<String> command) {
    try {
      Process process = new ProcessBuilder(command).redirectErrorStream(true).start();
      String output = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
      if (!process.waitFor(LIMIT_SECONDS, TimeUnit.SECONDS) || process.exitValue() != 0) {
        throw new IllegalStateException(command + ": " + output);
      }
    } catch (IOException e) {
      throw new IllegalStateException("cannot run " + command, e);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException(e);
    }
  }

  @Override
  public void close() {
    run(List.of("umount", "-l", "" + folder));
  }
}
