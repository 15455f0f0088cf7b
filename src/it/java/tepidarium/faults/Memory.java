package tepidarium.faults;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;

/** What Linux says of a process's memory. */
final class Memory {
  private Memory() {}

  /** The most that was ever resident, MiB. */
  static long peakMegabytes(long pid) {
    return megabytes(pid, "VmHWM:");
  }

  /** What is resident now, MiB. */
  static long residentMegabytes(long pid) {
    return megabytes(pid, "VmRSS:");
  }

  private static long megabytes(long pid, String name) {
    try {
      String line =
          Files.readAllLines(Path.of("/proc/" + pid + "/status")).stream()
              .filter(text -> text.startsWith(name))
              .findFirst()
              .orElseThrow();
      return Long.parseLong(line.replaceAll("[^0-9]", "")) / 1024;
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
