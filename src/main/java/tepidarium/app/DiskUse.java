package tepidarium.app;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.time.format.DateTimeParseException;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.TreeMap;
import java.util.function.LongSupplier;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import tepidarium.backup.DurableFile;
import tepidarium.disk.DailySize;
import tepidarium.disk.DiskForecast;
import tepidarium.disk.DiskSpace;
import tepidarium.web.system.ServiceInfo.Disk;

/**
 * Measures the size of the data folder, and stores it once a day (UTC) for the forecast of when the
 * disk is full. The sizes of the last 30 days are in the file {@code disk-use.csv} of the folder.
 * The folder is walked at most once a minute. Thread-safe.
 */
final class DiskUse {
  private static final Logger LOG = LoggerFactory.getLogger(DiskUse.class);
  static final String FILE_NAME = "disk-use.csv";
  private static final long WALK_INTERVAL_NANOS = Duration.ofMinutes(1).toNanos();
  private static final double MS_PER_DAY = 86_400_000;

  private final Path folder;
  private final Clock clock;
  private final LongSupplier nanos;

  /** Guarded by this. */
  private final TreeMap<LocalDate, Long> bytesByDay = new TreeMap<>();

  /** Guarded by this; null before the first measurement. */
  private @Nullable Long walkedNanos;

  /** Guarded by this. */
  private long usedBytes;

  /**
   * Reads the stored sizes.
   *
   * @param nanos monotonic time
   */
  DiskUse(Path folder, Clock clock, LongSupplier nanos) {
    this.folder = folder;
    this.clock = clock;
    this.nanos = nanos;
    load();
  }

  /** Begins again without the lines that cannot be read. */
  private void load() {
    Path file = folder.resolve(FILE_NAME);
    if (!Files.exists(file)) {
      return;
    }
    try {
      for (String line : Files.readString(file, StandardCharsets.ISO_8859_1).lines().toList()) {
        String[] cells = line.split(",", 2);
        try {
          bytesByDay.put(LocalDate.parse(cells[0]), Long.parseLong(cells[cells.length - 1]));
        } catch (DateTimeParseException | NumberFormatException e) {
          LOG.warn("ignoring a line of {} that is not a day and a size", file);
        }
      }
    } catch (IOException e) {
      LOG.warn("cannot read {}; the forecast of the disk begins again: {}", file, e.toString());
    }
  }

  /** Returns the free bytes on the disk of the data folder; the largest number if unknown. */
  long freeBytes() {
    try {
      return DiskSpace.freeBytes(folder);
    } catch (IOException e) {
      LOG.warn("cannot read the free space of {}: {}", folder, e.toString());
      return Long.MAX_VALUE;
    }
  }

  /** Stores the size of today, once a day. Call this only while the clock is trusted. */
  synchronized void recordDay() {
    LocalDate today = today();
    if (bytesByDay.containsKey(today)) {
      return;
    }
    try {
      bytesByDay.put(today, usedBytes());
      bytesByDay.tailMap(today, false).clear();
      bytesByDay.headMap(today.minusDays(DiskForecast.LOOKS_BACK_DAYS), false).clear();
      StringBuilder lines = new StringBuilder();
      bytesByDay.forEach((day, bytes) -> lines.append(day).append(',').append(bytes).append('\n'));
      DurableFile.write(
          folder.resolve(FILE_NAME), lines.toString().getBytes(StandardCharsets.US_ASCII));
    } catch (IOException e) {
      LOG.warn("cannot store the size of {}: {}", folder, e.toString());
    }
  }

  private LocalDate today() {
    return LocalDate.ofInstant(clock.instant(), ZoneOffset.UTC);
  }

  /** Returns the size of the folder, at most a minute old. */
  private synchronized long usedBytes() throws IOException {
    long now = nanos.getAsLong();
    Long walked = walkedNanos;
    if (walked == null || now - walked >= WALK_INTERVAL_NANOS) {
      usedBytes = DiskSpace.usedBytes(folder);
      walkedNanos = now;
    }
    return usedBytes;
  }

  private synchronized DiskForecast forecast(long freeBytes) {
    List<DailySize> sizes = new ArrayList<>();
    bytesByDay.forEach((day, bytes) -> sizes.add(new DailySize(day, bytes)));
    return DiskForecast.of(sizes, freeBytes, today());
  }

  /** Such as "12.3 GiB free, full in about 14 months at this rate". */
  String words() {
    long free = freeBytes();
    return free == Long.MAX_VALUE
        ? "the free space cannot be read"
        : gibibytes(free) + " GiB free, " + forecast(free).words();
  }

  private static String gibibytes(long bytes) {
    return String.format(Locale.ROOT, "%.1f", bytes / (double) (1L << 30));
  }

  /** Returns the space for the metrics; 0 where it cannot be read. */
  Disk disk() {
    try {
      long free = DiskSpace.freeBytes(folder);
      Double days = forecast(free).daysLeft();
      return new Disk(usedBytes(), free, days == null ? null : days * MS_PER_DAY / 1_000);
    } catch (IOException e) {
      LOG.warn("cannot measure {}: {}", folder, e.toString());
      return new Disk(0, 0, null);
    }
  }
}
