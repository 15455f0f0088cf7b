package tepidarium.rollup;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.atomic.AtomicLong;
import tepidarium.container.Band;
import tepidarium.container.Container;
import tepidarium.container.ContainerId;
import tepidarium.container.ContainerKind;
import tepidarium.container.ContainerSettings;
import tepidarium.container.Register;
import tepidarium.history.CalibratedReadings;
import tepidarium.reading.Quantity;
import tepidarium.reading.Reading;
import tepidarium.reading.Samples;
import tepidarium.reading.Span;

/**
 * Provides hourly rollups of every container. An hour is stored once readings that arrive in order
 * can no longer change it. A late reading invalidates the hours around it before the reading is
 * written: a crash between both leaves no wrong rollup. Missing hours, and partial hours at the
 * ends of a span, are computed from the readings on request. Thread-safe.
 */
public final class HourlyRollups {
  public static final long HOUR_MS = Duration.ofHours(1).toMillis();

  /** The room, treated as a container. Its heat and limits have no meaning. */
  static final Container ROOM =
      new Container(
          ContainerId.ROOM,
          new ContainerSettings(
              "room",
              ContainerKind.BOX,
              null,
              ContainerSettings.DEFAULT_BASE_C,
              null,
              Band.DEFAULT),
          Instant.EPOCH);

  /** Longest span computed at once, which limits memory use. */
  private static final long CHUNK_MS = Duration.ofDays(7).toMillis();

  private final CalibratedReadings calibrated;
  private final Register register;
  private final RollupStore store;
  private final Clock clock;
  private final long maxGapMs;

  /**
   * Raw readings before this have been deleted. Changed only while holding {@link #retentionLock},
   * as is the invalidation of hours.
   */
  private volatile long rawFromMs;

  private final Object retentionLock = new Object();
  private final Map<ContainerId, WriteGuard> guards = new ConcurrentHashMap<>();

  private final Map<ContainerId, Long> storedUntil = new ConcurrentHashMap<>();

  /**
   * The end of the latest stored hour of any container. Needed to detect late readings after the
   * clock was set back.
   */
  private final AtomicLong latestStoredMs = new AtomicLong();

  /**
   * Detects writes to a container's past during a computation; such a result must not be stored.
   * Guarded by its own monitor.
   */
  private static final class WriteGuard {
    private int writing;
    private long changes;

    boolean isUnchangedSince(long changesBefore) {
      return writing == 0 && changes == changesBefore;
    }
  }

  public HourlyRollups(
      CalibratedReadings calibrated, Register register, RollupStore store, Clock clock) {
    this.calibrated = calibrated;
    this.register = register;
    this.store = store;
    this.clock = clock;
    this.maxGapMs = calibrated.maxGap().toMillis();
    this.rawFromMs = store.rawFromMs();
    storedUntil(ROOM.id());
    register.containers().forEach(container -> storedUntil(container.id()));
  }

  /**
   * The rows that cover the span exactly, in time order: whole hours, and a partial hour at each
   * end where needed.
   */
  public List<RollupRow> rows(Container container, Span span) {
    long firstHour = ceil(span.fromMs());
    long lastHour = floor(span.toMs());
    if (firstHour >= lastHour) {
      return parts(container, span);
    }
    List<RollupRow> rows =
        new ArrayList<>(parts(container, Span.ofMillis(span.fromMs(), firstHour)));
    rows.addAll(hours(container, firstHour, lastHour));
    rows.addAll(parts(container, Span.ofMillis(lastHour, span.toMs())));
    return rows;
  }

  private static long floor(long ms) {
    return Math.floorDiv(ms, HOUR_MS) * HOUR_MS;
  }

  private static long ceil(long ms) {
    return -Math.floorDiv(-ms, HOUR_MS) * HOUR_MS;
  }

  /** Computes the rows of a span without a whole hour; splits it if it crosses a full hour. */
  private List<RollupRow> parts(Container container, Span span) {
    List<RollupRow> rows = new ArrayList<>();
    if (span.fromMs() < span.toMs()) {
      Map<Quantity, Samples> samples = calibrated.samples(container.id(), span);
      long cut = ceil(span.fromMs() + 1);
      if (cut < span.toMs()) {
        rows.add(row(container, samples, span.fromMs(), cut));
        rows.add(row(container, samples, cut, span.toMs()));
      } else {
        rows.add(row(container, samples, span.fromMs(), span.toMs()));
      }
    }
    return rows;
  }

  private RollupRow row(
      Container container, Map<Quantity, Samples> samples, long fromMs, long toMs) {
    return RollupRow.of(
        samples, Span.ofMillis(fromMs, toMs), container.settings(), calibrated.maxGap());
  }

