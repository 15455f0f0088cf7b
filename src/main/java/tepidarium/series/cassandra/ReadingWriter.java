package tepidarium.series.cassandra;

import com.datastax.oss.driver.api.core.cql.BatchStatement;
import com.datastax.oss.driver.api.core.cql.BatchStatementBuilder;
import com.datastax.oss.driver.api.core.cql.BatchableStatement;
import com.datastax.oss.driver.api.core.cql.BoundStatement;
import com.datastax.oss.driver.api.core.cql.DefaultBatchType;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.NavigableSet;
import java.util.Set;
import java.util.TreeSet;
import tepidarium.reading.Reading;
import tepidarium.reading.SensorId;
import tepidarium.series.InstantAssignment;
import tepidarium.series.Ranges;
import tepidarium.series.ReadingSink;
import tepidarium.series.StoreException;
import tepidarium.series.StoredInstant;
import tepidarium.series.WriteResult;

/**
 * Writes readings into one table. Cassandra does not tell whether a row was there, so the rows at
 * the instants of a batch are queried first. The newest instant of each sensor is cached; only
 * readings at or before it need a query. No other service may write meanwhile; see {@link
 * StoredDays} for what happens where one does. Not thread-safe.
 */
final class ReadingWriter {
  /** Rows of one partition in one request. */
  private static final int CHUNK = 200;

  private final CassandraServer server;
  private final SensorRows rows;
  private final StoredDays days;
  private final boolean uncertain;
  private final Map<SensorId, Long> newestMs = new HashMap<>();

  /** The last day that is recorded of each sensor. */
  private final Map<SensorId, Integer> marked = new HashMap<>();

  /** One sensor on one day. */
  private record SensorDay(SensorId sensor, int day) {}

  ReadingWriter(CassandraServer server, SensorRows rows, StoredDays days, boolean uncertain) {
    this.server = server;
    this.rows = rows;
    this.days = days;
    this.uncertain = uncertain;
  }

  /** Forgets what is stored, after a deletion. */
  void forget() {
    newestMs.clear();
    marked.clear();
  }

  WriteResult write(List<Reading> readings) {
    if (readings.isEmpty()) {
      return WriteResult.NOTHING;
    }
    learnNewest(readings);
    Map<SensorId, Long> known = new HashMap<>();
    readings.forEach(
        one -> known.put(one.sensor(), newestMs.getOrDefault(one.sensor(), Long.MIN_VALUE)));
    InstantAssignment assignment = new InstantAssignment(uncertain, known);
    loadExisting(readings, assignment);
    readings.forEach(assignment::add);
    try {
      put(assignment.changed());
    } catch (StoreException e) {
      // Part of it may be stored.
      known.keySet().forEach(newestMs::remove);
      throw e;
    }
    newestMs.putAll(assignment.newestMs());
    int stored = readings.size() - assignment.repeated() - assignment.refused().size();
    return new WriteResult(stored, assignment.repeated(), assignment.refused());
  }

  private void learnNewest(List<Reading> readings) {
    Map<SensorId, Integer> unknown = new HashMap<>();
    for (Reading reading : readings) {
      if (!newestMs.containsKey(reading.sensor())) {
        unknown.put(reading.sensor(), Integer.MAX_VALUE);
      }
    }
    Set<SensorId> asked = new HashSet<>(unknown.keySet());
    Map<SensorId, Long> found = new HashMap<>();
    // A day that is recorded may have no reading yet.
    while (!unknown.isEmpty()) {
      List<SensorDay> last = new ArrayList<>();
      rows.newestDays(unknown, 1)
          .forEach((sensor, of) -> last.add(new SensorDay(sensor, of.get(0))));
      server.run(
          last.stream().map(one -> rows.newest(one.sensor(), one.day(), 1)).toList(),
          (statement, row) -> found.put(last.get(statement).sensor(), row.getLong(0)));
      unknown.clear();
      last.stream()
          .filter(one -> !found.containsKey(one.sensor()))
          .forEach(one -> unknown.put(one.sensor(), one.day()));
    }
    asked.forEach(sensor -> newestMs.put(sensor, found.getOrDefault(sensor, Long.MIN_VALUE)));
  }

