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

/** Asks for rows of readings, a page at a time, so that a long history does not fill the memory. */
final class PointReader {
  /** A page takes some 5 MB while it is read. */
  private static final int PAGE = 20_000;

  /** The instants that the server can hold, epoch milliseconds. */
  private static final long EARLIEST_MS = -9_223_372_036_854L;

  private static final long LATEST_MS = 9_223_372_036_854L;
  private static final Quantity[] QUANTITIES = Quantity.values();
  private static final String COLUMNS =
      Arrays.stream(QUANTITIES).map(q -> '"' + q.key() + '"').collect(Collectors.joining(", "));

  /** The field that holds the packet identifier of a delivery. */
  static final String DELIVERY = "delivery";

  private final InfluxServer server;
  private final String source;

  /** Takes one row: the quantities that are there, each with its value. */
  interface Visitor {
    void row(long atMs, Map<Quantity, Double> values);
  }

  PointReader(InfluxServer server, String measurement) {
    this.server = server;
    this.source = " FROM \"" + measurement + '"';
  }

  /** Each row from one instant to another, both included, in the order of time. */
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

  /** The newest readings of a sensor that have a packet identifier. */
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
                values.get(Quantity.TEMPERATURE),
                values.get(Quantity.HUMIDITY),
                values.get(Quantity.LIGHT),
                values.get(Quantity.BATTERY),
                new Arrival(id.intValue(), false, false)));
      }
    }
    return found;
  }

  /** A sensor's name holds no quotes: {@link SensorId} sees to that. */
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

  /** Without what others wrote that is no number. */
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
