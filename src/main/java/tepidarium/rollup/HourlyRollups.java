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
import tepidarium.history.History;
import tepidarium.reading.Quantity;
import tepidarium.reading.Reading;
import tepidarium.reading.Samples;
import tepidarium.reading.Span;

/**
 * The hours of every container. An hour is kept once nothing that comes in order can change it any
 * more; a late reading makes the hours around it be forgotten before the reading is stored, so that
 * a crash in between leaves nothing wrong behind. Hours that are missing, and the parts of hours at
 * the ends of a span, are worked out from the readings when asked for. Safe for use by several
 * threads.
 */
public final class HourlyRollups {
  public static final long HOUR_MS = Duration.ofHours(1).toMillis();

  /** The room as if it were a container; its heat and limits mean nothing. */
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

  /** How much is worked out at once, to bound the memory it takes. */
  private static final long CHUNK_MS = Duration.ofDays(7).toMillis();

  private final History history;
  private final Register register;
  private final RollupStore store;
  private final Clock clock;
  private final long maxGapMs;

  /** Moved on, and hours forgotten, holding {@link #lettingGo}. */
  private volatile long rawFromMs;

  private final Object lettingGo = new Object();
  private final Map<ContainerId, Guard> guards = new ConcurrentHashMap<>();

  private final Map<ContainerId, Long> keptUntil = new ConcurrentHashMap<>();

  /** The end of the latest hour kept of any container, which a clock set back must not hide. */
  private final AtomicLong latestKeptMs = new AtomicLong();

  /** What is worked out while the past is being changed must not be kept. Used holding itself. */
  private static final class Guard {
    private int writing;
    private long changes;

    boolean quietSince(long before) {
      return writing == 0 && changes == before;
    }
  }

  public HourlyRollups(History history, Register register, RollupStore store, Clock clock) {
    this.history = history;
    this.register = register;
    this.store = store;
    this.clock = clock;
    this.maxGapMs = history.maxGap().toMillis();
    this.rawFromMs = store.rawFromMs();
    keptUntil(ROOM.id());
    register.containers().forEach(container -> keptUntil(container.id()));
  }

  /**
   * The rows that together cover the span exactly, in order: a part of an hour at either end, whole
   * hours between.
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

  /** A stretch without a whole hour, cut at the full hour where it lies across one. */
  private List<RollupRow> parts(Container container, Span span) {
    List<RollupRow> rows = new ArrayList<>();
    if (span.fromMs() < span.toMs()) {
      Map<Quantity, Samples> samples = history.samples(container.id(), span);
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
        samples, Span.ofMillis(fromMs, toMs), container.settings(), history.maxGap());
  }

  private List<RollupRow> hours(Container container, long fromMs, long toMs) {
    long fingerprint = SettingsFingerprint.of(container, register, history.maxGap());
    Map<Long, RollupRow> kept = new HashMap<>();
    for (RollupRow row : store.read(container.id(), fingerprint, fromMs, toMs)) {
      kept.put(row.fromMs(), row);
    }
    List<RollupRow> rows = new ArrayList<>((int) ((toMs - fromMs) / HOUR_MS));
    long hour = fromMs;
    while (hour < toMs) {
      RollupRow row = kept.get(hour);
      if (row != null) {
        rows.add(row);
        hour += HOUR_MS;
      } else {
        long end = hour + HOUR_MS;
        while (end < toMs && end - hour < CHUNK_MS && !kept.containsKey(end)) {
          end += HOUR_MS;
        }
        rows.addAll(workOut(container, fingerprint, hour, end));
        hour = end;
      }
    }
    return rows;
  }

  /** Before this, nothing that comes in order changes anything any more. */
  long settledUntilMs() {
    return clock.instant().toEpochMilli() - 2 * maxGapMs;
  }

  /** Equal to another of the same span only if the same is told of it. */
  record Version(long fingerprint, long changes) {}

  /**
   * Which version of a span is told now; empty while that may change from one moment to the next,
   * because the span is not over or its past is being written.
   */
  Optional<Version> version(Container container, Span span) {
    if (span.toMs() > settledUntilMs()) {
      return Optional.empty();
    }
    long fingerprint = SettingsFingerprint.of(container, register, history.maxGap());
    Guard guard = guardOf(container.id());
    synchronized (guard) {
      return guard.writing > 0 ? Optional.empty() : Optional.of(new Version(fingerprint, guard.changes));
    }
  }

  /** Works hours out from the readings, and keeps those that are settled. */
  private List<RollupRow> workOut(Container container, long fingerprint, long fromMs, long toMs) {
    Guard guard = guardOf(container.id());
    long before;
    synchronized (guard) {
      before = guard.changes;
    }
    Map<Quantity, Samples> samples = history.samples(container.id(), Span.ofMillis(fromMs, toMs));
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
    boolean sameFingerprint = fingerprint == SettingsFingerprint.of(container, register, history.maxGap());
    synchronized (guard) {
      if (!settled.isEmpty() && sameFingerprint && guard.quietSince(before)) {
        long until = settled.get(settled.size() - 1).fromMs() + HOUR_MS;
        keptUntil.merge(container.id(), until, Math::max);
        latestKeptMs.accumulateAndGet(until, Math::max);
        store.put(container.id(), fingerprint, settled);
      }
    }
    return rows;
  }

