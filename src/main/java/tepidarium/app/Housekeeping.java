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
import tepidarium.reading.SensorId;
import tepidarium.records.ClockRecords;
import tepidarium.rollup.HourlyRollups;
import tepidarium.rollup.SensorDays;
import tepidarium.series.ReadingTrimmer;
import tepidarium.series.SensorSummary;
import tepidarium.thread.DaemonThreads;
import tepidarium.web.system.ServiceInfo.Part;

/**
 * Runs slow background work on its own thread every 10 min: calculates missing hourly sums,
 * searches past days for sensor faults, deletes raw readings that are older than the settings
 * allow, and stores the last known time.
 */
final class Housekeeping implements AutoCloseable {
  private static final Logger LOG = LoggerFactory.getLogger(Housekeeping.class);
  private static final Duration MAX_INITIAL_DELAY = Duration.ofSeconds(20);

  /**
   * Number of readings deleted in one transaction; small, so that writing new readings is delayed
   * only briefly.
   */
  private static final int BATCH_SIZE = 2_000;

  private static final double MS_PER_DAY = 86_400_000;

  private final ScheduledExecutorService thread =
      Executors.newSingleThreadScheduledExecutor(DaemonThreads.named("housekeeping"));

  /** The stores and the clock check that the work uses. */
  record Dependencies(
      HourlyRollups rollups,
      SensorDays sensorDays,
      ReadingTrimmer trimmer,
      LatestValues latestValues,
      ClockTrust trust,
      ClockRecords clockRecords) {}

  private final Dependencies dependencies;
  private final @Nullable Retention retention;
  private final Clock clock;
  private final LongSupplier nanos;
  private volatile String nextDeletion = "not checked yet";

  Housekeeping(
      Dependencies dependencies, @Nullable Retention retention, Clock clock, LongSupplier nanos) {
    this.dependencies = dependencies;
    this.retention = retention;
    this.clock = clock;
    this.nanos = nanos;
  }

  /**
   * Starts the background thread.
   *
   * @param rawDays age in days at which raw readings are deleted; null to keep them for ever
   */
  static Housekeeping start(
      Dependencies dependencies,
      @Nullable Double rawDays,
      Duration maxGap,
      Pace pace,
      Clock clock) {
    Retention retention =
        rawDays == null
            ? null
            : new Retention(
                Duration.ofMillis(Math.round(rawDays * MS_PER_DAY)),
                maxGap,
                pace.nanos().getAsLong());
    Housekeeping housekeeping = new Housekeeping(dependencies, retention, clock, pace.nanos());
    housekeeping.saveLastKnownTime();
    long intervalMs = pace.housekeeping().toMillis();
    long initialMs = Math.min(MAX_INITIAL_DELAY.toMillis(), intervalMs);
    var unused =
        housekeeping.thread.scheduleWithFixedDelay(
            housekeeping::run, initialMs, intervalMs, TimeUnit.MILLISECONDS);
    return housekeeping;
  }

  /** Says which readings are deleted next and when; empty if raw readings are never deleted. */
  Map<String, Part> health() {
    return retention == null ? Map.of() : Map.of("retention", Part.up(nextDeletion));
  }

  void run() {
    try {
      dependencies.rollups().catchUp();
      searchForFaults();
      if (retention != null) {
        deleteOld(retention);
      }
      saveLastKnownTime();
    } catch (RuntimeException | Error e) {
      if (thread.isShutdown()) {
        LOG.debug("housekeeping was interrupted by the stop", e);
        return;
      }
      // The next run tries again. Until then, the pages calculate missing sums when they need them.
      LOG.warn("housekeeping failed; trying again in 10 min: {}", e.toString());
    }
  }

  private void searchForFaults() {
    for (SensorId sensor : dependencies.latestValues().sensors()) {
      if (Thread.currentThread().isInterrupted()) {
        return;
      }
      dependencies
          .latestValues()
          .of(sensor)
          .ifPresent(
              known -> dependencies.sensorDays().catchUp(sensor, known.first(), known.last()));
    }
  }

  private void saveLastKnownTime() {
    dependencies.trust().check(clock.instant());
    Instant lastTrusted = dependencies.trust().lastTrusted();
    if (lastTrusted != null) {
      dependencies.clockRecords().store(lastTrusted);
    }
  }

  private void deleteOld(Retention retention) {
    Retention.Plan plan = retention.plan(state());
    Instant before = plan.before();
    nextDeletion = plan.description();
    if (before != null) {
      deleteBefore(before);
      retention.deleted(nanos.getAsLong());
      nextDeletion = retention.plan(state()).description();
    }
  }

  private Retention.State state() {
    Instant now = clock.instant();
    dependencies.trust().check(now);
    Instant newest =
        dependencies.latestValues().sensors().stream()
            .flatMap(sensor -> dependencies.latestValues().of(sensor).stream())
            .map(SensorSummary::last)
            .filter(at -> !at.isAfter(now))
            .max(Instant::compareTo)
            .orElse(null);
    Optional<Instant> oldest = dependencies.trimmer().oldest();
    return new Retention.State(
        now, nanos.getAsLong(), dependencies.trust().problem(), oldest.orElse(null), newest);
  }

  private void deleteBefore(Instant before) {
    Instant end = dependencies.rollups().prepareDeletionBefore(before);
    int removed;
    long total = 0;
    do {
      removed = dependencies.trimmer().deleteBefore(end, BATCH_SIZE);
      total += removed;
    } while (removed == BATCH_SIZE && !Thread.currentThread().isInterrupted());
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
      saveLastKnownTime();
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }
}