  /** Also queries the later instants to which a reading may be shifted. */
  private void loadExisting(List<Reading> batch, InstantAssignment assignment) {
    Map<SensorId, NavigableSet<Long>> old = new HashMap<>();
    for (Reading reading : batch) {
      long atMs = reading.at().toEpochMilli();
      if (atMs <= newestMs.getOrDefault(reading.sensor(), Long.MIN_VALUE)) {
        old.computeIfAbsent(reading.sensor(), sensor -> new TreeSet<>()).add(atMs);
      }
    }
    List<BoundStatement> queries = new ArrayList<>();
    List<Map.Entry<SensorId, NavigableSet<Long>>> asked = new ArrayList<>();
    for (Map.Entry<SensorId, NavigableSet<Long>> of : old.entrySet()) {
      for (Ranges.Range range : Ranges.over(of.getValue(), StoredDays.DAY_MS / 2)) {
        long to = range.toMs() + ReadingSink.MAX_SHIFT_MS;
        for (int day = StoredDays.day(range.fromMs()); day <= StoredDays.day(to); day++) {
          queries.add(rows.select(of.getKey(), day, range.fromMs(), to));
          asked.add(of);
        }
      }
    }
    server.runLarge(
        queries,
        (query, row) -> {
          Map.Entry<SensorId, NavigableSet<Long>> of = asked.get(query);
          long atMs = row.getLong(0);
          Long before = of.getValue().floor(atMs);
          if (before != null && atMs - before <= ReadingSink.MAX_SHIFT_MS) {
            assignment.known(of.getKey(), atMs, SensorRows.values(row));
          }
        });
  }

  private void put(List<StoredInstant> changed) {
    if (changed.isEmpty()) {
      return;
    }
    Map<Long, List<StoredInstant>> partitions = new LinkedHashMap<>();
    Set<SensorDay> sensorDays = new HashSet<>();
    Set<Integer> ofDays = new HashSet<>();
    for (StoredInstant instant : changed) {
      SensorId sensor = instant.key().sensor();
      int day = StoredDays.day(instant.key().atMs());
      partitions
          .computeIfAbsent(SensorRows.partition(sensor, day), key -> new ArrayList<>())
          .add(instant);
      ofDays.add(day);
      if (marked.getOrDefault(sensor, Integer.MIN_VALUE) != day) {
        sensorDays.add(new SensorDay(sensor, day));
      }
    }
    record(ofDays, sensorDays);
    List<BatchStatement> batches = new ArrayList<>();
    for (List<StoredInstant> partition : partitions.values()) {
      for (int start = 0; start < partition.size(); start += CHUNK) {
        batches.add(batch(partition.subList(start, Math.min(partition.size(), start + CHUNK))));
      }
    }
    server.run(batches);
  }

  /** Before the readings, so that none can be overlooked. */
  private void record(Collection<Integer> ofDays, Collection<SensorDay> sensorDays) {
    List<BoundStatement> records = new ArrayList<>(days.additions(ofDays));
    sensorDays.forEach(one -> records.add(rows.mark(one.sensor(), one.day())));
    server.run(records);
    days.added(ofDays);
    sensorDays.forEach(one -> marked.merge(one.sensor(), one.day(), Math::max));
  }

  /** One request for rows of one partition; Cassandra applies it whole or not at all. */
  private BatchStatement batch(List<StoredInstant> instants) {
    int day = StoredDays.day(instants.get(0).key().atMs());
    long writeTime = days.writeTime(day);
    List<BatchableStatement<?>> inserts = new ArrayList<>(instants.size());
    instants.forEach(one -> inserts.add(rows.insert(one, day, writeTime)));
    return new BatchStatementBuilder(DefaultBatchType.UNLOGGED).addStatements(inserts).build();
  }
}
