package tepidarium.backup;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.TimeUnit;
import java.util.function.BooleanSupplier;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import tepidarium.thread.DaemonThreads;

/**
 * Makes backups at the interval of the settings, on a thread of its own. A backup that was missed
 * because the machine was off is made a minute after the start. Deletes old backups, but only files
 * that it made itself, and none while the clock is in doubt.
 */
public final class ScheduledBackups implements AutoCloseable {
  private static final Logger LOG = LoggerFactory.getLogger(ScheduledBackups.class);
  private static final DateTimeFormatter STAMP =
      DateTimeFormatter.ofPattern("uuuuMMdd'T'HHmmss'Z'").withZone(ZoneOffset.UTC);

  /**
   * Where the backups go.
   *
   * @param folder the folder of the backups
   * @param create whether to create the folder. A folder of the grower's choice is not created: it
   *     may be on a disk that is not mounted.
   */
  public record Target(Path folder, boolean create) {}

  private final BackupSchedule schedule;
  private final Supplier<BackupSource> source;
  private final Path data;
  private final Target target;
  private final BooleanSupplier clockInDoubt;
  private final Clock clock;
  private final BackupWriter writer;
  private final ScheduledExecutorService thread =
      Executors.newSingleThreadScheduledExecutor(DaemonThreads.named("backups"));
  private volatile BackupState state;

  /**
   * Creates the backups; {@link #start} starts them.
   *
   * @param data the data folder, which also holds the list of the backups made
   */
  public ScheduledBackups(
      BackupSchedule schedule,
      Path data,
      Supplier<BackupSource> source,
      Target target,
      BooleanSupplier clockInDoubt,
      Clock clock) {
    this.schedule = schedule;
    this.data = data;
    this.source = source;
    this.target = target;
    this.clockInDoubt = clockInDoubt;
    this.clock = clock;
    this.writer = new BackupWriter(clock);
    this.state = BackupState.read(data);
  }

  /**
   * Starts the backups.
   *
   * @param interval time between two checks whether a backup is due, and before the first one
   */
  public void start(Duration interval) {
    if (schedule.every() != null) {
      long ms = interval.toMillis();
      var unused = thread.scheduleWithFixedDelay(this::run, ms, ms, TimeUnit.MILLISECONDS);
    }
  }

  /** Makes a backup if one is due. */
  void run() {
    Instant now = clock.instant();
    if (!schedule.isDue(state, now)) {
      return;
    }
    try {
      BackupState.Made made = make(now);
      update(state.done(now, made));
      LOG.info("backup written: {}", made.path());
      deleteOld();
    } catch (RuntimeException | IOException | Error e) {
      String reason = e instanceof IOException ? e.toString() : String.valueOf(e.getMessage());
      LOG.warn("the automatic backup failed: {}", reason);
      update(state.failed(now, reason));
    }
  }

  private BackupState.Made make(Instant now) throws IOException {
    String interrupted = state.started();
    if (interrupted != null) {
      BackupWriter.deleteLeftovers(Path.of(interrupted));
    }
    if (target.create()) {
      Files.createDirectories(target.folder());
    } else if (!Files.isDirectory(target.folder())) {
      throw new IllegalStateException(
          "there is no folder " + target.folder() + ". Create it, or mount its disk");
    }
    Path file =
        target
            .folder()
            .toAbsolutePath()
            .normalize()
            .resolve("records-" + STAMP.format(now) + ".zip");
    update(state.started(file));
    BackupFile written = writer.write(source.get(), file);
    return new BackupState.Made(file.toString(), written.seal(), Files.size(file));
  }

  private void deleteOld() throws IOException {
    if (clockInDoubt.getAsBoolean()) {
      return;
    }
    Path folder = target.folder().toAbsolutePath().normalize();
    for (BackupState.Made old :
        schedule.toDelete(
            state,
            made -> {
              Path path = Path.of(made.path());
              return folder.equals(path.getParent()) && Files.exists(path);
            })) {
      Path path = Path.of(old.path());
      if (old.seal().equals(Seal.read(path))) {
        Files.delete(path);
      }
      update(state.without(old));
    }
  }

  private void update(BackupState next) {
    state = next;
    next.write(data);
  }

  /** Returns when the last backup was made; null if there was none. */
  public @Nullable Instant lastDone() {
    BackupState current = state;
    return current.doneAt();
  }

  /** Returns why the last backup failed; null if it did not fail. */
  public @Nullable String problem() {
    BackupState current = state;
    return current.failure();
  }

  /** Says when the last backup was made, when one failed and why, and when the next one follows. */
  public String description() {
    BackupState current = state;
    if (schedule.every() == null) {
      return "no automatic backups, because backups.every is never";
    }
    String last =
        current.doneAt() == null
            ? "no backup yet"
            : "last backup " + current.doneAt() + lastFile(current);
    Instant next = schedule.next(current);
    String following = next == null ? "within a minute or two" : String.valueOf(next);
    return current.failure() == null
        ? last + "; next " + following
        : "the backup at %s failed: %s. %s; next attempt %s"
            .formatted(
                current.failedAt(),
                current.failure(),
                Character.toUpperCase(last.charAt(0)) + last.substring(1),
                following);
  }

  private static String lastFile(BackupState current) {
    if (current.made().isEmpty()) {
      return "";
    }
    BackupState.Made newest = current.made().get(current.made().size() - 1);
    return " (%,d KiB): %s".formatted((newest.bytes() >> 10) + 1, newest.path());
  }

  /** Waits up to 10 s for a backup that is being written. */
  @Override
  public void close() {
    thread.shutdown();
    try {
      if (!thread.awaitTermination(10, TimeUnit.SECONDS)) {
        LOG.warn("a backup did not end in time; the next one deletes what it left");
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }
}
