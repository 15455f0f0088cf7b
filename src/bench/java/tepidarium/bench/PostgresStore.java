package tepidarium.bench;

import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.PreparedStatement;
import java.sql.SQLException;
import java.util.List;
import tepidarium.it.Postgres;
import tepidarium.reading.Quantity;
import tepidarium.reading.Reading;
import tepidarium.series.postgres.PostgresReadings;

/**
 * Readings in PostgreSQL: batches by the service's part and bare, in turns; room; six weeks read.
 */
final class PostgresStore {
  private static final int BATCH = 5_000;
  private static final int SIX_WEEKS_MINUTES = 42 * 24 * 60;
  private static final int WARM_UP = 5;
  private static final List<Quantity> BARE =
      List.of(Quantity.TEMPERATURE, Quantity.HUMIDITY, Quantity.LIGHT, Quantity.BATTERY);

  /** The same rows as the service's, without telling which ones were stored or repeated. */
  private static final String UPSERT =
      "INSERT INTO readings.reading AS old (sensor_id, at_ms, temperature, humidity, light, battery)"
          + " SELECT * FROM unnest(?::int[], ?::bigint[], ?::int[], ?::int[], ?::int[], ?::int[])"
          + " ON CONFLICT (sensor_id, at_ms) DO UPDATE SET"
          + " temperature = coalesce(old.temperature, excluded.temperature),"
          + " humidity = coalesce(old.humidity, excluded.humidity),"
          + " light = coalesce(old.light, excluded.light),"
          + " battery = coalesce(old.battery, excluded.battery)"
          + " WHERE (old.temperature IS NULL AND excluded.temperature IS NOT NULL)"
          + " OR (old.humidity IS NULL AND excluded.humidity IS NOT NULL)"
          + " OR (old.light IS NULL AND excluded.light IS NOT NULL)"
          + " OR (old.battery IS NULL AND excluded.battery IS NOT NULL)";

  private final int readings;

  PostgresStore(int readings) {
    this.readings = readings;
  }

  void run(Report report) throws Exception {
    try (Postgres server = Postgres.started("shared_buffers = 256MB", "max_wal_size = 4GB")) {
      compare(report, server);
      String size =
          server
              .ask(
                  "ours",
                  "SELECT sum(pg_total_relation_size(inhrelid)) FROM pg_inherits"
                      + " WHERE inhparent = 'readings.reading'::regclass")
              .get(0);
      report.figure(
          "room in PostgreSQL with its key, as they come in, four quantities",
          "",
          Report.figure(Double.parseDouble(size) / readings) + " bytes a reading");
      sixWeeks(report, server, Stores.SENSORS, Stores.STEP_MS);
      sixWeeks(report, server, 1, Stores.STEP_MS / 12);
    }
  }

  private static void sixWeeks(Report report, Postgres server, int sensors, long stepMs)
      throws Exception {
    String database = "weeks" + sensors;
    int ofOne = (int) (SIX_WEEKS_MINUTES * 60_000L / stepMs);
    fill(server, database, sensors, stepMs, sensors * ofOne);
    // As autovacuum does.
    server.run(database, "VACUUM ANALYZE readings.reading");
    try (PostgresReadings store = new PostgresReadings(server.readings(database))) {
      Stores.sixWeeks(
          report,
          (sensors == 1 ? "one sensor alone" : "one of " + sensors + " sensors")
              + " in PostgreSQL, a reading each "
              + stepMs / 1000
              + " s",
          "",
          store,
          new Stores.Reads(sensors, ofOne, WARM_UP));
    }
  }

  private static double fill(Postgres server, String database, int sensors, long stepMs, int count)
      throws Exception {
    server.create(database);
    try (PostgresReadings store = new PostgresReadings(server.readings(database))) {
      return Stores.rate(count, BATCH, sensors, stepMs, store::write);
    }
  }

  /**
   * Batches into two databases with the same tables, one by the service's part and one by the bare
   * driver, in turns: what else the machine does meanwhile concerns both.
   */
  private void compare(Report report, Postgres server) throws Exception {
    fill(server, "bare", Stores.SENSORS, Stores.STEP_MS, readings);
    server.run("bare", "TRUNCATE readings.reading");
    server.create("ours");
    double[] seconds = new double[2];
    try (PostgresReadings store = new PostgresReadings(server.readings("ours"));
        Connection connection =
            DriverManager.getConnection(
                "jdbc:" + server.url("bare"), Postgres.USER, Postgres.PASSWORD);
        PreparedStatement upsert = connection.prepareStatement(UPSERT)) {
      store.probe();
      Stores.Write both =
          batch -> {
            long start = System.nanoTime();
            write(connection, upsert, batch);
            long middle = System.nanoTime();
            store.write(batch);
            seconds[0] += (middle - start) / 1e9;
            seconds[1] += (System.nanoTime() - middle) / 1e9;
          };
      Stores.rate(readings, BATCH, Stores.SENSORS, Stores.STEP_MS, both);
    }
    report.ratio(
        "PostgreSQL, batches of " + BATCH,
        "at least 0.8",
        " readings/s",
        readings / seconds[1],
        "bare upsert",
        readings / seconds[0]);
  }

  private static void write(Connection connection, PreparedStatement upsert, List<Reading> batch)
      throws SQLException {
    Integer[] sensors = new Integer[batch.size()];
    Long[] instants = new Long[batch.size()];
    Integer[][] values = new Integer[BARE.size()][batch.size()];
    for (int i = 0; i < batch.size(); i++) {
      Reading reading = batch.get(i);
      String name = reading.sensor().name();
      sensors[i] = Integer.valueOf(name.substring(name.lastIndexOf('-') + 1));
      instants[i] = reading.at().toEpochMilli();
      for (int j = 0; j < BARE.size(); j++) {
        Double value = reading.value(BARE.get(j));
        values[j][i] = value == null ? null : (int) Math.round(value * 1e4);
      }
    }
    upsert.setArray(1, connection.createArrayOf("int4", sensors));
    upsert.setArray(2, connection.createArrayOf("int8", instants));
    for (int j = 0; j < BARE.size(); j++) {
      upsert.setArray(3 + j, connection.createArrayOf("int4", values[j]));
    }
    upsert.executeUpdate();
  }
}
