package tepidarium.app;

import java.time.Clock;
import java.util.List;
import java.util.Map;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import tepidarium.ingest.IngestCounters;
import tepidarium.live.Watch;
import tepidarium.postgres.PostgresAddress;
import tepidarium.reading.Reading;
import tepidarium.reading.SensorId;
import tepidarium.rollup.HourlyRollups;
import tepidarium.rollup.RollupSink;
import tepidarium.rollup.SensorDaySink;
import tepidarium.rollup.SensorDays;
import tepidarium.series.ReadingSink;
import tepidarium.series.ReadingSource;
import tepidarium.series.ReadingTrimmer;
import tepidarium.series.SensorSummary;
import tepidarium.series.StoreException;
import tepidarium.series.WriteResult;
import tepidarium.series.cassandra.CassandraAddress;
import tepidarium.series.cassandra.CassandraReadings;
import tepidarium.series.influx.InfluxAddress;
import tepidarium.series.influx.InfluxReadings;
import tepidarium.series.postgres.PostgresReadings;
import tepidarium.series.spool.Spool;
import tepidarium.series.sqlite.SqliteReadings;
import tepidarium.web.system.ServiceInfo.Part;

/**
 * Opens the readings store that the settings select: a local file, or PostgreSQL, Cassandra or
 * InfluxDB with a spool in front of it.
 */
final class Storage implements AutoCloseable {
  private static final Logger LOG = LoggerFactory.getLogger(Storage.class);

  private final ReadingSink store;
  private final ReadingSource source;
  private final ReadingTrimmer trimmer;
  private final String place;
  private final @Nullable Remote remote;
  private final Runnable closeStore;
  private @Nullable Spool spool;

  /** Additional parts of a store on another machine, for its spool. */
  private record Remote(
      String product,
      Runnable probe,
      Supplier<String> warning,
      DataParts parts,
      long spoolLimitBytes,
      Clock clock) {}

  private Storage(
      ReadingSink store,
      ReadingSource source,
      ReadingTrimmer trimmer,
      String place,
      Runnable closeStore,
      @Nullable Remote remote) {
    this.store = store;
    this.source = source;
    this.trimmer = trimmer;
    this.place = place;
    this.remote = remote;
    this.closeStore = closeStore;
  }

  static Storage open(Config config, DataParts parts, Clock clock) {
    PostgresAddress postgres = config.keeping().readings();
    if (postgres != null) {
      PostgresReadings readings = new PostgresReadings(postgres);
      Remote remote = remote("PostgreSQL", readings::probe, () -> "", config, parts, clock);
      String place = "the database " + postgres;
      return new Storage(readings, readings, readings, place, readings::close, remote);
    }
    CassandraAddress cassandra = config.keeping().cassandra();
    if (cassandra != null) {
      CassandraReadings readings = new CassandraReadings(cassandra, clock);
      Remote remote =
          remote("Cassandra", readings::probe, readings::durabilityWarning, config, parts, clock);
      String place = "the keyspace " + cassandra;
      return new Storage(readings, readings, readings, place, readings::close, remote);
    }
    InfluxAddress influx = config.keeping().influx();
    if (influx != null) {
      InfluxReadings readings = new InfluxReadings(influx);
      Remote remote = remote("InfluxDB", readings::probe, () -> "", config, parts, clock);
      String place = "InfluxDB at " + influx.url();
      return new Storage(readings, readings, readings, place, readings::close, remote);
    }
    if (parts.exists(DataPart.SPOOL)) {
      LOG.warn(
          "spool.db may contain readings for a server; set readingsUrl or influxUrl to forward them");
    }
    SqliteReadings readings = parts.open(DataPart.READINGS, SqliteReadings::open);
    return new Storage(
        readings, readings, readings, DataPart.READINGS.fileName(), readings::close, null);
  }

  private static Remote remote(
      String product,
      Runnable probe,
      Supplier<String> warning,
      Config config,
      DataParts parts,
      Clock clock) {
    long limitBytes = (long) config.keeping().spoolMaxMegabytes() << 20;
    return new Remote(product, probe, warning, parts, limitBytes, clock);
  }

  ReadingTrimmer trimmer() {
    return trimmer;
  }

  ReadingSource source() {
    return source;
  }

  /**
   * Returns the sink for readings. Call it once. Readings in the spool cannot be queried, so the
   * rollups are invalidated when the readings leave the spool.
   */
  ReadingSink sink(HourlyRollups rollups, SensorDays days) {
    ReadingSink sink = directSink(rollups, days);
    if (remote == null) {
      return sink;
    }
    Spool opened =
        remote
            .parts()
            .open(
                DataPart.SPOOL,
                file ->
                    Spool.open(
                        new Backend(sink, remote.probe()),
                        file,
                        remote.spoolLimitBytes(),
                        remote.clock()));
    spool = opened;
    return opened;
  }

  /**
   * Returns a sink that writes to the store at once, without the spool. A write fails while the
   * store does not answer.
   */
  ReadingSink directSink(HourlyRollups rollups, SensorDays days) {
    return new RollupSink(rollups, new SensorDaySink(days, store));
  }

  /** Returns the sink of the store alone. It does not invalidate sums, so there must be none. */
  ReadingSink plainSink() {
    return store;
  }

  private record Backend(ReadingSink sink, Runnable prober) implements Spool.Backend {
    @Override
    public WriteResult write(List<Reading> batch) {
      return sink.write(batch);
    }

    @Override
    public void probe() {
      prober.run();
    }
  }

  /** Returns a summary of each sensor in the store; empty while the store does not answer. */
  Map<SensorId, SensorSummary> summaries() {
    try {
      return source.summaries();
    } catch (StoreException e) {
      LOG.warn("{}; starting without the newest reading of each sensor", e.getMessage());
      return Map.of();
    }
  }

  /**
   * Starts to forward the readings in the spool, if there is one. Tells the watch when the store
   * answers. Call it once.
   */
  void start(IngestCounters counters, Watch watch) {
    if (spool == null) {
      watch.learn(Map.of());
    } else {
      counters.received(spool.state().waiting());
      spool.start(new SpoolListener(place, source, counters, watch));
    }
  }

  /**
   * Stops forwarding from the spool. Call it before the watch, the rollups and the reject log stop,
   * because forwarding uses them.
   */
  void stopForwarding() {
    if (spool != null) {
      spool.close();
    }
  }

  /** Returns the health of the store, in words. */
  Part part() {
    Spool current = spool;
    return remote == null || current == null
        ? StorageHealth.of(place)
        : StorageHealth.of(remote.product(), place, remote.warning().get(), current.state());
  }

  @Override
  public void close() {
    closeStore.run();
  }
}
