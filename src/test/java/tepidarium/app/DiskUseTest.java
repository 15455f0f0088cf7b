package tepidarium.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.RandomAccessFile;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneOffset;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The size of the data folder, day by day, and the forecast from it. */
class DiskUseTest {
  private static final Instant START = Instant.parse("2026-03-01T06:00:00Z");
  private static final long MEBI = 1L << 20;

  @TempDir private Path folder;
  private Path store;
  private Instant now = START;
  private long nanos;
  private DiskUse use;

  @BeforeEach
  void start() {
    store = folder.resolve("sub/readings.db");
    restart();
  }

  private void restart() {
    use =
        new DiskUse(
            folder,
            new Clock() {
              @Override
              public Instant instant() {
                return now;
              }

              @Override
              public ZoneOffset getZone() {
                return ZoneOffset.UTC;
              }

              @Override
              public Clock withZone(java.time.ZoneId zone) {
                throw new UnsupportedOperationException();
              }
            },
            () -> nanos);
  }

  private void pass(Duration time) {
    now = now.plus(time);
    nanos += time.toNanos();
  }

  private void grow(long bytes) throws IOException {
    Files.createDirectories(store.getParent());
    try (RandomAccessFile file = new RandomAccessFile(store.toFile(), "rw")) {
      file.setLength(bytes);
    }
  }

  private void recordDays(int days, long bytesPerDay) throws IOException {
    for (int day = 0; day < days; day++) {
      grow(Files.exists(store) ? Files.size(store) + bytesPerDay : bytesPerDay);
      use.recordDay();
      pass(Duration.ofDays(1));
    }
  }

  /** Free space / 1 MiB a day = the days left; the small file of sizes grows by the way. */
  private void assertForecast() {
    Double seconds = use.disk().secondsUntilFull();
    double days = use.freeBytes() / (double) MEBI;
    assertEquals(days, seconds / 86_400, 0.01 * days);
  }

  @Test
  void theForecastFollowsTheGrowthOfTheFolder() throws IOException {
    recordDays(7, MEBI);
    assertNull(use.disk().secondsUntilFull());
    assertTrue(
        use.words().endsWith(" GiB free, when it will be full cannot be told before 2026-03-08"));
    recordDays(3, MEBI);
    assertForecast();
  }

  @Test
  void aRestartKeepsTheRecord() throws IOException {
    recordDays(10, MEBI);
    restart();
    assertForecast();
  }

  @Test
  void aDamagedFileIsReadAsFarAsPossible() throws IOException {
    recordDays(10, MEBI);
    Path file = folder.resolve(DiskUse.FILE_NAME);
    Files.writeString(file, Files.readString(file) + "\u0000\n2026-03-\n");
    restart();
    assertForecast();
  }

  @Test
  void aWrongClockLeavesNoDaysInTheFuture() throws IOException {
    recordDays(10, MEBI);
    Instant right = now;
    now = now.plus(Duration.ofDays(20));
    use.recordDay();
    now = right;
    use.recordDay();
    assertEquals(11, Files.readAllLines(folder.resolve(DiskUse.FILE_NAME)).size());
    assertForecast();
  }

  @Test
  void onlyTheLast30DaysAreStored() throws IOException {
    recordDays(100, MEBI);
    assertEquals(31, Files.readAllLines(folder.resolve(DiskUse.FILE_NAME)).size());
  }

  @Test
  void theFolderIsWalkedAtMostOnceAMinute() throws IOException {
    grow(MEBI);
    assertEquals(MEBI, use.disk().usedBytes());
    grow(2 * MEBI);
    pass(Duration.ofSeconds(59));
    assertEquals(MEBI, use.disk().usedBytes());
    pass(Duration.ofSeconds(1));
    assertEquals(2 * MEBI, use.disk().usedBytes());
  }
}
