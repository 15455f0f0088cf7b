package tepidarium.series.influx;

import java.time.Duration;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.NavigableSet;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import tepidarium.reading.Quantity;
import tepidarium.reading.Reading;
import tepidarium.reading.SensorId;
import tepidarium.series.InstantAssignment;
import tepidarium.series.Ranges;
import tepidarium.series.ReadingSink;
import tepidarium.series.RefusedReading;
import tepidarium.series.ScaledValue;
import tepidarium.series.StoredInstant;
import tepidarium.series.WriteResult;

/**
 * Writes readings into one measurement of the server without overwriting existing points. The
 * server would overwrite a point at the same instant, so existing points are queried first. The
 * newest instant of each sensor is cached; only readings at or before it need a query. This
 * requires that no other program writes to the measurement. Not thread-safe.
 */
final class Measurement {
  private static final long MAX_STEP_MS = Duration.ofDays(1).toMillis();

  private final InfluxServer server;
  private final String name;
  private final PointReader rows;
  private final boolean uncertain;

  /** Newest instant of each sensor, epoch milliseconds; null until loaded. */
  private @Nullable Map<SensorId, Long> newestMs;

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
    InstantAssignment assignment = new InstantAssignment(uncertain, known);
    loadExisting(readings, known, assignment);
    readings.forEach(assignment::add);
    List<RefusedReading> refused = new ArrayList<>(assignment.refused());
    put(assignment.changed(), refused);
    newestMs = assignment.newestMs();
    int stored = readings.size() - assignment.repeated() - refused.size();
    return new WriteResult(stored, assignment.repeated(), refused);
  }

  private void loadExisting(
      List<Reading> batch, Map<SensorId, Long> newest, InstantAssignment assignment) {
    Map<SensorId, NavigableSet<Long>> old = new HashMap<>();
    for (Reading reading : batch) {
      long atMs = reading.at().toEpochMilli();
      if (atMs <= newest.getOrDefault(reading.sensor(), Long.MIN_VALUE)) {
        old.computeIfAbsent(reading.sensor(), sensor -> new TreeSet<>()).add(atMs);
      }
    }
    old.forEach((sensor, instants) -> loadExisting(sensor, instants, assignment));
  }

  /** Also queries the later instants to which a reading may be shifted. */
  private void loadExisting(
      SensorId sensor, NavigableSet<Long> instants, InstantAssignment assignment) {
    for (Ranges.Range range : Ranges.over(instants, MAX_STEP_MS)) {
      rows.each(
          sensor,
          range.fromMs(),
          range.toMs() + ReadingSink.MAX_SHIFT_MS,
          (atMs, values) -> {
            Long asked = instants.floor(atMs);
            if (asked != null && atMs - asked <= ReadingSink.MAX_SHIFT_MS) {
              assignment.known(sensor, atMs, values);
            }
          });
    }
  }

  /**
   * Writes the points and finds rejected ones by bisection. The server writes the valid points of a
   * batch and reports the error of only one invalid point. The batch is sorted by time before it is
   * halved, because points with the same error are mostly neighbours in time.
   */
  private void put(List<StoredInstant> points, List<RefusedReading> refused) {
    if (points.isEmpty()) {
      return;
    }
    StringBuilder lines = new StringBuilder(points.size() * 96);
    points.forEach(point -> appendTo(lines, point));
    try {
      server.write(lines.toString());
    } catch (ErrorResponse e) {
      if (points.size() == 1 || e.dropped() == points.size()) {
        points.forEach(point -> refuse(point, e, refused));
        return;
      }
      List<StoredInstant> byTime = new ArrayList<>(points);
      byTime.sort(Comparator.comparingLong(point -> point.key().atMs()));
      int half = byTime.size() / 2;
      put(byTime.subList(0, half), refused);
      put(byTime.subList(half, byTime.size()), refused);
    }
  }

  /** Appends the added values in line protocol. Sensor names need no escaping. */
  private void appendTo(StringBuilder lines, StoredInstant point) {
    lines.append(name).append(",sensor=").append(point.key().sensor().name());
    char before = ' ';
    for (Map.Entry<Quantity, Long> field : point.addedSteps().entrySet()) {
      lines.append(before).append(field.getKey().key()).append('=');
      ScaledValue.append(lines, field.getValue());
      before = ',';
    }
    // Counts of readings of uncertain time need the field; 0 stands for no packet identifier.
    if (point.delivery() > 0 || uncertain) {
      lines
          .append(',')
          .append(PointReader.DELIVERY)
          .append('=')
          .append(point.delivery())
          .append('i');
    }
    lines.append(' ').append(point.key().atMs()).append('\n');
  }

  private static void refuse(
      StoredInstant point, ErrorResponse refusal, List<RefusedReading> refused) {
    for (Reading reading : point.readings()) {
      refused.add(new RefusedReading(reading, refusal.reason()));
    }
  }
}
