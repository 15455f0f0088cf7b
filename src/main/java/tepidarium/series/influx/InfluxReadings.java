package tepidarium.series.influx;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.influxdb.dto.QueryResult;
import org.jspecify.annotations.Nullable;
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
import tepidarium.series.UncertainCounts;
import tepidarium.series.UncertainReadings;
import tepidarium.series.WriteResult;

/**
 * Stores readings in an InfluxDB server: measurement {@code reading}, tag {@code sensor}, one float
 * field per quantity. Readings of uncertain time go to the measurement {@code uncertain_reading}.
 * One thread writes; any number of threads read.
 */
public final class InfluxReadings
    implements ReadingSink, ReadingSource, ReadingTrimmer, AutoCloseable {
  private static final String READING = "reading";
  private static final String UNCERTAIN = "uncertain_reading";
  private static final int BATCH = 5_000;
  private static final Quantity[] QUANTITIES = Quantity.values();

  private final InfluxServer server;
  private final Measurement readings;
  private final Measurement uncertainReadings;
  private final PointReader rows;

  private final UncertainCounts uncertain;

  /** Connects lazily, at the first call, so the service can start while the server is down. */
  public InfluxReadings(InfluxAddress address) {
    server = new InfluxServer(address);
    readings = new Measurement(server, READING, false);
    uncertainReadings = new Measurement(server, UNCERTAIN, true);
    rows = readings.rows();
    uncertain = new UncertainCounts(this::countUncertain);
  }

  /**
   * Checks that the server answers.
   *
   * @throws tepidarium.series.StoreException when it does not answer
   */
  public void probe() {
    server.probe();
  }

  @Override
  public WriteResult write(List<Reading> batch) {
    WriteResult result = WriteResult.NOTHING;
    for (int start = 0; start < batch.size(); start += BATCH) {
      int end = Math.min(batch.size(), start + BATCH);
      result = result.plus(writeSome(batch.subList(start, end)));
    }
    return result;
  }

  private WriteResult writeSome(List<Reading> batch) {
    BitSet repeated = Redeliveries.repeated(batch, this::delivered);
    List<Reading> certain = new ArrayList<>(batch.size());
    List<Reading> others = new ArrayList<>(0);
    for (int i = 0; i < batch.size(); i++) {
      if (!repeated.get(i)) {
        (batch.get(i).uncertain() ? others : certain).add(batch.get(i));
      }
    }
    WriteResult result = new WriteResult(0, repeated.cardinality());
    if (!certain.isEmpty()) {
      result = result.plus(write(readings, certain));
    }
    if (!others.isEmpty()) {
      result = result.plus(write(uncertainReadings, others));
      uncertain.changed();
    }
    return result;
  }

  private List<Reading> delivered(SensorId sensor) {
    List<Reading> delivered = new ArrayList<>(readings.rows().delivered(sensor));
    delivered.addAll(uncertainReadings.rows().delivered(sensor));
    return delivered;
  }

  private WriteResult write(Measurement measurement, List<Reading> batch) {
    if (measurement.needsNewest()) {
      Map<SensorId, Long> newest = new HashMap<>();
      summaries(measurement.rows())
          .forEach((sensor, summary) -> newest.put(sensor, summary.last().toEpochMilli()));
      measurement.newest(newest);
    }
    return measurement.write(batch);
  }

  @Override
  public Map<Quantity, Samples> read(SensorId sensor, Span span) {
    return read(rows, sensor, span);
  }

  @Override
  public Map<Quantity, Samples> readUncertain(SensorId sensor, Span span) {
    return read(uncertainReadings.rows(), sensor, span);
  }

  private static Map<Quantity, Samples> read(PointReader points, SensorId sensor, Span span) {
    Map<Quantity, Samples.Builder> builders = new EnumMap<>(Quantity.class);
    points.each(
        sensor,
        span.fromMs(),
        span.toMs(),
        (atMs, values) ->
            values.forEach(
                (quantity, value) ->
                    builders
                        .computeIfAbsent(quantity, q -> new Samples.Builder(1024))
                        .add(atMs, value)));
    Map<Quantity, Samples> samples = new EnumMap<>(Quantity.class);
    builders.forEach((quantity, builder) -> samples.put(quantity, builder.build()));
    return samples;
  }

  @Override
  public Optional<Instant> firstAt(SensorId sensor, Span span) {
    String where = PointReader.where(sensor, span.fromMs(), span.toMs());
    return ends(rows, "first", where, sensor).stream()
        .map(End::value)
        .map(SensorSummary.Value::at)
        .min(Instant::compareTo);
  }

  @Override
  public Map<SensorId, SensorSummary> summaries() {
    return summaries(rows);
  }

  private Map<SensorId, SensorSummary> summaries(PointReader rows) {
    String bySensor = " GROUP BY \"sensor\"";
    Map<SensorId, Instant> first =
        ends(rows, "first", bySensor, null).stream()
            .collect(
                Collectors.toMap(
                    End::sensor, end -> end.value().at(), (a, b) -> a.isBefore(b) ? a : b));
    Map<SensorId, Map<Quantity, SensorSummary.Value>> latest = new LinkedHashMap<>();
    for (End end : ends(rows, "last", bySensor, null)) {
      latest
          .computeIfAbsent(end.sensor(), sensor -> new EnumMap<>(Quantity.class))
          .put(end.quantity(), end.value());
    }
    Map<SensorId, SensorSummary> summaries = new LinkedHashMap<>();
    latest.forEach((sensor, values) -> summaries.put(sensor, summary(first.get(sensor), values)));
    return summaries;
  }

  private static SensorSummary summary(
      @Nullable Instant first, Map<Quantity, SensorSummary.Value> latest) {
    Instant last =
        latest.values().stream().map(SensorSummary.Value::at).max(Instant::compareTo).orElseThrow();
    return new SensorSummary(first == null ? last : first, last, latest);
  }

  /** The first or last value of one quantity of one sensor. */
  private record End(SensorId sensor, Quantity quantity, SensorSummary.Value value) {}

  /**
   * The first or the last value of each quantity.
   *
   * @param sensor the sensor that the clause selects; null if the response names the sensors
   */
  private List<End> ends(
      PointReader rows, String function, String clause, @Nullable SensorId sensor) {
    String statements =
        Arrays.stream(QUANTITIES)
            .map(q -> "SELECT " + function + "(\"" + q.key() + "\")" + rows.source() + clause)
            .collect(Collectors.joining("; "));
    List<QueryResult.Result> results = server.ask(statements);
    List<End> ends = new ArrayList<>();
    for (int i = 0; i < QUANTITIES.length; i++) {
      Quantity quantity = QUANTITIES[i];
      List<QueryResult.Series> series = results.get(i).getSeries();
      for (QueryResult.Series one : series == null ? List.<QueryResult.Series>of() : series) {
        SensorId of = sensor == null ? sensor(one) : sensor;
        List<Object> row = one.getValues().get(0);
        if (of != null && row.get(1) instanceof Number number) {
          Instant at = Instant.ofEpochMilli(PointReader.atMs(row));
          ends.add(new End(of, quantity, new SensorSummary.Value(number.doubleValue(), at)));
        }
      }
    }
    return ends;
  }

  /** The sensor of a series; null if another program wrote the series under an invalid name. */
  private static @Nullable SensorId sensor(QueryResult.Series series) {
    try {
      return new SensorId(series.getTags().getOrDefault("sensor", ""));
    } catch (IllegalArgumentException e) {
      return null;
    }
  }

  @Override
  public Map<SensorId, UncertainReadings> uncertain() {
    return uncertain.get();
  }

  /**
   * Counts the delivery field, because each point of uncertain time has it; it is 0 without a
   * packet identifier.
   */
  private Map<SensorId, UncertainReadings> countUncertain() {
    PointReader apart = uncertainReadings.rows();
    Map<SensorId, SensorSummary> summaries = summaries(apart);
    String statement =
        "SELECT count(" + PointReader.DELIVERY + ")" + apart.source() + " GROUP BY \"sensor\"";
    List<QueryResult.Series> series = server.ask(statement).get(0).getSeries();
    Map<SensorId, UncertainReadings> counted = new HashMap<>();
    for (QueryResult.Series one : series == null ? List.<QueryResult.Series>of() : series) {
      SensorId sensor = sensor(one);
      SensorSummary known = sensor == null ? null : summaries.get(sensor);
      if (known != null && one.getValues().get(0).get(1) instanceof Number count) {
        counted.put(sensor, new UncertainReadings(count.longValue(), known.last()));
      }
    }
    return counted;
  }

  @Override
  public Optional<Instant> oldest() {
    return Stream.of(rows, uncertainReadings.rows())
        .flatMap(each -> ends(each, "first", " GROUP BY \"sensor\"", null).stream())
        .map(end -> end.value().at())
        .min(Instant::compareTo);
  }

  /**
   * Sends one DELETE for all old readings and ignores the limit; the server deletes in the
   * background.
   */
  @Override
  public int deleteBefore(Instant instant, int limit) {
    String before = " WHERE time < " + instant.toEpochMilli() + "ms";
    server.ask("DELETE FROM " + READING + before + "; DELETE FROM " + UNCERTAIN + before);
    uncertain.changed();
    return 0;
  }

  @Override
  public void close() {
    server.close();
  }
}
