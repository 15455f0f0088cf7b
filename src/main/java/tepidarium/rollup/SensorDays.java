package tepidarium.rollup;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.atomic.AtomicLong;
import java.util.function.Supplier;
import tepidarium.fault.DaySearch;
import tepidarium.fault.SensorDay;
import tepidarium.reading.Quantity;
import tepidarium.reading.Reading;
import tepidarium.reading.Samples;
import tepidarium.reading.SensorId;
import tepidarium.reading.Span;
import tepidarium.series.ReadingSource;

/**
 * Provides the fault search of every sensor by day. A day is stored once readings that arrive in
 * order can no longer change its result, 13 h after its end. Later days are searched on request. A
 * late reading deletes the stored days around it before it is written, except days whose raw
 * readings have been deleted. Thread-safe.
 */
public final class SensorDays {
  /** Time allowed for a reading to arrive and to be written, 1 h. */
  private static final Duration MARGIN = Duration.ofHours(1);

  private static final long AROUND_MS = DaySearch.AROUND.toMillis();

  /** Most days read from the readings at once, which limits memory use. */
  private static final int CHUNK_DAYS = 7;

  private final ReadingSource source;
  private final SensorDayStore store;
  private final Supplier<Instant> rawFrom;
  private final Clock clock;
  private final Map<SensorId, WriteGuard> guards = new ConcurrentHashMap<>();

  /** The end of the latest stored day of any sensor, ms. */
  private final AtomicLong storedUntilMs;

  /** Detects writes during a search, whose result must not be stored. Guarded by its monitor. */
  private static final class WriteGuard {
    private int writing;
    private long changes;

    /** All settled days with raw readings before this day are stored. */
    private long completeUntilDay = Long.MIN_VALUE;
  }

  /**
   * Creates the searches.
   *
   * @param rawFrom the instant before which raw readings may have been deleted
   */
  public SensorDays(
      ReadingSource source, SensorDayStore store, Supplier<Instant> rawFrom, Clock clock) {
    this.source = source;
    this.store = store;
    this.rawFrom = rawFrom;
    this.clock = clock;
    storedUntilMs = new AtomicLong((store.lastDay().orElse(-1) + 1) * SensorDay.DAY_MS);
  }

  /** The days from the first to the last, both included, without days before the first reading. */
  public List<SensorDay> days(SensorId sensor, long firstDay, long lastDay) {
    Map<Long, SensorDay> stored = new HashMap<>();
    store.read(sensor, firstDay, lastDay).forEach(day -> stored.put(day.day(), day));
    List<SensorDay> days = new ArrayList<>();
    long day = firstDay;
    while (day <= lastDay) {
      if (stored.containsKey(day)) {
        days.add(stored.get(day));
        day++;
      } else {
        long end = day + 1;
        while (end <= lastDay && !stored.containsKey(end)) {
          end++;
        }
        searchFromFirstReading(sensor, day, end, days);
        day = end;
      }
    }
    return days;
  }

  private void searchFromFirstReading(
      SensorId sensor, long firstDay, long endDay, List<SensorDay> days) {
    Span whole = Span.ofMillis(firstDay * SensorDay.DAY_MS, endDay * SensorDay.DAY_MS - 1);
    Instant first = source.firstAt(sensor, whole).orElse(null);
    if (first == null) {
      return;
    }
    for (long day = SensorDay.dayOf(first.toEpochMilli()); day < endDay; day += CHUNK_DAYS) {
      days.addAll(search(sensor, day, Math.min(endDay, day + CHUNK_DAYS)));
    }
  }

  private List<SensorDay> search(SensorId sensor, long firstDay, long endDay) {
    WriteGuard guard = guard(sensor);
    long before;
    synchronized (guard) {
      before = guard.changes;
    }
    Span needed = new Span(DaySearch.needed(firstDay).from(), DaySearch.needed(endDay - 1).to());
    Map<Quantity, Samples> raw = source.read(sensor, needed);
    List<SensorDay> found = new ArrayList<>();
    List<SensorDay> settled = new ArrayList<>();
    for (long day = firstDay; day < endDay; day++) {
      SensorDay searched = DaySearch.of(sensor, day, part(raw, DaySearch.needed(day)));
      found.add(searched);
      if (day <= lastSettledDay()) {
        settled.add(searched);
      }
    }
    synchronized (guard) {
      if (!settled.isEmpty() && guard.writing == 0 && guard.changes == before) {
        long until = settled.get(settled.size() - 1).span().toMs();
        storedUntilMs.accumulateAndGet(until, Math::max);
        store.put(settled);
      }
    }
    return found;
  }