  private List<RollupRow> hours(Container container, long fromMs, long toMs) {
    long fingerprint = SettingsFingerprint.of(container, register, calibrated.maxGap());
    Map<Long, RollupRow> stored = new HashMap<>();
    for (RollupRow row : store.read(container.id(), fingerprint, fromMs, toMs)) {
      stored.put(row.fromMs(), row);
    }
    List<RollupRow> rows = new ArrayList<>((int) ((toMs - fromMs) / HOUR_MS));
    long hour = fromMs;
    while (hour < toMs) {
      RollupRow row = stored.get(hour);
      if (row != null) {
        rows.add(row);
        hour += HOUR_MS;
      } else {
        long end = hour + HOUR_MS;
        while (end < toMs && end - hour < CHUNK_MS && !stored.containsKey(end)) {
          end += HOUR_MS;
        }
        rows.addAll(compute(container, fingerprint, hour, end));
        hour = end;
      }
    }
    return rows;
  }

  /** Readings arriving in order cannot change hours that end before this instant. */
  long settledUntilMs() {
    return clock.instant().toEpochMilli() - 2 * maxGapMs;
  }

  /** Cache key: equal versions of the same span give equal results. */
  record Version(long fingerprint, long changes) {}

  /**
   * The current version of a span. Empty while the result may change: the span is not settled, or
   * readings are being written to it.
   */
  Optional<Version> version(Container container, Span span) {
    if (span.toMs() > settledUntilMs()) {
      return Optional.empty();
    }
    long fingerprint = SettingsFingerprint.of(container, register, calibrated.maxGap());
    WriteGuard guard = guardOf(container.id());
    synchronized (guard) {
      return guard.writing > 0
          ? Optional.empty()
          : Optional.of(new Version(fingerprint, guard.changes));
    }
  }

  /** Computes hours from the readings and stores the settled ones. */
  private List<RollupRow> compute(Container container, long fingerprint, long fromMs, long toMs) {
    WriteGuard guard = guardOf(container.id());
    long before;
    synchronized (guard) {
      before = guard.changes;
    }
    Map<Quantity, Samples> samples =
        calibrated.samples(container.id(), Span.ofMillis(fromMs, toMs));
    List<RollupRow> rows = new ArrayList<>();
    List<RollupRow> settled = new ArrayList<>();
    long settledUntil = settledUntilMs();
    for (long hour = fromMs; hour < toMs; hour += HOUR_MS) {
      RollupRow row = row(container, samples, hour, hour + HOUR_MS);
      rows.add(row);
      if (hour + HOUR_MS <= settledUntil && hour >= rawFromMs) {
        settled.add(row);
      }
    }
    boolean sameFingerprint =
        fingerprint == SettingsFingerprint.of(container, register, calibrated.maxGap());
    synchronized (guard) {
      if (!settled.isEmpty() && sameFingerprint && guard.isUnchangedSince(before)) {
        long until = settled.get(settled.size() - 1).fromMs() + HOUR_MS;
        storedUntil.merge(container.id(), until, Math::max);
        latestStoredMs.accumulateAndGet(until, Math::max);
        store.put(container.id(), fingerprint, settled);
      }
    }
    return rows;
  }

  private WriteGuard guardOf(ContainerId container) {
    return guards.computeIfAbsent(container, id -> new WriteGuard());
  }

  private long storedUntil(ContainerId container) {
    return storedUntil.computeIfAbsent(
        container,
        id -> {
          long until = store.storedUntilMs(id);
          latestStoredMs.accumulateAndGet(until, Math::max);
          return until;
        });
  }

  /**
   * Invalidates the hours that a batch will change. Call it before storing the batch; afterwards
   * pass the result to {@link #afterWrite}.
   */
  public Map<ContainerId, Span> beforeWrite(List<Reading> batch) {
    // Stored hours ended at least 2 · maxGap before now, so readings up to maxGap / 2 old are not
    // late. The remaining time allows for writing the batch. After the clock was set back, stored
    // hours may end later.
    long lateMs =
        Math.max(clock.instant().toEpochMilli() - maxGapMs / 2, latestStoredMs.get() + maxGapMs);
    Instant late = Instant.ofEpochMilli(lateMs);
    Map<ContainerId, Span> touched = new HashMap<>();
    for (Reading reading : batch) {
      ContainerId place =
          reading.at().isBefore(late)
              ? register.placeOf(reading.sensor(), reading.at()).orElse(null)
              : null;
      if (place != null) {
        touched.merge(place, new Span(reading.at(), reading.at()), HourlyRollups::union);
      }
    }
    Map<ContainerId, Span> started = new HashMap<>();
    try {
      touched.forEach(
          (container, span) -> {
            startWrite(container);
            started.put(container, span);
            invalidate(container, span);
          });
    } catch (RuntimeException | Error e) {
      afterWrite(started);
      throw e;
    }
    return touched;
  }

