package tepidarium.bench;

import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.PreparedStatement;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.influxdb.InfluxDB;
import org.influxdb.InfluxDBFactory;
import org.influxdb.dto.BatchPoints;
import org.influxdb.dto.Point;
import org.influxdb.dto.Query;
import tepidarium.reading.Quantity;
import tepidarium.reading.Reading;
import tepidarium.series.influx.InfluxAddress;

/** The second ceiling: batches written by the bare driver or client, with nothing around them. */
final class BareStores {
  /** Takes batches. */
  interface Store extends AutoCloseable {
    void write(List<Reading> batch) throws SQLException;

    @Override
    void close() throws SQLException;
  }

  private BareStores() {}

  /** The same columns, key and durability as the service's file; what comes again is ignored. */
  static Store sqlite(Path file) throws SQLException {
    Connection connection = DriverManager.getConnection("jdbc:sqlite:" + file);
    try (Statement statement = connection.createStatement()) {
      statement.execute("PRAGMA journal_mode = WAL");
      statement.execute("PRAGMA synchronous = FULL");
      statement.execute(
          "CREATE TABLE reading (sensor_id INTEGER NOT NULL, at_ms INTEGER NOT NULL,"
              + " temperature INTEGER, humidity INTEGER, light INTEGER, battery INTEGER,"
              + " delivery INTEGER, co2 INTEGER, mediumMoisture INTEGER,"
              + " PRIMARY KEY (sensor_id, at_ms)) STRICT, WITHOUT ROWID");
    }
    connection.setAutoCommit(false);
    PreparedStatement insert =
        connection.prepareStatement(
            "INSERT OR IGNORE INTO reading VALUES (?, ?, ?, ?, ?, ?, NULL, NULL, NULL)");
    return new Store() {
      @Override
      public void write(List<Reading> batch) throws SQLException {
        for (Reading reading : batch) {
          String name = reading.sensor().name();
          insert.setInt(1, Integer.parseInt(name.substring(name.lastIndexOf('-') + 1)));
          insert.setLong(2, reading.at().toEpochMilli());
          insert.setLong(3, Math.round(reading.value(Quantity.TEMPERATURE) * 1e4));
          insert.setLong(4, Math.round(reading.value(Quantity.HUMIDITY) * 1e4));
          insert.setLong(5, Math.round(reading.value(Quantity.LIGHT) * 1e4));
          insert.setLong(6, Math.round(reading.value(Quantity.BATTERY) * 1e4));
          insert.addBatch();
        }
        insert.executeBatch();
        connection.commit();
      }

      @Override
      public void close() throws SQLException {
        connection.close();
      }
    };
  }

  /** The Java client with its own points and batches, one call a batch, answered when written. */
  static Store influx(InfluxAddress address) {
    InfluxDB client = InfluxDBFactory.connect(address.url());
    client.query(new Query("CREATE DATABASE " + address.database()));
    return new Store() {
      @Override
      public void write(List<Reading> batch) {
        BatchPoints.Builder points = BatchPoints.database(address.database());
        for (Reading reading : batch) {
          points.point(
              Point.measurement("reading")
                  .tag("sensor", reading.sensor().name())
                  .time(reading.at().toEpochMilli(), TimeUnit.MILLISECONDS)
                  .addField("temperature", reading.value(Quantity.TEMPERATURE))
                  .addField("humidity", reading.value(Quantity.HUMIDITY))
                  .addField("light", reading.value(Quantity.LIGHT))
                  .addField("battery", reading.value(Quantity.BATTERY))
                  .build());
        }
        client.write(points.build());
      }

      @Override
      public void close() {
        client.close();
      }
    };
  }
}