  private static Map<Quantity, Samples> part(Map<Quantity, Samples> raw, Span span) {
    Map<Quantity, Samples> part = new HashMap<>();
    raw.forEach(
        (quantity, samples) -> part.put(quantity, samples.between(span.fromMs(), span.toMs())));
    return part;
  }

  private long lastSettledDay() {
    long settledMs = clock.instant().toEpochMilli() - AROUND_MS - MARGIN.toMillis();
    return SensorDay.dayOf(settledMs) - 1;
  }

  /**
   * Searches and stores the settled days of a sensor that are not stored yet, from its first to its
   * last reading. Skips days whose raw readings have been deleted.
   */
  public void catchUp(SensorId sensor, Instant firstReading, Instant lastReading) {
    WriteGuard guard = guard(sensor);
    long first = SensorDay.dayOf(later(firstReading, rawFrom.get()).toEpochMilli());
    long end = Math.min(lastSettledDay(), SensorDay.dayOf(lastReading.toEpochMilli())) + 1;
    long before;
    synchronized (guard) {
      before = guard.changes;
      first = Math.max(first, guard.completeUntilDay);
    }
    if (first >= end) {
      return;
    }
    Set<Long> stored = store.stored(sensor, first, end - 1);
    long day = first;
    while (day < end) {
      long missing = day;
      while (day < end && day - missing < CHUNK_DAYS && !stored.contains(day)) {
        day++;
      }
      if (day > missing) {
        search(sensor, missing, day);
      } else {
        day++;
      }
    }
    synchronized (guard) {
      if (guard.writing == 0 && guard.changes == before) {
        guard.completeUntilDay = end;
      }
    }
  }

  private WriteGuard guard(SensorId sensor) {
    return guards.computeIfAbsent(sensor, any -> new WriteGuard());
  }

  /**
   * Deletes the stored days that a batch will change. Call it before storing the batch; afterwards
   * pass the result to {@link #afterWrite}.
   */
  public List<SensorId> beforeWrite(List<Reading> batch) {
    Map<SensorId, Span> late = new HashMap<>();
    Instant inTime = clock.instant().minus(MARGIN);
    for (Reading reading : batch) {
      if (reading.at().isBefore(inTime) || mayBeStored(reading.at())) {
        late.merge(reading.sensor(), new Span(reading.at(), reading.at()), SensorDays::union);
      }
    }
    List<SensorId> started = new ArrayList<>();
    try {
      late.forEach(
          (sensor, span) -> {
            long first = Math.max(firstWholeDay(), SensorDay.dayOf(span.fromMs() - AROUND_MS));
            startWrite(sensor, first);
            started.add(sensor);
            if (mayBeStored(span.from())) {
              store.delete(sensor, first, SensorDay.dayOf(span.toMs() + AROUND_MS));
            }
          });
    } catch (RuntimeException | Error e) {
      afterWrite(started);
      throw e;
    }
    return started;
  }

  /** Whether a day that a reading can change may be stored. */
  private boolean mayBeStored(Instant at) {
    return at.toEpochMilli() - AROUND_MS < storedUntilMs.get();
  }

  private static Span union(Span a, Span b) {
    Instant from = a.from().isBefore(b.from()) ? a.from() : b.from();
    return new Span(from, later(a.to(), b.to()));
  }

  private static Instant later(Instant a, Instant b) {
    return a.isAfter(b) ? a : b;
  }

  /** The earliest day whose raw readings are all still stored. */
  private long firstWholeDay() {
    return SensorDay.dayOf(rawFrom.get().toEpochMilli() + SensorDay.DAY_MS - 1);
  }

  private void startWrite(SensorId sensor, long firstDay) {
    WriteGuard guard = guard(sensor);
    synchronized (guard) {
      guard.completeUntilDay = Math.min(guard.completeUntilDay, firstDay);
      guard.writing++;
      guard.changes++;
    }
  }

  /** Ends the write announced by {@link #beforeWrite}, whether it succeeded or failed. */
  public void afterWrite(List<SensorId> started) {
    for (SensorId sensor : started) {
      WriteGuard guard = guard(sensor);
      synchronized (guard) {
        guard.writing--;
        guard.changes++;
      }
    }
  }
}
