package tepidarium.faults;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;

/** Ways in which a running service can no longer write to its data folder, and their end. */
interface Shortage extends AutoCloseable {
  /** Where the service keeps its data. */
  Path data();

  /** It begins, for the process. */
  void begin(long pid);

  /** It is over. */
  void end(long pid);

  @Override
  void close();

  /** A small disk that somebody fills up to the last byte. */
  static Shortage fullDisk(Path folder) {
    SmallDisk disk = SmallDisk.inMemory(folder.resolve("disk"), 800);
    return new Shortage() {
      @Override
      public Path data() {
        return disk.folder().resolve("data");
      }

      @Override
      public void begin(long pid) {
        disk.fill();
      }

      @Override
      public void end(long pid) {
        disk.free();
      }

      @Override
      public void close() {
        disk.close();
      }
    };
  }

  /** The system refuses the process every further byte in any file. */
  static Shortage fileSizeLimit(Path folder) {
    return new Shortage() {
      @Override
      public Path data() {
        return folder.resolve("data");
      }

      @Override
      public void begin(long pid) {
        limit(pid, "0");
      }

      @Override
      public void end(long pid) {
        limit(pid, "unlimited");
      }

      private void limit(long pid, String bytes) {
        List<String> command =
            List.of("prlimit", "--pid", "" + pid, "--fsize=" + bytes + ":unlimited");
        try {
          int status = new ProcessBuilder(command).inheritIO().start().waitFor();
          if (status != 0) {
            throw new IllegalStateException(command + " ended with " + status);
          }
        } catch (IOException e) {
          throw new IllegalStateException("cannot run " + command, e);
        } catch (InterruptedException e) {
          Thread.currentThread().interrupt();
          throw new IllegalStateException(e);
        }
      }

      @Override
      public void close() {}
    };
  }
}
