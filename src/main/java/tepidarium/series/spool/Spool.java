package tepidarium.series.spool;

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
import tepidarium.series.ReadingSink;
import tepidarium.series.RefusedReading;
import tepidarium.series.StoreException;
import tepidarium.series.WriteResult;

/**
 * Stands in front of a readings store that may be away. While the store answers, batches go
 * straight through. When it does not, they are kept on local disk, and once it answers again they
 * go over to it in the order in which they came. While anything is kept, what comes newly is kept
 * behind it, so that nothing overtakes. A batch is removed only after the store has it: one that
 * goes over twice, because the service was killed in between, changes nothing the second time.
 *
 * <p>The disk space is bounded. When it is used up, what is kept stays, oldest and all, and what
 * comes newly is refused: whoever sent it has to keep it.
 *
 * <p>One thread writes; one thread of the spool's own hands over and looks whether the store is
 * there. The store is written to by the first while nothing is kept, else by the second.
 */
public final class Spool implements ReadingSink, AutoCloseable {
  private static final Logger LOG = LoggerFactory.getLogger(Spool.class);
  private static final int BATCH = 5_000;
  private static final Duration LOOK_EVERY = Duration.ofSeconds(5);
  private static final long FIRST_PAUSE_MS = 250;
  private static final long LONGEST_PAUSE_MS = 5_000;
  private static final Duration STOP_WAIT = Duration.ofSeconds(35);

  /** The store behind, and a way to find out whether it is there. */
  public interface Backend extends ReadingSink {
    /**
     * Returns when the store answers.
     *
     * @throws StoreException when it does not
     */
    void probe();
  }

  /** Follows what is handed over; called on the spool's own thread. */
  public interface Follower {
    /** The store answers, for the first time or again. */
    void reached();

    /**
     * The store will never take these; they leave the spool once this returns.
     *
     * @throws StoreException when they cannot be noted now
     */
    void refused(List<RefusedReading> refused);

    /** A batch has gone over and left the spool. */
    void handedOver(List<Reading> readings, WriteResult result);
  }

  /**
   * How it is.
   *
   * @param waiting readings kept here
   * @param share how much of the space is used, from 0 to 1
   * @param awaySince since when the store does not answer; null when it does
   * @param reason why, as far as is known
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

  private Spool(Backend backend, SpoolFile file, Clock clock) {
    this.backend = backend;
    this.file = file;
    this.clock = clock;
  }

  /**
   * Opens or creates the file; {@link #start} begins to hand over.
   *
   * @throws IllegalStateException when the file cannot be used; the message names it
   */
  public static Spool open(Backend backend, Path path, long limitBytes, Clock clock) {
    return new Spool(backend, SpoolFile.open(path, limitBytes), clock);
  }

  /** Begins to hand over what is kept. To be called once. */
  public void start(Follower follower) {
    Thread handingOver = new Thread(() -> run(follower), "spool");
    handingOver.setDaemon(true);
    thread = handingOver;
    handingOver.start();
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
    return WriteResult.NOTHING;
  }

  private void away(Throwable e) {
    Away before = away;
    String reason = e.getMessage() == null ? e.toString() : e.getMessage();
    away = new Away(before == null ? clock.instant() : before.since(), reason);
    if (before == null) {
      LOG.warn("{}; readings are kept on this disk until the store is back", reason);
    }
  }

  private void run(Follower follower) {
    long pauseMs = FIRST_PAUSE_MS;
    boolean reached = false;
    while (!stopping) {
      try {
        backend.probe();
        if (!reached || away != null) {
          follower.reached();
          reached = true;
        }
        handOver(follower);
        pauseMs = FIRST_PAUSE_MS;
        pause(LOOK_EVERY.toMillis());
      } catch (StoreException e) {
        away(e);
        pause(pauseMs);
        pauseMs = Math.min(pauseMs * 2, LONGEST_PAUSE_MS);
      } catch (RuntimeException | Error e) {
        // No memory left, a bug, or something that an older version kept and this one cannot read:
        // keep it, say so.
        away(e);
        pause(LONGEST_PAUSE_MS);
      }
    }
  }

  private void handOver(Follower follower) {
    while (file.size() > 0 && !stopping) {
      SpoolFile.Batch batch = file.oldest(BATCH);
      WriteResult result = backend.write(batch.readings());
      away = null;
      if (!result.refused().isEmpty()) {
        follower.refused(result.refused());
      }
      file.remove(batch);
      follower.handedOver(batch.readings(), result);
      if (file.size() == 0) {
        file.shrink();
      }
    }
    away = null;
  }

  /** Waits, but while the store is there not when something is to be handed over. */
  private void pause(long ms) {
    try {
      if (away == null) {
        wake.tryAcquire(ms, TimeUnit.MILLISECONDS);
      } else {
        TimeUnit.MILLISECONDS.sleep(ms);
      }
      wake.drainPermits();
    } catch (InterruptedException e) {
      // Only close() interrupts, and the loop sees to that.
    }
  }

  /** Stops handing over; what is kept stays on disk for the next start. */
  @Override
  public void close() {
    stopping = true;
    Thread handingOver = thread;
    if (handingOver != null) {
      handingOver.interrupt();
      try {
        handingOver.join(STOP_WAIT.toMillis());
      } catch (InterruptedException e) {
        Thread.currentThread().interrupt();
      }
    }
    file.close();
  }
}
