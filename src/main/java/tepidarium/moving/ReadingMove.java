package tepidarium.moving;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import tepidarium.moving.SensorReadings.HourSum;
import tepidarium.reading.Quantity;
import tepidarium.reading.Reading;
import tepidarium.reading.Samples;
import tepidarium.reading.SensorId;
import tepidarium.reading.Span;
import tepidarium.series.ReadingSink;
import tepidarium.series.ReadingSource;
import tepidarium.series.SensorSummary;
import tepidarium.series.WriteResult;

/**
 * Copies all readings of a store to another one, by sensor and day (UTC). Compares a checksum of
 * each hour and copies only the hours that differ, so a move that was interrupted goes on where it
 * was. An hour that still differs is copied once more, then reported. One thread uses it.
 */
public final class ReadingMove {
  private static final long DAY_MS = Duration.ofDays(1).toMillis();
  private static final int BATCH = 5_000;

  /** Hours that are named in a report; there may be millions. */
  private static final int NAMED = 20;

  private final ReadingSource source;
  private final ReadingSource target;
  private final ReadingSink sink;
  private final Progress progress;
  private final List<String> differing = new ArrayList<>();
  private long verified;
  private long stored;
  private long differingHours;

  /** Receives the progress after each day. */
  public interface Progress {
    /**
     * A day of a sensor was verified.
     *
     * @param day start of the day
     * @param sensorsLeft number of sensors after this one
     * @param share part of all days that is done, 0 to 1
     * @param readings number of readings verified so far
     */
    void verified(SensorId sensor, Instant day, int sensorsLeft, double share, long readings);
  }

  /**
   * The outcome.
   *
   * @param verified number of readings that both stores have
   * @param stored number of them that this run stored
   * @param differingHours number of hours that differ
   * @param differing sensor and hour of the first 20 of them
   */
  public record Outcome(long verified, long stored, long differingHours, List<String> differing) {}

  /**
   * Prepares a move.
   *
   * @param target reads what the sink has stored
   */
  public ReadingMove(
      ReadingSource source, ReadingSource target, ReadingSink sink, Progress progress) {
    this.source = source;
    this.target = target;
    this.sink = sink;
    this.progress = progress;
  }

  /** The sensors that only the target has; a target for a move has none. */
  public List<SensorId> foreign() {
    Set<SensorId> known = source.summaries().keySet();
    return target.summaries().keySet().stream().filter(one -> !known.contains(one)).toList();
  }

  /**
   * Copies and verifies. Readings that the source gets meanwhile may be missing.
   *
   * @throws tepidarium.series.StoreException when one of the stores cannot do it now
   */
  public Outcome run() {
    Map<SensorId, Span> spans = spans();
    long days = spans.values().stream().mapToLong(ReadingMove::days).sum();
    long daysDone = 0;
    int left = spans.size();
    for (Map.Entry<SensorId, Span> each : spans.entrySet()) {
      left--;
      move(each.getKey(), each.getValue(), left, daysDone, days);
      daysDone += days(each.getValue());
    }
    source
        .uncertain()
        .forEach((sensor, some) -> verify(sensor, new Span(Instant.EPOCH, some.newest()), true));
    return new Outcome(verified, stored, differingHours, List.copyOf(differing));
  }

  /**
   * The span of each sensor's readings, both ends included. It begins with the source's first one,
   * because the source may delete old readings; it ends with the last one of either.
   */
  private Map<SensorId, Span> spans() {
    Map<SensorId, SensorSummary> there = target.summaries();
    Map<SensorId, Span> spans = new TreeMap<>((a, b) -> a.name().compareTo(b.name()));
    source
        .summaries()
        .forEach(
            (sensor, own) -> {
              SensorSummary other = there.get(sensor);
              Instant last =
                  other == null || own.last().isAfter(other.last()) ? own.last() : other.last();
              spans.put(sensor, new Span(own.first(), last));
            });
    return spans;
  }

  private static long days(Span span) {
    return Math.floorDiv(span.toMs(), DAY_MS) - Math.floorDiv(span.fromMs(), DAY_MS) + 1;
  }

  private void move(SensorId sensor, Span span, int left, long daysBefore, long days) {
    Span rest = span;
    for (Instant next = next(sensor, rest); next != null; next = next(sensor, rest)) {
      long dayEndMs = (Math.floorDiv(next.toEpochMilli(), DAY_MS) + 1) * DAY_MS - 1;
      Instant end = Instant.ofEpochMilli(Math.min(dayEndMs, span.toMs()));
      verify(sensor, new Span(next, end), false);
      long done = daysBefore + days(new Span(span.from(), end));
      progress.verified(sensor, next, left, (double) done / days, verified);
      if (!end.isBefore(span.to())) {
        return;
      }
      rest = new Span(end.plusMillis(1), span.to());
    }
  }

  /** The next reading of either store; null if there is none. */
  private @Nullable Instant next(SensorId sensor, Span rest) {
    return Stream.of(source.firstAt(sensor, rest), target.firstAt(sensor, rest))
        .flatMap(Optional::stream)
        .min(Instant::compareTo)
        .orElse(null);
  }

  private void verify(SensorId sensor, Span span, boolean uncertain) {
    SensorReadings wanted = read(source, sensor, span, uncertain);
    Map<Long, HourSum> sums = wanted.sums();
    Set<Long> different = different(sums, sensor, span, uncertain);
    for (int attempt = 0; attempt < 2 && !different.isEmpty(); attempt++) {
      copy(wanted, different);
      different = different(sums, sensor, span, uncertain);
    }
    for (Map.Entry<Long, HourSum> hour : sums.entrySet()) {
      verified += different.contains(hour.getKey()) ? 0 : hour.getValue().readings();
    }
    differingHours += different.size();
    different.stream()
        .limit(NAMED - differing.size())
        .forEach(hour -> differing.add(sensor.name() + ", " + SensorReadings.start(hour)));
  }

  private Set<Long> different(
      Map<Long, HourSum> wanted, SensorId sensor, Span span, boolean uncertain) {
    return SensorReadings.different(wanted, read(target, sensor, span, uncertain).sums());
  }

  private static SensorReadings read(
      ReadingSource store, SensorId sensor, Span span, boolean uncertain) {
    Map<Quantity, Samples> samples =
        uncertain ? store.readUncertain(sensor, span) : store.read(sensor, span);
    return new SensorReadings(sensor, samples, uncertain);
  }

  private void copy(SensorReadings readings, Set<Long> hours) {
    List<Reading> batch = new ArrayList<>();
    readings.each(
        hours,
        reading -> {
          batch.add(reading);
          if (batch.size() == BATCH) {
            write(batch);
          }
        });
    if (!batch.isEmpty()) {
      write(batch);
    }
  }

  private void write(List<Reading> batch) {
    WriteResult result = sink.write(List.copyOf(batch));
    stored += result.stored();
    batch.clear();
  }
}
