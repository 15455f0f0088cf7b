package tepidarium.series.postgres;

import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Instant;
import java.time.YearMonth;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.TreeSet;
import java.util.concurrent.ConcurrentHashMap;
import tepidarium.postgres.PostgresAddress;
import tepidarium.reading.Quantity;
import tepidarium.reading.Reading;
import tepidarium.series.ReadingSink;
import tepidarium.series.ScaledValue;
import tepidarium.series.sql.QuantityColumns;

/**
 * Creates the tables of the readings, in the schema {@code readings} of the database, or in that of
 * the site: {@code north_readings} where {@code currentSchema} is {@code north}. The table {@code
 * reading} has one partition for each month (UTC), made when it is needed; its key includes the
 * values, so that a query need not visit the rows. The columns of the values follow from {@link
 * Quantity}. An advisory lock serialises all changes of the tables, so two services may make the
 * same month at once. Thread-safe.
 */
final class ReadingTables {
  /** Raised when a later version of this program can no longer be used beside this one. */
  private static final int FORMAT = 1;

  /** Number of the advisory lock, without a meaning. */
  private static final long LOCK = 7_301_154_482L;

  /** The type of values that do not fit into 32 bits. */
  static final String WIDE = "bigint";

  private static final String PREFIX = "reading_";

  private static final String SCHEMA = "readings";

  private final PostgresAddress address;
  private final String schema;
  private final Set<YearMonth> months = ConcurrentHashMap.newKeySet();

  ReadingTables(PostgresAddress address) {
    this.address = address;
    schema = address.schema() == null ? SCHEMA : address.schema() + '_' + SCHEMA;
  }

  /**
   * Prepares a new connection: creates missing tables and columns, and reads which months have a
   * partition.
   *
   * @throws IllegalStateException when a later version of this program has written the tables
   */
  void prepare(Connection connection) throws SQLException {
    // The database would compile each statement at run time, which takes longer than a batch.
    execute(connection, "SET search_path TO " + schema + "; SET jit TO off");
    if (list(connection, "SELECT 1 WHERE to_regclass('format') IS NOT NULL").isEmpty()) {
      create(connection);
    }
    int format = Integer.parseInt(list(connection, "SELECT version FROM format").get(0));
    if (format > FORMAT) {
      throw new IllegalStateException(
          "the readings in the database "
              + address
              + " were written by a later version of Tepidarium. Start the later version again, or"
              + " name another database in readingsUrl");
    }
    addColumns(connection);
    months.clear();
    months.addAll(existing(connection));
  }

  private void create(Connection connection) throws SQLException {
    lock(connection);
    if (list(connection, "SELECT 1 WHERE to_regnamespace('" + schema + "') IS NOT NULL")
        .isEmpty()) {
      execute(connection, "CREATE SCHEMA " + schema);
    }
    String columns =
        "(sensor_id int NOT NULL, at_ms bigint NOT NULL, delivery int, "
            + QuantityColumns.each(name -> name + ' ' + type(name), ", ")
            + ", PRIMARY KEY (sensor_id, at_ms)";
    execute(
        connection,
        "CREATE TABLE IF NOT EXISTS sensor (id int GENERATED ALWAYS AS IDENTITY PRIMARY KEY,"
            + " name text NOT NULL UNIQUE)");
    execute(
        connection,
        "CREATE TABLE IF NOT EXISTS reading "
            + columns
            + " INCLUDE ("
            + QuantityColumns.NAMES
            + ")) PARTITION BY RANGE (at_ms)");
    execute(connection, "CREATE TABLE IF NOT EXISTS uncertain_reading " + columns + ")");
    execute(connection, "CREATE TABLE IF NOT EXISTS format (version int NOT NULL)");
    execute(
        connection,
        "INSERT INTO format SELECT " + FORMAT + " WHERE NOT EXISTS (SELECT 1 FROM format)");
  }

  /** The columns of quantities that an earlier version did not know are not part of the key. */
  private static void addColumns(Connection connection) throws SQLException {
    for (String table : List.of("reading", "uncertain_reading")) {
      Set<String> known =
          new HashSet<>(
              list(
                  connection,
                  "SELECT attname FROM pg_attribute WHERE attnum > 0 AND attrelid = '"
                      + table
                      + "'::regclass"));
      for (Quantity quantity : Quantity.values()) {
        if (!known.contains(quantity.key().toLowerCase(Locale.ROOT))) {
          lock(connection);
          execute(
              connection,
              String.format(
                  "ALTER TABLE %s ADD COLUMN IF NOT EXISTS %s %s",
                  table, quantity.key(), type(quantity)));
        }
      }
    }
  }