  private static Span union(Span a, Span b) {
    Instant from = a.from().isBefore(b.from()) ? a.from() : b.from();
    Instant to = a.to().isAfter(b.to()) ? a.to() : b.to();
    return new Span(from, to);
  }

  private void startWrite(ContainerId container) {
    WriteGuard guard = guardOf(container);
    synchronized (guard) {
      guard.writing++;
      guard.changes++;
    }
  }

  /** Invalidates hours around the span, except hours whose raw readings have been deleted. */
  private void invalidate(ContainerId container, Span span) {
    synchronized (retentionLock) {
      long from = Math.max(rawFromMs, floor(span.fromMs() - maxGapMs));
      synchronized (guardOf(container)) {
        if (from < storedUntil(container)) {
          store.delete(container, from, floor(span.toMs() + maxGapMs) + HOUR_MS);
        }
      }
    }
  }

  /** Ends the write announced by {@link #beforeWrite}, whether it succeeded or failed. */
  public void afterWrite(Map<ContainerId, Span> touched) {
    for (ContainerId container : touched.keySet()) {
      WriteGuard guard = guardOf(container);
      synchronized (guard) {
        guard.writing--;
        // A computation that started during the write may have missed the batch.
        guard.changes++;
      }
    }
  }

  /** Computes and stores all missing settled hours of all containers. */
  public void catchUp() {
    Instant now = clock.instant();
    for (Container container : containers()) {
      calibrated
          .extent(container.id(), now)
          .ifPresent(span -> storeHours(container, ceil(span.fromMs()), floor(span.toMs())));
    }
  }

  private List<Container> containers() {
    List<Container> all = new ArrayList<>(register.containers());
    all.add(ROOM);
    return all;
  }

  /**
   * Prepares the deletion of raw readings before the instant, rounded down to a full hour. Computes
   * and stores the missing hours before it; these hours are final from then on. If an hour could
   * not be stored because its readings or settings were changing, uses the start of that hour
   * instead.
   *
   * @return the instant before which raw readings may be deleted; it is {@code maxGap} before the
   *     first hour that may still change
   */
  public Instant prepareDeletionBefore(Instant instant) {
    catchUp();
    Instant now = clock.instant();
    Map<Container, Span> extents = new LinkedHashMap<>();
    for (Container container : containers()) {
      calibrated.extent(container.id(), now).ifPresent(extent -> extents.put(container, extent));
    }
    synchronized (retentionLock) {
      long hour = floor(instant.toEpochMilli());
      for (Map.Entry<Container, Span> each : extents.entrySet()) {
        hour = Math.min(hour, firstMissing(each.getKey(), each.getValue(), hour));
      }
      if (hour > rawFromMs) {
        store.rawFromMs(hour);
        rawFromMs = hour;
      }
      return Instant.ofEpochMilli(Math.max(0, rawFromMs - maxGapMs));
    }
  }

  /**
   * The first missing hour of the container between {@code rawFromMs} and the limit; the limit if
   * none is missing.
   */
  private long firstMissing(Container container, Span extent, long limit) {
    long hour = Math.max(rawFromMs, ceil(extent.fromMs()));
    long end = Math.min(limit, floor(extent.toMs()));
    long fingerprint = SettingsFingerprint.of(container, register, calibrated.maxGap());
    while (hour < end) {
      long until = Math.min(end, hour + CHUNK_MS);
      for (RollupRow row : store.read(container.id(), fingerprint, hour, until)) {
        if (row.fromMs() != hour) {
          return hour;
        }
        hour += HOUR_MS;
      }
      if (hour < until) {
        return hour;
      }
    }
    return limit;
  }

  /** Readings before this instant are refused, because the readings around them were deleted. */
  public Instant rawFrom() {
    return Instant.ofEpochMilli(rawFromMs);
  }

  /**
   * The time span with data of the container: see {@link CalibratedReadings#extent}. Includes hours
   * whose raw readings have been deleted.
   */
  public Optional<Span> extent(ContainerId container, Instant now) {
    Optional<Span> raw = calibrated.extent(container, now);
    if (rawFromMs == 0) {
      return raw;
    }
    OptionalLong stored = store.storedFromMs(container);
    if (raw.isEmpty() || stored.isEmpty() || stored.getAsLong() >= raw.get().fromMs()) {
      return raw;
    }
    return Optional.of(Span.ofMillis(stored.getAsLong(), raw.get().toMs()));
  }

  private void storeHours(Container container, long fromMs, long toMs) {
    if (fromMs < toMs) {
      hours(container, fromMs, toMs);
    }
  }
}
