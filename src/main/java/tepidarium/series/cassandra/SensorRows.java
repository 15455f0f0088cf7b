package tepidarium.series.cassandra;

import com.datastax.oss.driver.api.core.cql.BoundStatement;
import com.datastax.oss.driver.api.core.cql.BoundStatementBuilder;
import com.datastax.oss.driver.api.core.cql.PreparedStatement;
import com.datastax.oss.driver.api.core.cql.Row;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collection;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import tepidarium.reading.Quantity;
import tepidarium.reading.SensorId;
import tepidarium.series.ScaledValue;
import tepidarium.series.StoredInstant;

/**
 * The statements of one table of readings and of the table of its days. Each row of a result begins
 * with the instant, then the values in the order of {@link Quantity}. Thread-safe.
 */
final class SensorRows {
  /** Groups of sensors, so that a batch of many sensors is few requests. Part of the keys. */
  static final int GROUPS = 256;

  private static final Quantity[] QUANTITIES = Quantity.values();
  private static final String OF_SENSOR = " WHERE sensor_group = ? AND day = ? AND sensor = ?";

  private final CassandraServer server;
  private final String insert;
  private final String select;
  private final String first;
  private final String newest;
  private final String count;
  private final String delete;
  private final String dropDay;
  private final String mark;
  private final String unmark;
  private final String days;
  private final String newestDays;
  private final String firstDays;
  private final String nextDay;

  /**
   * Uses two tables.
   *
   * @param readings name of the table of readings
   * @param ofDays name of the table of their days
   */
  SensorRows(CassandraServer server, String readings, String ofDays) {
    this.server = server;
    String table = server.table(readings);
    String dayTable = server.table(ofDays);
    String columns = "at, " + CassandraTables.VALUES;
    insert =
        "INSERT INTO "
            + table
            + " (sensor_group, day, sensor, delivery, "
            + columns
            + ") VALUES (?, ?, ?, ?, ?, "
            + Arrays.stream(QUANTITIES).map(one -> "?").collect(Collectors.joining(", "))
            + ") USING TIMESTAMP ?";
    String between = OF_SENSOR + " AND at >= ? AND at <= ?";
    select = "SELECT " + columns + " FROM " + table + between;
    first = "SELECT at FROM " + table + between + " LIMIT 1";
    newest =
        "SELECT "
            + columns
            + ", delivery FROM "
            + table
            + OF_SENSOR
            + " ORDER BY sensor DESC, at DESC LIMIT ?";
    count = "SELECT count(*), max(at) FROM " + table + OF_SENSOR;
    delete = "DELETE FROM " + table + " USING TIMESTAMP ?" + OF_SENSOR + " AND at < ?";
    dropDay = "DELETE FROM " + table + " USING TIMESTAMP ? WHERE sensor_group = ? AND day = ?";
    mark = "INSERT INTO " + dayTable + " (sensor, day) VALUES (?, ?)";
    unmark = "DELETE FROM " + dayTable + " WHERE sensor = ? AND day < ?";
    days = "SELECT day FROM " + dayTable + " WHERE sensor = ? AND day >= ? AND day <= ?";
    newestDays =
        "SELECT day FROM " + dayTable + " WHERE sensor = ? AND day < ? ORDER BY day DESC LIMIT ?";
    nextDay = "SELECT day FROM " + dayTable + " WHERE sensor = ? AND day > ? LIMIT 1";
    firstDays = "SELECT sensor, day FROM " + dayTable + " PER PARTITION LIMIT 1";
  }

  private static int group(SensorId sensor) {
    return Math.floorMod(sensor.name().hashCode(), GROUPS);
  }

  /** Readings with the same number are in one partition. */
  static long partition(SensorId sensor, int day) {
    return (long) day * GROUPS + group(sensor);
  }

  private BoundStatement of(String cql, SensorId sensor, int day, Object... more) {
    Object[] all = new Object[3 + more.length];
    all[0] = group(sensor);
    all[1] = day;
    all[2] = sensor.name();
    System.arraycopy(more, 0, all, 3, more.length);
    return server.prepare(cql).bind(all);
  }

  /** The rows of a sensor on a day, in order of time, both ends included. */
  BoundStatement select(SensorId sensor, int day, long fromMs, long toMs) {
    return of(select, sensor, day, fromMs, toMs);
  }

  /** The instant of the first row. */
  BoundStatement first(SensorId sensor, int day, long fromMs, long toMs) {
    return of(first, sensor, day, fromMs, toMs);
  }

  /** The newest rows of a day, newest first; the packet identifier follows the values. */
  BoundStatement newest(SensorId sensor, int day, int limit) {
    return of(newest, sensor, day, limit);
  }

  /** The number of rows of a sensor on a day, and the instant of the last one. */
  BoundStatement count(SensorId sensor, int day) {
    return of(count, sensor, day);
  }

