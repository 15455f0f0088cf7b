package tepidarium.series.cassandra;

import com.datastax.oss.driver.api.core.cql.BoundStatement;
import java.time.Clock;
import java.time.Instant;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SortedSet;
import java.util.TreeMap;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import tepidarium.reading.Arrival;
import tepidarium.reading.Quantity;
import tepidarium.reading.Reading;
import tepidarium.reading.Samples;
import tepidarium.reading.SensorId;
import tepidarium.reading.Span;
import tepidarium.series.ReadingSink;
import tepidarium.series.ReadingSource;
import tepidarium.series.ReadingTrimmer;
import tepidarium.series.Redeliveries;
import tepidarium.series.SensorSummary;
import tepidarium.series.StoreException;
import tepidarium.series.UncertainCounts;
import tepidarium.series.UncertainReadings;
import tepidarium.series.WriteResult;

/**
 * Stores readings in a Cassandra cluster. A reading counts as stored once a quorum of its replicas
 * has confirmed it, and queries read from a quorum. One thread writes; any number of threads read.
 * See {@link CassandraTables} for the tables.
 */
public final class CassandraReadings
    implements ReadingSink, ReadingSource, ReadingTrimmer, AutoCloseable {
  private static final Logger LOG = LoggerFactory.getLogger(CassandraReadings.class);
  private static final int BATCH = 5_000;

  /** Days in which the first delivery of a reading is searched, at most. */
  private static final int DELIVERY_DAYS = 30;

  private final CassandraServer server;
  private final SensorRows rows;
  private final SensorRows uncertainRows;
  private final StoredDays days;
  private final ReadingWriter writer;
  private final ReadingWriter uncertainWriter;

  /** Held by every change, because a deletion changes what the writers know. */
  private final Object changing = new Object();

  private final UncertainCounts uncertain;

  /** Connects at the first call, so that the service can start while the cluster is away. */
  public CassandraReadings(CassandraAddress address, Clock clock) {
    server = new CassandraServer(address, clock);
    rows = new SensorRows(server, "reading", "sensor_day");
    uncertainRows = new SensorRows(server, "uncertain_reading", "uncertain_day");
    days = new StoredDays(server, clock);
    writer = new ReadingWriter(server, rows, days, false);
    uncertainWriter = new ReadingWriter(server, uncertainRows, days, true);
    uncertain = new UncertainCounts(this::countUncertain);
  }

  /**
   * Checks that a quorum answers. Renews {@link #durabilityWarning} each minute.
   *
   * @throws StoreException when it does not
   */
  public void probe() {
    server.run(
        List.of(
            server
                .prepare("SELECT version FROM " + server.table("format") + " WHERE id = 0")
                .bind()));
    server.checkDurability();
  }

  /** What the nodes do not keep through a power cut; empty if they keep all or cannot tell. */
  public String durabilityWarning() {
    return server.durabilityWarning();
  }

  @Override
  public WriteResult write(List<Reading> batch) {
    WriteResult result = WriteResult.NOTHING;
    for (int start = 0; start < batch.size(); start += BATCH) {
      List<Reading> part = batch.subList(start, Math.min(batch.size(), start + BATCH));
      result = result.plus(writeSome(part));
    }
    return result;
  }

  private WriteResult writeSome(List<Reading> batch) {
    BitSet again = Redeliveries.repeated(batch, this::delivered);
    List<Reading> certain = new ArrayList<>(batch.size());
    List<Reading> others = new ArrayList<>(0);
    for (int i = 0; i < batch.size(); i++) {
      if (!again.get(i)) {
        (batch.get(i).uncertain() ? others : certain).add(batch.get(i));
      }
    }
    synchronized (changing) {
      WriteResult result = writer.write(certain);
      if (!others.isEmpty()) {
        uncertain.changed();
        result = result.plus(uncertainWriter.write(others));
        uncertain.changed();
      }
      return result.plus(new WriteResult(0, again.cardinality()));
    }
  }

  private List<Reading> delivered(SensorId sensor) {
    List<Reading> found = new ArrayList<>();
    addDelivered(rows, sensor, found);
    addDelivered(uncertainRows, sensor, found);
    return found;
  }

  private void addDelivered(SensorRows from, SensorId sensor, List<Reading> found) {
    int[] left = {Redeliveries.LOOK_BACK};
    for (int day :
        from.newestDays(Map.of(sensor, Integer.MAX_VALUE), DELIVERY_DAYS)
            .getOrDefault(sensor, List.of())) {
      server.run(
          List.of(from.newest(sensor, day, left[0])),
          (statement, row) -> {
            left[0]--;
            int delivery = row.getInt(1 + Quantity.values().length);
            if (delivery > 0) {
              found.add(
                  new Reading(
                      sensor,
                      Instant.ofEpochMilli(row.getLong(0)),
                      SensorRows.values(row),
                      new Arrival(delivery, false, false)));
            }
          });
      if (left[0] <= 0) {
        return;
      }
    }
  }

  @Override
  public Map<Quantity, Samples> read(SensorId sensor, Span span) {
    return read(rows, sensor, span);
  }

  @Override
  public Map<Quantity, Samples> readUncertain(SensorId sensor, Span span) {
    return read(uncertainRows, sensor, span);
  }

  private Map<Quantity, Samples> read(SensorRows from, SensorId sensor, Span span) {
    List<BoundStatement> queries = new ArrayList<>();
    for (int day : days(from, sensor, span)) {
      queries.add(from.select(sensor, day, span.fromMs(), span.toMs()));
    }
    Map<Quantity, Samples.Builder> builders = new EnumMap<>(Quantity.class);
    server.runLarge(
        queries,
        (query, row) -> {
          long atMs = row.getLong(0);
          for (Quantity quantity : Quantity.values()) {
            Double value = SensorRows.value(row, quantity);
            if (value != null) {
              builders.computeIfAbsent(quantity, one -> new Samples.Builder(1024)).add(atMs, value);
            }
          }
        });
    Map<Quantity, Samples> samples = new EnumMap<>(Quantity.class);
    builders.forEach((quantity, builder) -> samples.put(quantity, builder.build()));
    return samples;
  }

  private static List<Integer> days(SensorRows of, SensorId sensor, Span span) {
    return of.days(sensor, StoredDays.day(span.fromMs()), StoredDays.day(span.toMs()));
  }

  @Override
  public Optional<Instant> firstAt(SensorId sensor, Span span) {
    return rows.firstAt(sensor, days(rows, sensor, span), span.fromMs(), span.toMs())
        .map(Instant::ofEpochMilli);
  }

  @Override
  public Map<SensorId, SensorSummary> summaries() {
    return new SensorSummaries(server, rows).all();
  }

  @Override
  public Map<SensorId, UncertainReadings> uncertain() {
    return uncertain.get();
  }

  private Map<SensorId, UncertainReadings> countUncertain() {
    Map<SensorId, UncertainReadings> counted = new HashMap<>();
    Map<SensorId, Integer> firstDays = uncertainRows.firstDays();
    for (Map.Entry<SensorId, Integer> first : firstDays.entrySet()) {
      SensorId sensor = first.getKey();
      long[] count = {0};
      long[] newest = {0};
      List<BoundStatement> queries = new ArrayList<>();
      for (int day : uncertainRows.days(sensor, first.getValue(), Integer.MAX_VALUE)) {
        queries.add(uncertainRows.count(sensor, day));
      }
      server.run(
          queries,
          (query, row) -> {
            count[0] += row.getLong(0);
            newest[0] = Math.max(newest[0], row.getLong(1));
          });
      if (count[0] > 0) {
        counted.put(sensor, new UncertainReadings(count[0], Instant.ofEpochMilli(newest[0])));
      }
    }
    return counted;
  }

  @Override
  public Optional<Instant> oldest() {
    Optional<Long> certain = oldest(rows);
    Optional<Long> others = oldest(uncertainRows);
    return certain
        .map(one -> Math.min(one, others.orElse(Long.MAX_VALUE)))
        .or(() -> others)
        .map(Instant::ofEpochMilli);
  }

  /**
   * Searches day after day. A recorded day may have no rows left; its sensor's next one follows.
   */
  private Optional<Long> oldest(SensorRows from) {
    TreeMap<Integer, List<SensorId>> byDay = new TreeMap<>();
    addByDay(from.firstDays(), byDay);
    while (!byDay.isEmpty()) {
      Map.Entry<Integer, List<SensorId>> sensors = byDay.pollFirstEntry();
      int day = sensors.getKey();
      long[] oldest = {Long.MAX_VALUE};
      server.run(
          sensors.getValue().stream()
              .map(sensor -> from.first(sensor, day, Long.MIN_VALUE, Long.MAX_VALUE))
              .toList(),
          (query, row) -> oldest[0] = Math.min(oldest[0], row.getLong(0)));
      if (oldest[0] != Long.MAX_VALUE) {
        return Optional.of(oldest[0]);
      }
      addByDay(from.nextDays(sensors.getValue(), day), byDay);
    }
    return Optional.empty();
  }

  private static void addByDay(Map<SensorId, Integer> days, Map<Integer, List<SensorId>> byDay) {
    days.forEach((sensor, day) -> byDay.computeIfAbsent(day, one -> new ArrayList<>()).add(sensor));
  }

  /** Deletes all old readings, without the limit, and whole days at once; it counts nothing. */
  @Override
  public int deleteBefore(Instant instant, int limit) {
    long beforeMs = instant.toEpochMilli();
    int lastDay = StoredDays.day(beforeMs);
    synchronized (changing) {
      try {
        dropDays(days.before(lastDay));
        for (SensorRows each : List.of(rows, uncertainRows)) {
          deleteBefore(each, lastDay, beforeMs);
        }
      } finally {
        // Also after a failure, because a part may be deleted.
        writer.forget();
        uncertainWriter.forget();
        uncertain.changed();
      }
    }
    return 0;
  }

  /** The days count as stored until all is deleted, so that a later call repeats what failed. */
  private void dropDays(SortedSet<Integer> old) {
    if (old.isEmpty()) {
      return;
    }
    Map<Integer, Long> deletions = days.beginLives(old);
    for (SensorRows each : List.of(rows, uncertainRows)) {
      deletions.forEach((day, writeTime) -> server.run(each.dropDay(day, writeTime)));
    }
    days.emptied(old);
    LOG.info("deleted all raw readings of {} days", old.size());
  }

  /** Deletes the readings of the last day before the instant, and the records of days before it. */
  private void deleteBefore(SensorRows from, int lastDay, long beforeMs) {
    List<BoundStatement> deletions = new ArrayList<>();
    List<SensorId> ofLastDay = new ArrayList<>();
    from.firstDays()
        .forEach(
            (sensor, first) -> {
              if (first < lastDay) {
                deletions.add(from.unmark(sensor, lastDay));
              }
              if (first <= lastDay) {
                ofLastDay.add(sensor);
              }
            });
    if (!ofLastDay.isEmpty()) {
      long writeTime = days.beginLives(List.of(lastDay)).getOrDefault(lastDay, 0L);
      ofLastDay.forEach(one -> deletions.add(from.delete(one, lastDay, beforeMs, writeTime)));
    }
    server.run(deletions);
  }

  @Override
  public void close() {
    server.close();
  }
}
