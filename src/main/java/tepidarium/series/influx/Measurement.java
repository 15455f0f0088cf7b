package tepidarium.series.influx;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.NavigableSet;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import tepidarium.reading.Reading;
import tepidarium.reading.SensorId;
import tepidarium.series.ReadingSink;
import tepidarium.series.RefusedReading;
import tepidarium.series.WriteResult;

/**
 * Writes readings into one measurement of the server. The server overwrites a point that comes
 * again, so existing points are read first: the newest instant of each sensor is known, instants
 * after it are new, and for older ones the server is asked. This holds while nobody else writes the
 * measurement. For one thread.
 */
final class Measurement {
  private final InfluxServer server;
  private final String name;
  private final PointReader rows;
  private final boolean uncertain;

  /** Newest instant of each sensor, epoch milliseconds; null until the server was asked. */
  private @Nullable Map<SensorId, Long> newestMs;

  /** One batch while it is put together. */
  private final class Batch {
    final Map<Point.Key, Point> points = new LinkedHashMap<>();
    final List<RefusedReading> refused = new ArrayList<>();
    int repeated;

    /** The newest instants, with those of the batch. */
    final Map<SensorId, Long> newest;

    Batch(Map<SensorId, Long> newest) {
      this.newest = newest;
    }

    void add(Reading reading) {
      long atMs = reading.at().toEpochMilli();
      for (int moved = 0; moved <= ReadingSink.MOST_MOVED_MS; moved++) {
        Point.Fit fit = add(reading, atMs + moved);
        if (fit == Point.Fit.CONFLICT && uncertain) {
          fit = add(reading, newest.getOrDefault(reading.sensor(), atMs) + 1);
        }
        if (fit != Point.Fit.CONFLICT) {
          repeated += fit == Point.Fit.REPEATED ? 1 : 0;
          return;
        }
      }
      refused.add(new RefusedReading(reading, ReadingSink.noRoomAt(reading)));
    }

    private Point.Fit add(Reading reading, long atMs) {
      Point.Key key = new Point.Key(reading.sensor(), atMs);
      Point.Fit fit = points.computeIfAbsent(key, Point::new).add(reading);
      if (fit == Point.Fit.ADDED) {
        newest.merge(key.sensor(), atMs, Math::max);
      }
      return fit;
    }
  }

  Measurement(InfluxServer server, String name, boolean uncertain) {
    this.server = server;
    this.name = name;
    this.rows = new PointReader(server, name);
    this.uncertain = uncertain;
  }

  PointReader rows() {
    return rows;
  }

  /** Whether the newest instants of the sensors have to be told before anything is written. */
  boolean needsNewest() {
    return newestMs == null;
  }

  void newest(Map<SensorId, Long> instants) {
    newestMs = new HashMap<>(instants);
  }

  /** Writes readings; {@link #newest} must have been called before. */
  WriteResult write(List<Reading> readings) {
    Map<SensorId, Long> known = newestMs == null ? Map.of() : newestMs;
    Batch batch = new Batch(new HashMap<>(known));
    askWhatIsThere(readings, known, batch.points);
    readings.forEach(batch::add);
    batch.points.values().removeIf(point -> point.readings().isEmpty());
    put(List.copyOf(batch.points.values()), batch.refused);
    newestMs = batch.newest;
    int stored = readings.size() - batch.repeated - batch.refused.size();
    return new WriteResult(stored, batch.repeated, batch.refused);
  }

  private void askWhatIsThere(
      List<Reading> batch, Map<SensorId, Long> newest, Map<Point.Key, Point> points) {
    Map<SensorId, NavigableSet<Long>> old = new HashMap<>();
    for (Reading reading : batch) {
      long atMs = reading.at().toEpochMilli();
      if (atMs <= newest.getOrDefault(reading.sensor(), Long.MIN_VALUE)) {
        old.computeIfAbsent(reading.sensor(), sensor -> new TreeSet<>()).add(atMs);
      }
    }
    old.forEach((sensor, instants) -> askWhatIsThere(sensor, instants, points));
  }

  /** Also asks for the instants to which a reading may be moved. */
  private void askWhatIsThere(
      SensorId sensor, NavigableSet<Long> instants, Map<Point.Key, Point> points) {
    for (Ranges.Range range : Ranges.over(instants)) {
      rows.each(
          sensor,
          range.fromMs(),
          range.toMs() + ReadingSink.MOST_MOVED_MS,
          (atMs, values) -> {
            Long asked = instants.floor(atMs);
            if (asked != null && atMs - asked <= ReadingSink.MOST_MOVED_MS) {
              points.computeIfAbsent(new Point.Key(sensor, atMs), Point::new).known(values);
            }
          });
    }
  }

  /**
   * Writes the points. The server takes the good ones of a batch and names the reason of one bad
   * one, so a batch with bad ones is halved until those are found. Points that are bad for one
   * reason mostly lie beside each other in time.
   */
  private void put(List<Point> points, List<RefusedReading> refused) {
    if (points.isEmpty()) {
      return;
    }
    StringBuilder lines = new StringBuilder(points.size() * 96);
    points.forEach(point -> point.appendTo(lines, name, uncertain));
    try {
      server.write(lines.toString());
    } catch (ErrorResponse e) {
      if (points.size() == 1 || e.dropped() == points.size()) {
        points.forEach(point -> refuse(point, e, refused));
        return;
      }
      List<Point> byTime = new ArrayList<>(points);
      byTime.sort(Comparator.comparingLong(point -> point.key().atMs()));
      int half = byTime.size() / 2;
      put(byTime.subList(0, half), refused);
      put(byTime.subList(half, byTime.size()), refused);
    }
  }

  private static void refuse(Point point, ErrorResponse refusal, List<RefusedReading> refused) {
    for (Reading reading : point.readings()) {
      refused.add(new RefusedReading(reading, refusal.reason()));
    }
  }
}
