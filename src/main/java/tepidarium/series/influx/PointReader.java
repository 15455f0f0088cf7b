package tepidarium.series.influx;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.influxdb.dto.QueryResult;
import tepidarium.reading.Arrival;
import tepidarium.reading.Quantity;
import tepidarium.reading.Reading;
import tepidarium.reading.SensorId;
import tepidarium.series.Redeliveries;

/**
 * Queries the points of one measurement in pages of 20,000, so that a long history does not use too
 * much memory.
 */
final class PointReader {
  /** A page takes about 5 MB of memory. */
  private static final int PAGE = 20_000;

  /** The range of instants that the server can store, epoch milliseconds. */
  private static final long EARLIEST_MS = -9_223_372_036_854L;

  private static final long LATEST_MS = 9_223_372_036_854L;
  private static final Quantity[] QUANTITIES = Quantity.values();
  private static final String COLUMNS =
      Arrays.stream(QUANTITIES).map(q -> '"' + q.key() + '"').collect(Collectors.joining(", "));

  /** The field for the MQTT packet identifier of a delivery. */
  static final String DELIVERY = "delivery";

  private final InfluxServer server;
  private final String source;

  /** Receives the values of one point. */
  interface Visitor {
    void row(long atMs, Map<Quantity, Double> values);
  }

  PointReader(InfluxServer server, String measurement) {
    this.server = server;
    this.source = " FROM \"" + measurement + '"';
  }

  /** Visits each point in time order; both ends included. */
  void each(SensorId sensor, long fromMs, long toMs, Visitor visitor) {
    long from = Math.max(fromMs, EARLIEST_MS);
    while (true) {
      String statement =
          "SELECT " + COLUMNS + source + where(sensor, from, toMs) + " ORDER BY time LIMIT " + PAGE;
      List<List<Object>> rows = rows(server.ask(statement).get(0));
      for (List<Object> row : rows) {
        visitor.row(atMs(row), values(row));
      }
      if (rows.size() < PAGE) {
        return;
      }
      from = atMs(rows.get(PAGE - 1)) + 1;
    }
  }

  String source() {
    return source;
  }

  /** The newest stored readings of a sensor that have a packet identifier. */
  List<Reading> delivered(SensorId sensor) {
    String statement =
        "SELECT "
            + COLUMNS
            + ", "
            + DELIVERY
            + source
            + where(sensor, EARLIEST_MS, LATEST_MS)
            + " ORDER BY time DESC LIMIT "
            + Redeliveries.LOOK_BACK;
    List<Reading> found = new ArrayList<>();
    for (List<Object> row : rows(server.ask(statement).get(0))) {
      Map<Quantity, Double> values = values(row);
      if (row.get(1 + QUANTITIES.length) instanceof Number id && !values.isEmpty()) {
        found.add(
            new Reading(
                sensor,
                Instant.ofEpochMilli(atMs(row)),
                values,
                new Arrival(id.intValue(), false, false)));
      }
    }
    return found;
  }

  /**
   * Builds the WHERE clause. A sensor name needs no escaping, because {@link SensorId} allows no
   * quotes.
   */
  static String where(SensorId sensor, long fromMs, long toMs) {
    return " WHERE \"sensor\" = '"
        + sensor.name()
        + "' AND time >= "
        + Math.max(fromMs, EARLIEST_MS)
        + "ms AND time <= "
        + Math.min(toMs, LATEST_MS)
        + "ms";
  }

  private static List<List<Object>> rows(QueryResult.Result result) {
    List<QueryResult.Series> series = result.getSeries();
    return series == null ? List.of() : series.get(0).getValues();
  }

  static long atMs(List<Object> row) {
    return ((Number) row.get(0)).longValue();
  }

  /** The values of a row, without fields of other programs that are not numbers. */
  private static Map<Quantity, Double> values(List<Object> row) {
    Map<Quantity, Double> values = new EnumMap<>(Quantity.class);
    for (int i = 0; i < QUANTITIES.length; i++) {
      if (row.get(1 + i) instanceof Number number) {
        values.put(QUANTITIES[i], number.doubleValue());
      }
    }
    return values;
  }
}
