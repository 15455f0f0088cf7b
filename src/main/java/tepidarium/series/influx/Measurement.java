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
 * Writes readings into one measurement of the server without overwriting existing points. The
 * server would overwrite a point at the same instant, so existing points are queried first. The
 * newest instant of each sensor is cached; only readings at or before it need a query. This
 * requires that no other program writes to the measurement. Not thread-safe.
 */
final class Measurement {
  private final InfluxServer server;
  private final String name;
  private final PointReader rows;
  private final boolean uncertain;

  /** Newest instant of each sensor, epoch milliseconds; null until loaded. */
  private @Nullable Map<SensorId, Long> newestMs;

  /** The points of one batch before they are sent. */
  private final class Batch {
    final Map<Point.Key, Point> points = new LinkedHashMap<>();
    final List<RefusedReading> refused = new ArrayList<>();
    int repeated;

    /** The newest instant of each sensor, including those of the batch. */
    final Map<SensorId, Long> newest;

    Batch(Map<SensorId, Long> newest) {
      this.newest = newest;
    }

    void add(Reading reading) {
      long atMs = reading.at().toEpochMilli();
      for (int moved = 0; moved <= ReadingSink.MAX_SHIFT_MS; moved++) {
        Point.Fit fit = add(reading, atMs + moved);
        if (fit == Point.Fit.CONFLICT && uncertain) {
          fit = add(reading, newest.getOrDefault(reading.sensor(), atMs) + 1);
        }
        if (fit != Point.Fit.CONFLICT) {
          repeated += fit == Point.Fit.REPEATED ? 1 : 0;
          return;
        }
      }
      refused.add(new RefusedReading(reading, ReadingSink.noFreeInstant(reading)));
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

  /** Whether {@link #newest} must be called before the first write. */
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
    loadExisting(readings, known, batch.points);
    readings.forEach(batch::add);
    batch.points.values().removeIf(point -> point.readings().isEmpty());
    put(List.copyOf(batch.points.values()), batch.refused);
    newestMs = batch.newest;
    int stored = readings.size() - batch.repeated - batch.refused.size();
    return new WriteResult(stored, batch.repeated, batch.refused);
  }

  private void loadExisting(
      List<Reading> batch, Map<SensorId, Long> newest, Map<Point.Key, Point> points) {
    Map<SensorId, NavigableSet<Long>> old = new HashMap<>();
    for (Reading reading : batch) {
      long atMs = reading.at().toEpochMilli();
      if (atMs <= newest.getOrDefault(reading.sensor(), Long.MIN_VALUE)) {
        old.computeIfAbsent(reading.sensor(), sensor -> new TreeSet<>()).add(atMs);
      }
    }
    old.forEach((sensor, instants) -> loadExisting(sensor, instants, points));
  }

  /** Also queries the later instants to which a reading may be shifted. */
  private void loadExisting(
      SensorId sensor, NavigableSet<Long> instants, Map<Point.Key, Point> points) {
    for (Ranges.Range range : Ranges.over(instants)) {
      rows.each(
          sensor,
          range.fromMs(),
          range.toMs() + ReadingSink.MAX_SHIFT_MS,
          (atMs, values) -> {
            Long asked = instants.floor(atMs);
            if (asked != null && atMs - asked <= ReadingSink.MAX_SHIFT_MS) {
              points.computeIfAbsent(new Point.Key(sensor, atMs), Point::new).known(values);
            }
          });
    }
  }

  /**
   * Writes the points and finds rejected ones by bisection. The server writes the valid points of a
   * batch and reports the error of only one invalid point. The batch is sorted by time before it is
   * halved, because points with the same error are mostly neighbours in time.
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
