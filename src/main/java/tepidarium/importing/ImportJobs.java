package tepidarium.importing;

import java.io.FileOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.concurrent.atomic.AtomicLong;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import tepidarium.disk.DiskSpace;
import tepidarium.reading.InputRule;
import tepidarium.reading.InvalidInput;
import tepidarium.series.ReadingSink;

/**
 * Keeps the files that were uploaded to the running service for import, at most {@value #MAX_FILES}
 * in a folder. Deletes the files of the previous run when the service starts. One import runs at a
 * time. Thread-safe.
 */
public final class ImportJobs implements AutoCloseable {
  public static final long MAX_BYTES = 2L << 30;
  public static final int MAX_FILES = 5;

  /** Readings may be this much ahead of the clock of this machine. */
  private static final Duration MAX_AHEAD = Duration.ofMinutes(5);

  /** Free space on the disk that an upload leaves, in bytes. */
  private static final long RESERVE_BYTES = 512L << 20;

  private static final int MAX_NAME = 120;
  private static final int BUFFER_BYTES = 1 << 16;

  /** The free space is measured again after this many bytes of an upload. */
  private static final long MEASURE_EVERY_BYTES = 64L << 20;

  private static final Pattern OWN_FILE = Pattern.compile("\\d+\\.upload(-rejected\\.csv)?");

  /** Measures the free space of the disk that holds a folder, in bytes. */
  @FunctionalInterface
  interface FreeSpace {
    long bytes(Path folder) throws IOException;
  }

  private final Path folder;
  private final ReadingSink sink;
  private final ZoneId zone;
  private final Clock clock;
  private final FreeSpace freeSpace;
  private final AtomicLong ids = new AtomicLong();

  /** Guarded by this. */
  private final Map<Long, ImportJob> jobs = new LinkedHashMap<>();

  /** Number of uploads in progress. Guarded by this. */
  private int uploading;

  /**
   * Prepares the folder.
   *
   * @param sink stores readings; may be called by a thread of an import at any time
   * @param zone time zone of files that name none
   */
  public ImportJobs(Path folder, ReadingSink sink, ZoneId zone, Clock clock) {
    this(folder, sink, zone, clock, DiskSpace::freeBytes);
  }

  ImportJobs(Path folder, ReadingSink sink, ZoneId zone, Clock clock, FreeSpace freeSpace) {
    this.freeSpace = freeSpace;
    this.folder = folder;
    this.sink = sink;
    this.zone = zone;
    this.clock = clock;
    clear();
  }

  private void clear() {
    if (!Files.isDirectory(folder)) {
      return;
    }
    try (DirectoryStream<Path> left = Files.newDirectoryStream(folder)) {
      for (Path file : left) {
        if (OWN_FILE.matcher(file.getFileName().toString()).matches()) {
          Files.deleteIfExists(file);
        }
      }
    } catch (IOException e) {
      throw new IllegalStateException("cannot delete old uploads in " + folder + ": " + e, e);
    }
  }

  /**
   * Stores an uploaded file. If it is refused, reads the rest of the content and discards it: a
   * browser loses an answer that arrives while it still sends.
   *
   * @param name the name of the file on the computer of the person
   * @param length length of the content in bytes; -1 if unknown
   * @return the id of its import
   * @throws InvalidInput if it is too large, there is no space, or there are too many files
   */
  public long upload(String name, long length, InputStream content) throws IOException {
    try {
      return store(name, length, content);
    } catch (IOException | RuntimeException e) {
      try {
        discard(content);
      } catch (IOException lost) {
        e.addSuppressed(lost);
      }
      throw e;
    }
  }

  private static void discard(InputStream content) throws IOException {
    byte[] buffer = new byte[BUFFER_BYTES];
    long total = 0;
    for (int read = 0; read >= 0 && total <= MAX_BYTES; read = content.read(buffer)) {
      total += read;
    }
  }