  private Guard guardOf(ContainerId container) {
    return guards.computeIfAbsent(container, id -> new Guard());
  }

  private long keptUntil(ContainerId container) {
    return keptUntil.computeIfAbsent(
        container,
        id -> {
          long until = store.keptUntilMs(id);
          latestKeptMs.accumulateAndGet(until, Math::max);
          return until;
        });
  }

  /**
   * Forgets the hours that a batch will change. To be called before the batch is stored, and {@link
   * #stored} with the answer after it.
   */
  public Map<ContainerId, Span> aboutToStore(List<Reading> batch) {
    // Hours end two longest gaps ago at the latest; half of one is left for the storing itself.
    // After the clock was set back, hours may be kept that end later than that.
    long lateMs =
        Math.max(clock.instant().toEpochMilli() - maxGapMs / 2, latestKeptMs.get() + maxGapMs);
    Instant late = Instant.ofEpochMilli(lateMs);
    Map<ContainerId, Span> touched = new HashMap<>();
    for (Reading reading : batch) {
      ContainerId place =
          reading.at().isBefore(late)
              ? register.placeOf(reading.sensor(), reading.at()).orElse(null)
              : null;
      if (place != null) {
        touched.merge(place, new Span(reading.at(), reading.at()), HourlyRollups::both);
      }
    }
    Map<ContainerId, Span> begun = new HashMap<>();
    try {
      touched.forEach(
          (container, span) -> {
            begin(container);
            begun.put(container, span);
            forget(container, span);
          });
    } catch (RuntimeException | Error e) {
      stored(begun);
      throw e;
    }
    return touched;
  }

  private static Span both(Span a, Span b) {
    Instant from = a.from().isBefore(b.from()) ? a.from() : b.from();
    Instant to = a.to().isAfter(b.to()) ? a.to() : b.to();
    return new Span(from, to);
  }

  private void begin(ContainerId container) {
    Guard guard = guardOf(container);
    synchronized (guard) {
      guard.writing++;
      guard.changes++;
    }
  }

  /** Forgets hours around the span, but none that cannot be worked out again. */
  private void forget(ContainerId container, Span span) {
    synchronized (lettingGo) {
      long from = Math.max(rawFromMs, floor(span.fromMs() - maxGapMs));
      synchronized (guardOf(container)) {
        if (from < keptUntil(container)) {
          store.forget(container, from, floor(span.toMs() + maxGapMs) + HOUR_MS);
        }
      }
    }
  }

  /** The batch is stored, or was given up. */
  public void stored(Map<ContainerId, Span> touched) {
    for (ContainerId container : touched.keySet()) {
      Guard guard = guardOf(container);
      synchronized (guard) {
        guard.writing--;
        // What was read while the batch was on its way may lack it, also when it has arrived now.
        guard.changes++;
      }
    }
  }

  /** Works out and keeps every settled hour that is missing, of every container. */
  public void catchUp() {
    Instant now = clock.instant();
    for (Container container : containers()) {
      history
          .extent(container.id(), now)
          .ifPresent(span -> hoursOf(container, ceil(span.fromMs()), floor(span.toMs())));
    }
  }

  private List<Container> containers() {
    List<Container> all = new ArrayList<>(register.containers());
    all.add(ROOM);
    return all;
  }

  /**
   * Raw readings before the full hour at or before the instant are about to be let go: works out
   * what is missing, and from then on keeps those hours as they are. An hour that could not be kept
   * just now, as its readings or settings were being changed, stays with all that follow it.
   *
   * @return before which instant raw readings may be removed; the first hour that may still change
   *     needs those a longest gap before it
   */
  public Instant letGoBefore(Instant instant) {
    catchUp();
    Instant now = clock.instant();
    Map<Container, Span> extents = new LinkedHashMap<>();
    for (Container container : containers()) {
      history.extent(container.id(), now).ifPresent(extent -> extents.put(container, extent));
    }
    synchronized (lettingGo) {
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

  /** The first hour of the container that is not kept, from those that may change to the limit. */
  private long firstMissing(Container container, Span extent, long limit) {
    long hour = Math.max(rawFromMs, ceil(extent.fromMs()));
    long end = Math.min(limit, floor(extent.toMs()));
    long fingerprint = SettingsFingerprint.of(container, register, history.maxGap());
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

  /** Before which instant a reading comes too late, since its neighbours have been let go. */
  public Instant rawFrom() {
    return Instant.ofEpochMilli(rawFromMs);
  }

  /**
   * From when to when there is something to tell of the container: see {@link History#extent}, but
   * also from before raw readings were let go.
   */
  public Optional<Span> extent(ContainerId container, Instant now) {
    Optional<Span> raw = history.extent(container, now);
    if (rawFromMs == 0) {
      return raw;
    }
    OptionalLong kept = store.keptFromMs(container);
    if (raw.isEmpty() || kept.isEmpty() || kept.getAsLong() >= raw.get().fromMs()) {
      return raw;
    }
    return Optional.of(Span.ofMillis(kept.getAsLong(), raw.get().toMs()));
  }

  private void hoursOf(Container container, long fromMs, long toMs) {
    if (fromMs < toMs) {
      hours(container, fromMs, toMs);
    }
  }
}
