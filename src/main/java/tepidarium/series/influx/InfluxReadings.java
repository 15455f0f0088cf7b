package tepidarium.series.influx;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SortedSet;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.influxdb.dto.QueryResult;
import org.jspecify.annotations.Nullable;
import tepidarium.reading.Quantity;
import tepidarium.reading.Reading;
import tepidarium.reading.Samples;
import tepidarium.reading.SensorId;
import tepidarium.reading.Span;
import tepidarium.series.Heard;
import tepidarium.series.ReadingSink;
import tepidarium.series.ReadingSource;
import tepidarium.series.ReadingTrimmer;
import tepidarium.series.Refused;
import tepidarium.series.WriteResult;

/**
 * Readings in an InfluxDB server: measurement {@code reading}, tag {@code sensor}, a float field
 * for each quantity. The server overwrites what comes again; here it must not. So the newest
 * instant of each sensor is known, what lies after it is new without asking, and for the rest the
 * server is asked what it has, and only what is missing is written. This holds while nobody else
 * writes that measurement. One thread writes, any number read.
 */
public final class InfluxReadings
    implements ReadingSink, ReadingSource, ReadingTrimmer, AutoCloseable {
  static final String MEASUREMENT = "reading";

  private static final int BATCH = 5_000;
  private static final Quantity[] QUANTITIES = Quantity.values();

  private final InfluxServer server;
  private final Rows rows;

  /**
   * Of each sensor, epoch milliseconds; null until the server was asked. For the writing thread.
   */
  private @Nullable Map<SensorId, Long> newestMs;

  /** Opens nothing: the server may be away, and is looked for at the first call. */
  public InfluxReadings(InfluxAddress address) {
    server = new InfluxServer(address);
    rows = new Rows(server);
  }

  /**
   * Finds out whether the server answers.
   *
   * @throws tepidarium.series.StoreException when not
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
    Map<SensorId, Long> newest = newest();
    Map<Point.Key, Point> points = new LinkedHashMap<>(batch.size() * 2);
    askWhatIsThere(batch, newest, points);
    int repeated = 0;
    for (Reading reading : batch) {
      Point point = points.computeIfAbsent(Point.Key.of(reading), Point::new);
      repeated += point.add(reading) ? 0 : 1;
    }
    points.values().removeIf(point -> point.readings().isEmpty());
    List<Refused> refused = new ArrayList<>();
    put(List.copyOf(points.values()), refused);
    points.keySet().forEach(key -> newest.merge(key.sensor(), key.atMs(), Math::max));
    return new WriteResult(batch.size() - repeated - refused.size(), repeated, refused);
  }

  private Map<SensorId, Long> newest() {
    Map<SensorId, Long> known = newestMs;
    if (known == null) {
      known = new HashMap<>();
      for (Map.Entry<SensorId, Heard> heard : heard().entrySet()) {
        known.put(heard.getKey(), heard.getValue().last().toEpochMilli());
      }
      newestMs = known;
    }
    return known;
  }

  private void askWhatIsThere(
      List<Reading> batch, Map<SensorId, Long> newest, Map<Point.Key, Point> points) {
    Map<SensorId, SortedSet<Long>> old = new HashMap<>();
    for (Reading reading : batch) {
      long atMs = reading.at().toEpochMilli();
      if (atMs <= newest.getOrDefault(reading.sensor(), Long.MIN_VALUE)) {
        old.computeIfAbsent(reading.sensor(), sensor -> new TreeSet<>()).add(atMs);
      }
    }
    old.forEach((sensor, instants) -> askWhatIsThere(sensor, instants, points));
  }

  private void askWhatIsThere(
      SensorId sensor, SortedSet<Long> instants, Map<Point.Key, Point> points) {
    for (Ranges.Range range : Ranges.over(instants)) {
      rows.each(
          sensor,
          range.fromMs(),
          range.toMs(),
          (atMs, values) -> {
            if (instants.contains(atMs)) {
              points
                  .computeIfAbsent(new Point.Key(sensor, atMs), Point::new)
                  .known(values.keySet());
            }
          });
    }
  }

  /**
   * Writes the points. The server takes the good ones of a batch and names the reason of one bad
   * one, so a batch with bad ones is halved until those are found. Points that are bad for one
   * reason mostly lie beside each other in time.
   */
  private void put(List<Point> points, List<Refused> refused) {
    if (points.isEmpty()) {
      return;
    }
    StringBuilder lines = new StringBuilder(points.size() * 96);
    points.forEach(point -> point.appendTo(lines));
    try {
      server.write(lines.toString());
    } catch (Refusal e) {
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

  private static void refuse(Point point, Refusal refusal, List<Refused> refused) {
    for (Reading reading : point.readings()) {
      refused.add(new Refused(reading, refusal.reason()));
    }
  }

  @Override
  public Map<Quantity, Samples> read(SensorId sensor, Span span) {
    Map<Quantity, Samples.Builder> builders = new EnumMap<>(Quantity.class);
    rows.each(
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
    String where = Rows.where(sensor, span.fromMs(), span.toMs());
    return ends("first", where, sensor).stream()
        .map(End::value)
        .map(Heard.Value::at)
        .min(Instant::compareTo);
  }

  @Override
  public Map<SensorId, Heard> heard() {
    String bySensor = " GROUP BY \"sensor\"";
    Map<SensorId, Instant> first =
        ends("first", bySensor, null).stream()
            .collect(
                Collectors.toMap(
                    End::sensor, end -> end.value().at(), (a, b) -> a.isBefore(b) ? a : b));
    Map<SensorId, Map<Quantity, Heard.Value>> latest = new LinkedHashMap<>();
    for (End end : ends("last", bySensor, null)) {
      latest
          .computeIfAbsent(end.sensor(), sensor -> new EnumMap<>(Quantity.class))
          .put(end.quantity(), end.value());
    }
    Map<SensorId, Heard> heard = new LinkedHashMap<>();
    latest.forEach((sensor, values) -> heard.put(sensor, heard(first.get(sensor), values)));
    return heard;
  }

  private static Heard heard(@Nullable Instant first, Map<Quantity, Heard.Value> latest) {
    Instant last =
        latest.values().stream().map(Heard.Value::at).max(Instant::compareTo).orElseThrow();
    return new Heard(first == null ? last : first, last, latest);
  }

  /** The first or last value of a quantity. */
  private record End(SensorId sensor, Quantity quantity, Heard.Value value) {}

  /**
   * The first or the last value of each quantity.
   *
   * @param sensor whose they are, where the clause asks for one; else the answer tells
   */
  private List<End> ends(String function, String clause, @Nullable SensorId sensor) {
    String statements =
        Arrays.stream(QUANTITIES)
            .map(q -> "SELECT " + function + "(\"" + q.key() + "\")" + Rows.source() + clause)
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
          Instant at = Instant.ofEpochMilli(Rows.atMs(row));
          ends.add(new End(of, quantity, new Heard.Value(number.doubleValue(), at)));
        }
      }
    }
    return ends;
  }

  /** The sensor of a series; null where others wrote one that is none of ours. */
  private static @Nullable SensorId sensor(QueryResult.Series series) {
    try {
      return new SensorId(series.getTags().getOrDefault("sensor", ""));
    } catch (IllegalArgumentException e) {
      return null;
    }
  }

  /** The server does it in its own time, all at once. */
  @Override
  public int forgetBefore(Instant instant, int most) {
    server.ask("DELETE FROM " + MEASUREMENT + " WHERE time < " + instant.toEpochMilli() + "ms");
    return 0;
  }

  @Override
  public void close() {
    server.close();
  }
}
