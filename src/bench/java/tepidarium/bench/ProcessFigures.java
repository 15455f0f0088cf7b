package tepidarium.bench;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;

/** What Linux says of a process: see proc(5). */
record ProcessFigures(long pid) {
  /** USER_HZ, which is 100 on every Linux that Java runs on; common practice, no source. */
  private static final double TICKS_PER_SECOND = 100;

  /** Time on the processors so far, s. */
  double cpuSeconds() {
    String line = read("stat").get(0);
    // The second field is a name in parentheses and may hold blanks.
    String[] fields = line.substring(line.lastIndexOf(')') + 2).split(" ", -1);
    return (Long.parseLong(fields[11]) + Long.parseLong(fields[12])) / TICKS_PER_SECOND;
  }

  /** The most memory that it ever held resident, MiB. */
  double peakMegabytes() {
    return megabytes("VmHWM:");
  }

  private double megabytes(String name) {
    for (String line : read("status")) {
      if (line.startsWith(name)) {
        return Long.parseLong(line.replaceAll("[^0-9]", "")) / 1024.0;
      }
    }
    throw new IllegalStateException("no " + name + " of process " + pid);
  }

  private List<String> read(String file) {
    try {
      return Files.readAllLines(Path.of("/proc", String.valueOf(pid), file));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
