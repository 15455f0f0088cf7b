package tepidarium.bench;

import com.datastax.oss.driver.api.core.CqlSession;
import com.datastax.oss.driver.api.core.DefaultConsistencyLevel;
import com.datastax.oss.driver.api.core.cql.AsyncResultSet;
import com.datastax.oss.driver.api.core.cql.BatchStatementBuilder;
import com.datastax.oss.driver.api.core.cql.BoundStatement;
import com.datastax.oss.driver.api.core.cql.BoundStatementBuilder;
import com.datastax.oss.driver.api.core.cql.DefaultBatchType;
import com.datastax.oss.driver.api.core.cql.PreparedStatement;
import java.time.Clock;
import java.time.Duration;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.CompletionStage;
import tepidarium.it.Cassandra;
import tepidarium.reading.Quantity;
import tepidarium.reading.Reading;
import tepidarium.series.cassandra.CassandraReadings;

/**
 * Readings in Cassandra: batches by the service's part and bare, in turns; room; six weeks read.
 */
final class CassandraStore {
  private static final int BATCH = 5_000;
  private static final int CHUNK = 200;
  private static final int GROUPS = 256;
  private static final long DAY_MS = 86_400_000;
  private static final int SIX_WEEKS_MINUTES = 42 * 24 * 60;
  private static final int WARM_UP = 100;
  private static final long FIRST_WRITE_TIME = 2_000_000_000_000_000L;
  private static final List<Quantity> BARE =
      List.of(Quantity.TEMPERATURE, Quantity.HUMIDITY, Quantity.LIGHT, Quantity.BATTERY);

  private final int readings;
  private long writeTime = FIRST_WRITE_TIME;

  CassandraStore(int readings) {
    this.readings = readings;
  }

  void run(Report report) throws Exception {
    try (Cassandra server = Cassandra.large()) {
      compare(report, server);
      sixWeeks(report, server);
    }
  }

  private static CassandraReadings open(Cassandra server, String keyspace) {
    return new CassandraReadings(server.address(keyspace), Clock.systemUTC());
  }

  private static void sixWeeks(Report report, Cassandra server) throws Exception {
    int count = Stores.SENSORS * SIX_WEEKS_MINUTES;
    try (CassandraReadings store = open(server, "weeks")) {
      Stores.rate(count, BATCH, Stores.SENSORS, Stores.STEP_MS, store::write);
    }
    // It writes its memory to files.
    server.stop(1);
    server.start(1);
    server.administrator().close();
    report.figure(
        "room in Cassandra, one copy, as they come in, four quantities",
        "",
        Report.figure((double) server.size(1, "weeks", "reading") / count) + " bytes a reading");
    try (CassandraReadings store = open(server, "weeks")) {
      Stores.sixWeeks(
          report,
          "one of " + Stores.SENSORS + " sensors in Cassandra, a reading each 60 s",
          "at most 100 ms",
          store,
          new Stores.Reads(Stores.SENSORS, SIX_WEEKS_MINUTES, WARM_UP));
    }
  }

  /**
   * Into two keyspaces with the same tables, in turns: what else the machine does concerns both.
   */
  private void compare(Report report, Cassandra server) throws Exception {
    try (CqlSession session = server.administrator();
        CassandraReadings store = open(server, "ours");
        CassandraReadings tables = open(server, "bare")) {
      store.probe();
      tables.probe();
      PreparedStatement insert =
          session.prepare(
              "INSERT INTO bare.reading (sensor_group, day, sensor, at, temperature, humidity,"
                  + " light, battery) VALUES (?, ?, ?, ?, ?, ?, ?, ?) USING TIMESTAMP ?");
      double[] seconds = new double[2];
      Stores.Write both =
          batch -> {
            long start = System.nanoTime();
            write(session, insert, batch);
            long middle = System.nanoTime();
            store.write(batch);
            seconds[0] += (middle - start) / 1e9;
            seconds[1] += (System.nanoTime() - middle) / 1e9;
          };
      Stores.rate(readings / 2, BATCH, Stores.SENSORS, Stores.STEP_MS, both);
      seconds[0] = 0;
      seconds[1] = 0;
      Stores.rate(
          readings,
          BATCH,
          Stores.SENSORS,
          Stores.STEP_MS,
          batch -> both.write(batch.stream().map(CassandraStore::later).toList()));
      report.ratio(
          "Cassandra, batches of " + BATCH,
          "at least 0.8",
          " readings/s",
          readings / seconds[1],
          "bare upsert",
          readings / seconds[0]);
    }
  }

  /** After the readings of the warm-up. */
  private static Reading later(Reading reading) {
    return reading.movedTo(reading.at().plus(Duration.ofDays(1_000)), null);
  }

  /** The same rows in the same partitions, without telling which ones were there. */
  private void write(CqlSession session, PreparedStatement insert, List<Reading> batch) {
    Map<Long, List<Reading>> partitions = new LinkedHashMap<>();
    for (Reading reading : batch) {
      partitions.computeIfAbsent(partition(reading), key -> new ArrayList<>()).add(reading);
    }
    writeTime--;
    List<CompletionStage<AsyncResultSet>> running = new ArrayList<>();
    for (List<Reading> partition : partitions.values()) {
      for (int start = 0; start < partition.size(); start += CHUNK) {
        BatchStatementBuilder rows = new BatchStatementBuilder(DefaultBatchType.UNLOGGED);
        for (Reading one : partition.subList(start, Math.min(partition.size(), start + CHUNK))) {
          rows.addStatement(row(insert, one));
        }
        running.add(
            session.executeAsync(rows.setConsistencyLevel(DefaultConsistencyLevel.QUORUM).build()));
      }
    }
    running.forEach(one -> one.toCompletableFuture().join());
  }

  private static int group(Reading reading) {
    return Math.floorMod(reading.sensor().name().hashCode(), GROUPS);
  }

  private static long partition(Reading reading) {
    return reading.at().toEpochMilli() / DAY_MS * GROUPS + group(reading);
  }

  private BoundStatement row(PreparedStatement insert, Reading reading) {
    BoundStatementBuilder row =
        insert
            .boundStatementBuilder()
            .setInt(0, group(reading))
            .setInt(1, (int) (reading.at().toEpochMilli() / DAY_MS))
            .setString(2, reading.sensor().name())
            .setLong(3, reading.at().toEpochMilli())
            .setLong(4 + BARE.size(), writeTime);
    for (int i = 0; i < BARE.size(); i++) {
      Double value = reading.value(BARE.get(i));
      if (value != null) {
        row = row.setInt(4 + i, (int) Math.round(value * 1e4));
      }
    }
    return row.build();
  }
}
