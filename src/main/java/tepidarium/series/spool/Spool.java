package tepidarium.series.spool;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.concurrent.Semaphore;
import java.util.concurrent.TimeUnit;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import tepidarium.reading.Reading;
import tepidarium.retry.Backoff;
import tepidarium.series.ReadingSink;
import tepidarium.series.RefusedReading;
import tepidarium.series.StoreException;
import tepidarium.series.WriteResult;

/**
 * Buffers readings on local disk while the readings store is down. While the store is up, batches
 * go straight to it. During an outage, they are appended to a queue on disk. When the store is
 * back, the spool forwards the queue in arrival order. New batches join the end of the queue until
 * it is empty, so the order is kept. A batch leaves the queue only after the store has committed
 * it. If the process is killed in between, the batch is forwarded twice; the store ignores the
 * duplicate.
 *
 * <p>The disk space is limited. When it is used up, queued readings stay and new batches are
 * rejected with a {@link StoreException}; the sender keeps them.
 *
 * <p>Threads: the caller's writer thread writes to the store while the queue is empty. The spool's
 * own thread probes the store and forwards the queue.
 */
public final class Spool implements ReadingSink, AutoCloseable {
  /** The newest schema version of the file that this version reads and writes. */
  public static final int SCHEMA_VERSION = 4;

  private static final Logger LOG = LoggerFactory.getLogger(Spool.class);
  private static final int BATCH = 5_000;
  private static final Duration PROBE_EVERY = Duration.ofSeconds(5);
  private static final Backoff BACKOFF = new Backoff(Duration.ofMillis(250), Duration.ofSeconds(5));
  private static final Duration STOP_WAIT = Duration.ofSeconds(35);

  /** The readings store behind the spool, with a health probe. */
  public interface Backend extends ReadingSink {
    /**
     * Returns normally if the store is up.
     *
     * @throws StoreException when the store does not answer
     */
    void probe();
  }

  /** Receives the outcome of forwarding; called on the spool's own thread. */
  public interface Listener {
    /**
     * The store is up, for the first time or after an outage: it has taken a batch of the queue, or
     * answers while the queue is empty.
     */
    void reached();

    /**
     * The store rejects these readings permanently. They leave the queue once this method returns.
     *
     * @throws StoreException when the listener cannot record them now
     */
    void refused(List<RefusedReading> refused);

    /** A batch was forwarded and has left the queue. */
    void forwarded(List<Reading> readings, WriteResult result);
  }

  /**
   * The state of the spool and of the store.
   *
   * @param waiting number of queued readings
   * @param share used part of the disk space limit, 0 to 1
   * @param awaySince start of the outage; null while the store is up
   * @param reason error message of the outage; null while the store is up
   */
  public record State(
      long waiting, double share, @Nullable Instant awaySince, @Nullable String reason) {}

  private record Away(Instant since, String reason) {}

  private final Backend backend;
  private final SpoolFile file;
  private final Clock clock;
  private final Semaphore wake = new Semaphore(0);
  private volatile @Nullable Away away;
  private volatile boolean stopping;
  private @Nullable Thread thread;

  /** Whether the listener knows that the store is up; for the spool's own thread. */
  private boolean told;

  private Spool(Backend backend, SpoolFile file, Clock clock) {
    this.backend = backend;
    this.file = file;
    this.clock = clock;
  }

  /**
   * Opens or creates the queue file. Call {@link #start} to begin forwarding.
   *
   * @throws IllegalStateException when the file cannot be used; the message names it
   */
  public static Spool open(Backend backend, Path path, long limitBytes, Clock clock) {
    return new Spool(backend, SpoolFile.open(path, limitBytes), clock);
  }

  /**
   * Counts the readings in a queue file that nobody uses; 0 if there is none.
   *
   * @throws IllegalStateException when the file cannot be used; the message names it
   */
  public static long waiting(Path path) {
    if (!Files.exists(path)) {
      return 0;
    }
    try (SpoolFile file = SpoolFile.open(path, 1L << 40)) {
      return file.size();
    }
  }

  /** Starts the forwarding thread. Call it once. */
  public void start(Listener listener) {
    Thread forwarder = new Thread(() -> run(listener), "spool");
    forwarder.setDaemon(true);
    thread = forwarder;
    forwarder.start();
  }

  public State state() {
    Away now = away;
    return new State(
        file.size(),
        file.share(),
        now == null ? null : now.since(),
        now == null ? null : now.reason());
  }

  @Override
  public WriteResult write(List<Reading> batch) {
    if (batch.isEmpty()) {
      return WriteResult.NOTHING;
    }
    if (file.size() == 0 && away == null) {
      try {
        return backend.write(batch);
      } catch (StoreException e) {
        away(e);
      }
    }
    file.append(batch);
    wake.release();
    return WriteResult.queued(batch.size());
  }

  private void away(Throwable e) {
    Away before = away;
    String reason = e.getMessage() == null ? e.toString() : e.getMessage();
    away = new Away(before == null ? clock.instant() : before.since(), reason);
    if (before == null) {
      LOG.warn("{}; readings are queued on the local disk until the store is back", reason);
    }
  }

  private void run(Listener listener) {
    int failures = 0;
    while (!stopping) {
      try {
        backend.probe();
        forward(listener);
        failures = 0;
        pause(PROBE_EVERY);
      } catch (StoreException e) {
        away(e);
        failures++;
        pause(BACKOFF.delay(failures));
      } catch (RuntimeException | Error e) {
        // Out of memory, a bug, or a queued reading of an older version that cannot be parsed:
        // keep the queue and report the error as an outage.
        away(e);
        pause(BACKOFF.max());
      }
    }
  }

  private void forward(Listener listener) {
    told &= away == null;
    while (file.size() > 0 && !stopping) {
      SpoolFile.Batch batch = file.oldest(BATCH);
      WriteResult result = backend.write(batch.readings());
      if (!result.refused().isEmpty()) {
        listener.refused(result.refused());
      }
      file.remove(batch);
      listener.forwarded(batch.readings(), result);
      up(listener);
      if (file.size() == 0) {
        file.shrink();
      }
    }
    if (!stopping) {
      up(listener);
    }
  }

  private void up(Listener listener) {
    if (!told) {
      listener.reached();
      told = true;
    }
    away = null;
  }

  /** Sleeps. While the store is up, a newly queued batch ends the sleep early. */
  private void pause(Duration time) {
    try {
      if (away == null) {
        wake.tryAcquire(time.toMillis(), TimeUnit.MILLISECONDS);
      } else {
        TimeUnit.MILLISECONDS.sleep(time.toMillis());
      }
      wake.drainPermits();
    } catch (InterruptedException e) {
      // Only close() interrupts; the loop then checks the stopping flag.
    }
  }

  /** Stops forwarding. Queued readings stay on disk for the next start. */
  @Override
  public void close() {
    stopping = true;
    Thread forwarder = thread;
    if (forwarder != null) {
      forwarder.interrupt();
      try {
        forwarder.join(STOP_WAIT.toMillis());
      } catch (InterruptedException e) {
        Thread.currentThread().interrupt();
      }
    }
    file.close();
  }
}