  /** Deletes the rows of a sensor on a day before an instant. */
  BoundStatement delete(SensorId sensor, int day, long beforeMs, long writeTime) {
    return server.prepare(delete).bind(writeTime, group(sensor), day, sensor.name(), beforeMs);
  }

  /** Deletes a day of all sensors. */
  List<BoundStatement> dropDay(int day, long writeTime) {
    PreparedStatement drop = server.prepare(dropDay);
    List<BoundStatement> drops = new ArrayList<>();
    for (int group = 0; group < GROUPS; group++) {
      drops.add(drop.bind(writeTime, group, day));
    }
    return drops;
  }

  /** Writes the added values of an instant; what is absent stays as it is. */
  BoundStatement insert(StoredInstant instant, int day, long writeTime) {
    SensorId sensor = instant.key().sensor();
    BoundStatementBuilder row =
        server
            .prepare(insert)
            .boundStatementBuilder()
            .setInt(0, group(sensor))
            .setInt(1, day)
            .setString(2, sensor.name())
            .setLong(4, instant.key().atMs())
            .setLong(5 + QUANTITIES.length, writeTime);
    if (instant.delivery() > 0) {
      row = row.setInt(3, instant.delivery());
    }
    for (Map.Entry<Quantity, Long> added : instant.addedSteps().entrySet()) {
      int column = 5 + added.getKey().ordinal();
      row =
          CassandraTables.isWide(added.getKey())
              ? row.setLong(column, added.getValue())
              : row.setInt(column, Math.toIntExact(added.getValue()));
    }
    return row.build();
  }

  /** Records that a sensor has readings on a day. */
  BoundStatement mark(SensorId sensor, int day) {
    return server.prepare(mark).bind(sensor.name(), day);
  }

  /** Removes the record of the days of a sensor before a day. */
  BoundStatement unmark(SensorId sensor, int before) {
    return server.prepare(unmark).bind(sensor.name(), before);
  }

  /** The days of a sensor, in order, both ends included. */
  List<Integer> days(SensorId sensor, int from, int to) {
    List<Integer> found = new ArrayList<>();
    server.run(
        List.of(server.prepare(days).bind(sensor.name(), from, to)),
        (statement, row) -> found.add(row.getInt(0)));
    return found;
  }

  /** The newest days of each sensor before a day, newest first. */
  Map<SensorId, List<Integer>> newestDays(Map<SensorId, Integer> before, int limit) {
    List<SensorId> sensors = List.copyOf(before.keySet());
    PreparedStatement select = server.prepare(newestDays);
    Map<SensorId, List<Integer>> found = new TreeMap<>();
    server.run(
        sensors.stream().map(one -> select.bind(one.name(), before.get(one), limit)).toList(),
        (statement, row) ->
            found
                .computeIfAbsent(sensors.get(statement), sensor -> new ArrayList<>())
                .add(row.getInt(0)));
    return found;
  }

  /** The first day of every sensor. */
  Map<SensorId, Integer> firstDays() {
    Map<SensorId, Integer> found = new TreeMap<>();
    server.run(
        List.of(server.prepare(firstDays).bind()),
        (statement, row) -> found.put(new SensorId(row.getString(0)), row.getInt(1)));
    return found;
  }

  /** The first day after a day, for each sensor that has one. */
  Map<SensorId, Integer> nextDays(List<SensorId> sensors, int after) {
    PreparedStatement select = server.prepare(nextDay);
    Map<SensorId, Integer> found = new TreeMap<>();
    server.run(
        sensors.stream().map(one -> select.bind(one.name(), after)).toList(),
        (statement, row) -> found.put(sensors.get(statement), row.getInt(0)));
    return found;
  }

  /** The instant of the first row of a sensor on these days. */
  Optional<Long> firstAt(SensorId sensor, Collection<Integer> ofDays, long fromMs, long toMs) {
    for (int day : ofDays) {
      List<Long> found = new ArrayList<>(1);
      server.run(
          List.of(first(sensor, day, fromMs, toMs)), (statement, row) -> found.add(row.getLong(0)));
      if (!found.isEmpty()) {
        return Optional.of(found.get(0));
      }
    }
    return Optional.empty();
  }

  /** A value of a row; null if it is absent. */
  static @Nullable Double value(Row row, Quantity quantity) {
    int column = 1 + quantity.ordinal();
    java.nio.ByteBuffer bytes = row.getBytesUnsafe(column);
    if (bytes == null) {
      return null;
    }
    // Read directly, because the lookup of a codec takes longer than the rest of a long query.
    int at = bytes.position();
    return ScaledValue.value(
        bytes.remaining() == Long.BYTES ? bytes.getLong(at) : bytes.getInt(at));
  }

  /** The values of a row. */
  static Map<Quantity, Double> values(Row row) {
    Map<Quantity, Double> values = new EnumMap<>(Quantity.class);
    for (Quantity quantity : QUANTITIES) {
      Double value = value(row, quantity);
      if (value != null) {
        values.put(quantity, value);
      }
    }
    return values;
  }
}
