package tepidarium.app;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.TimeUnit;
import java.util.function.LongSupplier;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import tepidarium.live.LatestValues;
import tepidarium.records.ClockRecords;
import tepidarium.rollup.HourlyRollups;
import tepidarium.series.ReadingTrimmer;
import tepidarium.series.SensorSummary;
import tepidarium.web.system.ServiceFacts.Part;

/**
 * Does slow work that nobody waits for, on one thread of its own: fills the hourly sums, deletes
 * raw readings that are older than the grower wants to keep, and keeps the last instant seen.
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

  /** What it works on. */
  record Parts(
      HourlyRollups rollups,
      ReadingTrimmer trimmer,
      LatestValues latestValues,
      ClockTrust trust,
      ClockRecords clockRecords) {}

  private final Parts parts;
  private final @Nullable Retention retention;
  private final Clock clock;
  private final LongSupplier nanos;
  private volatile String next = "not looked yet";

  Housekeeping(Parts parts, @Nullable Retention retention, Clock clock, LongSupplier nanos) {
    this.parts = parts;
    this.retention = retention;
    this.clock = clock;
    this.nanos = nanos;
  }

  /**
   * Begins.
   *
   * @param rawDays after how many days raw readings are deleted; null for never
   */
  static Housekeeping start(Parts parts, @Nullable Double rawDays, Duration maxGap, Clock clock) {
    Retention retention =
        rawDays == null
            ? null
            : new Retention(
                Duration.ofMillis(Math.round(rawDays * MS_PER_DAY)), maxGap, System.nanoTime());
    Housekeeping housekeeping = new Housekeeping(parts, retention, clock, System::nanoTime);
    housekeeping.keepInstant();
    var unused =
        housekeeping.thread.scheduleWithFixedDelay(
            housekeeping::run, FIRST.toSeconds(), EVERY.toSeconds(), TimeUnit.SECONDS);
    return housekeeping;
  }

  /** What is deleted next, where raw readings are not kept for ever. */
  Map<String, Part> parts() {
    return retention == null ? Map.of() : Map.of("retention", Part.up(next));
  }

  void run() {
    try {
      parts.rollups().catchUp();
      if (retention != null) {
        deleteOld(retention);
      }
      keepInstant();
    } catch (RuntimeException | Error e) {
      // Tried again in ten minutes; pages work out meanwhile what they need.
      LOG.warn("housekeeping is put off: {}", e.toString());
    }
  }

  private void keepInstant() {
    parts.trust().take(clock.instant());
    Instant seen = parts.trust().lastSeen();
    if (seen != null) {
      parts.clockRecords().store(seen);
    }
  }

  private void deleteOld(Retention retention) {
    Retention.Plan plan = retention.plan(seen());
    Instant before = plan.before();
    next = plan.words();
    if (before != null) {
      deleteBefore(before);
      retention.deleted(nanos.getAsLong());
      next = retention.plan(seen()).words();
    }
  }

  private Retention.Seen seen() {
    Instant now = clock.instant();
    parts.trust().take(now);
    Instant newest =
        parts.latestValues().sensors().stream()
            .flatMap(sensor -> parts.latestValues().of(sensor).stream())
            .map(SensorSummary::last)
            .filter(at -> !at.isAfter(now))
            .max(Instant::compareTo)
            .orElse(null);
    Optional<Instant> oldest = parts.trimmer().oldest();
    return new Retention.Seen(
        now, nanos.getAsLong(), parts.trust().problem(), oldest.orElse(null), newest);
  }

  private void deleteBefore(Instant before) {
    Instant end = parts.rollups().prepareDeletionBefore(before);
    int removed;
    long total = 0;
    do {
      removed = parts.trimmer().deleteBefore(end, AT_ONCE);
      total += removed;
    } while (removed == AT_ONCE && !Thread.currentThread().isInterrupted());
    if (total > 0) {
      LOG.info("deleted {} raw readings from before {}", total, end);
    }
  }

  @Override
  public void close() {
    thread.shutdownNow();
    try {
      if (!thread.awaitTermination(10, TimeUnit.SECONDS)) {
        LOG.warn("housekeeping did not stop in time");
      }
      keepInstant();
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }
}