  private static String type(String key) {
    return type(Quantity.ofKey(key).orElseThrow());
  }

  /** The smallest type that holds every plausible value. */
  static String type(Quantity quantity) {
    return quantity.plausible(ScaledValue.value(Integer.MAX_VALUE + 1L)) ? WIDE : "int";
  }

  /** Makes the months of readings; call it in a transaction without other changes. */
  void makeMonths(Connection connection, Set<YearMonth> needed) throws SQLException {
    lock(connection);
    Set<YearMonth> there = existing(connection);
    for (YearMonth month : needed) {
      if (!there.contains(month)) {
        // Attached afterwards, because a partition created in place waits for every reader.
        execute(
            connection,
            "CREATE TABLE "
                + table(month)
                + " (LIKE reading) WITH (autovacuum_vacuum_insert_scale_factor = 0.05)");
        execute(
            connection,
            String.format(
                "ALTER TABLE reading ATTACH PARTITION %s FOR VALUES FROM (%d) TO (%d)",
                table(month), startMs(month), startMs(month.plusMonths(1))));
      }
    }
  }

  /** The months of readings without a partition, as far as it is known. */
  Set<YearMonth> missing(List<Reading> readings) {
    Set<YearMonth> needed = new TreeSet<>();
    long fromMs = 0;
    long endMs = 0;
    for (Reading reading : readings) {
      long atMs = reading.at().toEpochMilli();
      // A reading may be shifted into the next month.
      if (atMs < fromMs || atMs + ReadingSink.MAX_SHIFT_MS >= endMs) {
        YearMonth month = month(reading.at());
        needed.add(month);
        needed.add(month(reading.at().plusMillis(ReadingSink.MAX_SHIFT_MS)));
        fromMs = startMs(month);
        endMs = startMs(month.plusMonths(1));
      }
    }
    needed.removeAll(months);
    return needed;
  }

  void made(Set<YearMonth> made) {
    months.addAll(made);
  }

  /** Forgets which months there are, after another program dropped one. */
  void forgetMonths() {
    months.clear();
  }

  /**
   * Drops the months that end before an instant; call it in a transaction of its own. Waits only
   * briefly for each lock, because everybody else waits behind it.
   *
   * @return the dropped months, in order
   */
  List<YearMonth> dropMonths(Connection connection, Instant before) throws SQLException {
    List<YearMonth> old =
        existing(connection).stream()
            .filter(month -> startMs(month.plusMonths(1)) <= before.toEpochMilli())
            .sorted()
            .toList();
    if (old.isEmpty()) {
      return old;
    }
    execute(connection, "SET LOCAL lock_timeout = '200ms'");
    lock(connection);
    for (YearMonth month : old) {
      execute(connection, "DROP TABLE IF EXISTS " + table(month));
    }
    old.forEach(months::remove);
    return old;
  }

  private static Set<YearMonth> existing(Connection connection) throws SQLException {
    Set<YearMonth> found = new HashSet<>();
    String sql =
        "SELECT relname FROM pg_inherits JOIN pg_class ON pg_class.oid = inhrelid"
            + " WHERE inhparent = 'reading'::regclass";
    for (String name : list(connection, sql)) {
      found.add(YearMonth.parse(name.substring(PREFIX.length()).replace('_', '-')));
    }
    return found;
  }

  private static String table(YearMonth month) {
    return PREFIX + month.toString().replace('-', '_');
  }

  private static YearMonth month(Instant at) {
    return YearMonth.from(at.atZone(ZoneOffset.UTC));
  }

  private static long startMs(YearMonth month) {
    return month.atDay(1).atStartOfDay(ZoneOffset.UTC).toInstant().toEpochMilli();
  }

  /** Held until the transaction ends. */
  private static void lock(Connection connection) throws SQLException {
    execute(connection, "SELECT pg_advisory_xact_lock(" + LOCK + ")");
  }

  private static void execute(Connection connection, String sql) throws SQLException {
    try (Statement statement = connection.createStatement()) {
      statement.execute(sql);
    }
  }

  private static List<String> list(Connection connection, String sql) throws SQLException {
    try (Statement statement = connection.createStatement();
        ResultSet rows = statement.executeQuery(sql)) {
      List<String> found = new ArrayList<>();
      while (rows.next()) {
        found.add(rows.getString(1));
      }
      return found;
    }
  }
}