  private long store(String name, long length, InputStream content) throws IOException {
    String shown = name.strip();
    if (shown.isEmpty() || shown.length() > MAX_NAME) {
      throw new InvalidInput(
          "name",
          "must be the name of the file, at most 120 characters",
          InputRule.LENGTH.with(MAX_NAME));
    }
    long id = ids.incrementAndGet();
    synchronized (this) {
      if (jobs.size() + uploading >= MAX_FILES) {
        throw InvalidInput.full("uploaded files", MAX_FILES);
      }
      uploading++;
    }
    Path file = folder.resolve(id + ".upload");
    try {
      Files.createDirectories(folder);
      copy(length, content, file);
      synchronized (this) {
        jobs.put(id, new ImportJob(shown, file));
      }
    } catch (IOException | RuntimeException e) {
      Files.deleteIfExists(file);
      throw e;
    } finally {
      synchronized (this) {
        uploading--;
      }
    }
    return id;
  }

  private void copy(long length, InputStream content, Path file) throws IOException {
    checkSpace(length);
    try (OutputStream out = new FileOutputStream(file.toFile())) {
      byte[] buffer = new byte[BUFFER_BYTES];
      long total = 0;
      long measured = 0;
      for (int read = content.read(buffer); read >= 0; read = content.read(buffer)) {
        total += read;
        if (total > MAX_BYTES) {
          throw new InvalidInput(
              "the file is larger than 2 GiB. Use the command import, or split the file",
              InputRule.FILE_TOO_LARGE.with(MAX_BYTES >> 30));
        }
        if (total - measured >= MEASURE_EVERY_BYTES) {
          measured = total;
          checkSpace(length - total);
        }
        out.write(buffer, 0, read);
      }
    }
  }

  /** Checks that the bytes to come fit on the disk; at least the bytes until the next check. */
  private void checkSpace(long bytesToCome) throws IOException {
    long needed = Math.max(bytesToCome, MEASURE_EVERY_BYTES) + RESERVE_BYTES;
    if (freeSpace.bytes(folder) < needed) {
      throw new InvalidInput(
          "the disk has too little space for the file. Free some space, or use the command import",
          InputRule.NO_SPACE.with());
    }
  }

  /** All uploaded files by id, the oldest first. */
  public synchronized Map<Long, ImportJob> all() {
    return new LinkedHashMap<>(jobs);
  }

  /** The import with this id; null if there is none. */
  public synchronized @Nullable ImportJob job(long id) {
    return jobs.get(id);
  }

  public ImportJob.Preview preview(ImportJob job, ImportChoices choices, ImportTexts texts) {
    return job.preview(choices, zone, latest(), texts);
  }

  private Instant latest() {
    return clock.instant().plus(MAX_AHEAD);
  }

  /**
   * Starts or continues an import.
   *
   * @throws InvalidInput if another one runs, or it cannot start
   */
  public synchronized void start(ImportJob job, ImportChoices choices, ImportTexts texts) {
    boolean busy =
        jobs.values().stream()
            .anyMatch(one -> one.progress().state() == ImportJob.State.RUNNING && one != job);
    if (busy) {
      throw new InvalidInput(
          "another import is running. Wait for its end, or stop it", InputRule.RUNNING.with());
    }
    job.start(
        choices,
        zone,
        latest(),
        texts,
        sink,
        work -> {
          Thread thread = new Thread(work, "import");
          thread.setDaemon(true);
          return thread;
        });
  }

  /**
   * Removes an uploaded file.
   *
   * @return whether there was one
   * @throws InvalidInput if its import runs
   */
  public synchronized boolean remove(long id) throws IOException {
    ImportJob job = jobs.get(id);
    if (job == null) {
      return false;
    }
    if (job.progress().state() == ImportJob.State.RUNNING) {
      throw new InvalidInput("the import is running. Stop it first", InputRule.RUNNING.with());
    }
    jobs.remove(id);
    job.delete();
    return true;
  }

  /** Stops the running import; waits up to 10 s for its end. */
  @Override
  public void close() {
    all().values().forEach(ImportJob::stop);
    all().values().forEach(ImportJob::awaitEnd);
  }
}
