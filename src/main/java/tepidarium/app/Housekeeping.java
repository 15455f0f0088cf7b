package tepidarium.app;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.TimeUnit;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import tepidarium.ledger.Ledger;
import tepidarium.series.ReadingTrimmer;

/**
 * Slow work that nobody waits for, on one thread of its own: keeping the ledger filled, and letting
 * go of raw readings that are older than the grower wants to keep.
 */
final class Housekeeping implements AutoCloseable {
  private static final Logger LOG = LoggerFactory.getLogger(Housekeeping.class);
  private static final Duration FIRST = Duration.ofSeconds(20);
  private static final Duration EVERY = Duration.ofMinutes(10);

  /** Readings in one transaction: short enough that writing hardly waits. */
  private static final int AT_ONCE = 2_000;

  private static final double MS_PER_DAY = 86_400_000;

  private final ScheduledExecutorService thread =
      Executors.newSingleThreadScheduledExecutor(
          task -> {
            Thread made = new Thread(task, "housekeeping");
            made.setDaemon(true);
            return made;
          });

  private final Ledger ledger;
  private final ReadingTrimmer trimmer;
  private final @Nullable Double rawDays;
  private final Clock clock;

  private Housekeeping(
      Ledger ledger, ReadingTrimmer trimmer, @Nullable Double rawDays, Clock clock) {
    this.ledger = ledger;
    this.trimmer = trimmer;
    this.rawDays = rawDays;
    this.clock = clock;
  }

  /**
   * Begins.
   *
   * @param rawDays after how many days raw readings are let go; null for never
   */
  static Housekeeping start(
      Ledger ledger, ReadingTrimmer trimmer, @Nullable Double rawDays, Clock clock) {
    Housekeeping housekeeping = new Housekeeping(ledger, trimmer, rawDays, clock);
    var unused =
        housekeeping.thread.scheduleWithFixedDelay(
            housekeeping::run, FIRST.toSeconds(), EVERY.toSeconds(), TimeUnit.SECONDS);
    return housekeeping;
  }

  private void run() {
    try {
      ledger.catchUp();
      if (rawDays != null) {
        letGo(clock.instant().minusMillis(Math.round(rawDays * MS_PER_DAY)));
      }
    } catch (RuntimeException | Error e) {
      // Tried again in ten minutes; pages work out meanwhile what they need.
      LOG.warn("housekeeping is put off: {}", e.toString());
    }
  }

  private void letGo(Instant before) {
    Instant end = ledger.letGoBefore(before);
    int removed;
    long total = 0;
    do {
      removed = trimmer.forgetBefore(end, AT_ONCE);
      total += removed;
    } while (removed == AT_ONCE && !Thread.currentThread().isInterrupted());
    if (total > 0) {
      LOG.info("let go of {} raw readings from before {}", total, end);
    }
  }

  @Override
  public void close() {
    thread.shutdownNow();
    try {
      if (!thread.awaitTermination(10, TimeUnit.SECONDS)) {
        LOG.warn("housekeeping did not stop in time");
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }
}
