package tepidarium.app;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.time.Clock;
import org.jspecify.annotations.Nullable;
import tepidarium.importing.ImportWriter;
import tepidarium.importing.ImportedFile;
import tepidarium.importing.LoggerFile;
import tepidarium.importing.ProfileStore;
import tepidarium.importing.RejectedRows;
import tepidarium.records.ClockRecords;
import tepidarium.records.ImportProfileRecords;
import tepidarium.series.ReadingSink;

/** Stores imported readings in the data folder of a stopped service. */
final class ReadingImport implements AutoCloseable {
  private static final long PROGRESS_NANOS = 2_000_000_000L;

  private final RunningParts running;
  private final ProfileStore profiles;
  private final ReadingSink sink;
  private final @Nullable Double keepRawDays;
  private long nextProgressNanos = System.nanoTime() + PROGRESS_NANOS;
  private volatile boolean stopped;

  private ReadingImport(
      RunningParts running, ProfileStore profiles, ReadingSink sink, @Nullable Double keepRawDays) {
    this.running = running;
    this.profiles = profiles;
    this.sink = sink;
    this.keepRawDays = keepRawDays;
  }

  /**
   * Locks the data folder and opens the stores.
   *
   * @throws IllegalStateException if the service uses the folder, or a store cannot be opened
   */
  static ReadingImport open(Config config, Clock clock) {
    RunningParts running = new RunningParts();
    try {
      OpenFolder folder = OpenFolder.open(config, StartOptions.NONE, clock, running);
      Stores stores = Stores.open(config, folder, clock, running);
      folder.parts().saveManifest(folder.clientId());
      ContainerData containers = ContainerData.over(stores, config.maxGap(), clock);
      noteClock(new ClockRecords(stores.records()), containers, clock);
      ReadingSink sink = stores.storage().directSink(containers.rollups(), containers.sensorDays());
      return new ReadingImport(
          running, new ImportProfileRecords(stores.records()), sink, config.keeping().rawDays());
    } catch (RuntimeException e) {
      running.close();
      throw e;
    }
  }

  /**
   * In a new folder, stores the time of this machine as the last known one. Otherwise the next
   * start would compare the clock with the newest imported reading and doubt it.
   */
  private static void noteClock(ClockRecords records, ContainerData containers, Clock clock) {
    if (records.lastSeen().isEmpty() && containers.newestReading().isEmpty()) {
      records.store(clock.instant());
    }
  }

  /**
   * Stores the readings of a file and prints the result.
   *
   * @param fromLine rows before this line are read, but not stored
   * @param rejectedFolder folder of the file of rejected rows; null for the folder of the file
   * @return whether the whole file was read; false after {@link #stop}
   */
  boolean store(
      ImportedFile file,
      LoggerFile opened,
      long fromLine,
      @Nullable Path rejectedFolder,
      PrintWriter out)
      throws IOException {
    try (RejectedRows rejected = new RejectedRows(file.path(), rejectedFolder, fromLine > 1);
        ImportWriter writer =
            new ImportWriter(
                sink, rejected, fromLine, file, () -> stopped, now -> print(now, file))) {
      opened.read(writer).forEach(note -> out.println("  " + note));
      writer.finish();
      if (stopped) {
        out.println(writer.whereToContinue());
      }
      out.println("  " + writer.summary() + ", " + rejected.summary() + '.');
      if (keepRawDays != null) {
        out.println("  The service deletes readings older than keepRawDays: " + keepRawDays + '.');
      }
      out.flush();
      return !stopped;
    } catch (UncheckedIOException e) {
      throw new IllegalStateException(e.getMessage(), e);
    }
  }

  /** Prints the progress to standard error, at most every two seconds. */
  private void print(ImportWriter writer, ImportedFile file) {
    if (System.nanoTime() >= nextProgressNanos) {
      nextProgressNanos = System.nanoTime() + PROGRESS_NANOS;
      System.err.printf(
          "  %d %%, line %,d: %s%n", file.percentRead(), writer.lastLine(), writer.summary());
    }
  }

  ProfileStore profiles() {
    return profiles;
  }

  /** Ends the import after the current row. */
  void stop() {
    stopped = true;
  }

  @Override
  public void close() {
    running.close();
  }
}
