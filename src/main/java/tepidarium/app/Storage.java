package tepidarium.app;

import java.time.Clock;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import tepidarium.ingest.IngestCounters;
import tepidarium.live.Watch;
import tepidarium.reading.Reading;
import tepidarium.reading.SensorId;
import tepidarium.rollup.HourlyRollups;
import tepidarium.rollup.RollupSink;
import tepidarium.series.ReadingSink;
import tepidarium.series.ReadingSource;
import tepidarium.series.ReadingTrimmer;
import tepidarium.series.RefusedReading;
import tepidarium.series.SensorSummary;
import tepidarium.series.StoreException;
import tepidarium.series.WriteResult;
import tepidarium.series.influx.InfluxAddress;
import tepidarium.series.influx.InfluxReadings;
import tepidarium.series.spool.Spool;
import tepidarium.series.sqlite.SqliteReadings;
import tepidarium.web.system.ServiceFacts.Part;

/** Where readings are kept: in a file of their own, or in InfluxDB with a spool in front of it. */
final class Storage implements AutoCloseable {
  private static final Logger LOG = LoggerFactory.getLogger(Storage.class);

  private final ReadingSink store;
  private final ReadingSource source;
  private final ReadingTrimmer trimmer;
  private final String place;
  private final @Nullable Remote remote;
  private final Runnable closeStore;
  private @Nullable Spool spool;

  /** What a store on another machine needs besides. */
  private record Remote(Runnable probe, DataParts parts, long spoolLimitBytes, Clock clock) {}

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
    InfluxAddress influx = config.keeping().influx();
    if (influx != null) {
      InfluxReadings readings = new InfluxReadings(influx);
      long limitBytes = (long) config.keeping().spoolMaxMegabytes() << 20;
      Remote remote = new Remote(readings::probe, parts, limitBytes, clock);
      String place = "InfluxDB at " + influx.url();
      return new Storage(readings, readings, readings, place, readings::close, remote);
    }
    if (parts.exists(DataPart.SPOOL)) {
      LOG.warn("spool.db may hold readings for InfluxDB: set influxUrl to hand them over");
    }
    SqliteReadings readings = parts.open(DataPart.READINGS, SqliteReadings::open);
    return new Storage(readings, readings, readings, "a file of its own", readings::close, null);
  }

  ReadingTrimmer trimmer() {
    return trimmer;
  }

  ReadingSource source() {
    return source;
  }

  /**
   * Where readings go; to be called once. Readings cannot be queried while they are in the spool,
   * so the rollups learn of them when they leave it.
   */
  ReadingSink sink(HourlyRollups rollups) {
    ReadingSink sink = new RollupSink(rollups, store);
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

  private record Backend(ReadingSink sink, Runnable look) implements Spool.Backend {
    @Override
    public WriteResult write(List<Reading> batch) {
      return sink.write(batch);
    }

    @Override
    public void probe() {
      look.run();
    }
  }

  /** What the store knows of every sensor; nothing yet when it is away. */
  Map<SensorId, SensorSummary> summaries() {
    try {
      return source.summaries();
    } catch (StoreException e) {
      LOG.warn("{}; starting without it", e.getMessage());
      return Map.of();
    }
  }

  /** Begins to hand over what waits on disk, and tells of it. To be called once. */
  void start(IngestCounters counters, Watch watch) {
    if (spool != null) {
      counters.received(spool.state().waiting());
      spool.start(new Listener(counters, watch));
    }
  }

  private final class Listener implements Spool.Listener {
    private final IngestCounters counters;
    private final Watch watch;

    Listener(IngestCounters counters, Watch watch) {
      this.counters = counters;
      this.watch = watch;
    }

    @Override
    public void reached() {
      watch.learn(source.summaries());
      LOG.info("{} answers", place);
    }

    @Override
    public void refused(List<RefusedReading> refused) {
      counters.log(List.of(), refused);
    }

    @Override
    public void forwarded(List<Reading> readings, WriteResult result) {
      counters.settled(readings.size(), result);
      watch.readable(readings.stream().filter(reading -> !reading.uncertain()).toList());
    }
  }

  /**
   * Stops forwarding from the spool. Must happen before the watch, the rollups and the reject log
   * stop, since forwarding informs them.
   */
  void stopHandingOver() {
    if (spool != null) {
      spool.close();
    }
  }

  /** How it is, in words. */
  Part part() {
    Spool spool = this.spool;
    if (spool == null) {
      return Part.up("writing to " + place);
    }
    Spool.State state = spool.state();
    if (state.awaySince() == null) {
      return state.waiting() == 0
          ? Part.up("writing to " + place)
          : Part.up(
              place + " is back: " + state.waiting() + " readings on this disk go over to it");
    }
    return Part.down(
        String.format(
            Locale.ROOT,
            "InfluxDB away since %s, %d readings kept on this disk (%.1f %% of the spool). %s",
            state.awaySince(),
            state.waiting(),
            100 * state.share(),
            state.reason()));
  }

  @Override
  public void close() {
    closeStore.run();
  }
}
