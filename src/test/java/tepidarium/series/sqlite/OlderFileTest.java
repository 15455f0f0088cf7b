package tepidarium.series.sqlite;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.sql.Statement;
import org.flywaydb.core.Flyway;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tepidarium.reading.Quantity;
import tepidarium.reading.Samples;
import tepidarium.reading.SensorId;
import tepidarium.reading.Span;

/** Migrates a readings file written by an older version. */
class OlderFileTest {
  @TempDir private Path folder;

  @Test
  void valuesInMillionthsAreConverted() throws SQLException {
    Path file = folder.resolve("readings.db");
    String url = "jdbc:sqlite:" + file;
    Flyway.configure()
        .dataSource(url, null, null)
        .locations("classpath:db/readings")
        .target("1")
        .load()
        .migrate();
    try (Connection connection = DriverManager.getConnection(url);
        Statement statement = connection.createStatement()) {
      statement.execute("INSERT INTO sensor VALUES (1, 'jar')");
      statement.execute("INSERT INTO reading VALUES (1, 5000, 29444444, NULL, 0, -1)");
    }
    try (SqliteReadings readings = SqliteReadings.open(file)) {
      var read = readings.read(new SensorId("jar"), Span.ofMillis(0, 10_000));
      assertEquals(29.4444, only(read.get(Quantity.TEMPERATURE)));
      assertEquals(0, only(read.get(Quantity.LIGHT)));
      assertEquals(0, only(read.get(Quantity.BATTERY)));
      assertEquals(3, read.size());
    }
  }

  private static double only(Samples samples) {
    assertEquals(1, samples.size());
    return samples.value(0);
  }
}
