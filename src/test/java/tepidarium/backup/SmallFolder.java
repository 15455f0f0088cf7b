package tepidarium.backup;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import tepidarium.reading.Quantity;
import tepidarium.reading.Reading;
import tepidarium.reading.SensorId;
import tepidarium.records.sqlite.SqliteRecords;
import tepidarium.series.sqlite.SqliteReadings;

/** Creates a data folder with one container and 100 readings, and backups of it. */
public final class SmallFolder {
  public static final Instant START = Instant.parse("2026-03-01T06:00:00Z");
  public static final Clock CLOCK =
      Clock.fixed(Instant.parse("2026-03-02T06:00:00Z"), ZoneOffset.UTC);

  private SmallFolder() {}

  /** The files of the folder. Kept, because migrating new files takes about a second. */
  private static final Map<String, byte[]> FILES = new TreeMap<>();

  public static Path create(Path data) {
    try {
      synchronized (FILES) {
        if (FILES.isEmpty()) {
          fill(Files.createTempDirectory("small-folder"));
        }
      }
      Files.createDirectories(data);
      for (Map.Entry<String, byte[]> file : FILES.entrySet()) {
        Files.write(data.resolve(file.getKey()), file.getValue());
      }
      return data;
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static void fill(Path data) throws IOException {
    SqliteRecords.open(data.resolve("records.db")).close();
    execute(
        data.resolve("records.db"),
        "INSERT INTO container (id, name, kind, base_c, temperature_low_c, temperature_high_c,"
            + " light_high_lux, humidity_low_percent, created_ms)"
            + " VALUES ('bag', 'Bag', 'bag', 15, 29, 34, 1, 80, 0)");
    try (SqliteReadings readings = SqliteReadings.open(data.resolve("readings.db"))) {
      readings.write(readings(100));
    }
    for (String name : List.of("records.db", "readings.db")) {
      FILES.put(name, Files.readAllBytes(data.resolve(name)));
      Files.delete(data.resolve(name));
    }
    Files.delete(data);
  }

  private static List<Reading> readings(int count) {
    List<Reading> readings = new ArrayList<>();
    for (int i = 0; i < count; i++) {
      readings.add(
          new Reading(
              new SensorId("jar-1"),
              START.plusSeconds(60L * i),
              Map.of(Quantity.TEMPERATURE, 30 + i / 100.0),
              null));
    }
    return readings;
  }

  public static BackupSource source(Path data) {
    return new BackupSource(
        data, EnumSet.of(BackupPart.RECORDS, BackupPart.READINGS), "timeZone: UTC\n", "0.1.0");
  }

  static BackupSource recordsOnly(Path data) {
    return new BackupSource(data, Set.of(BackupPart.RECORDS), "timeZone: UTC\n", "0.1.0");
  }

  static void execute(Path file, String sql) {
    try (Connection connection = DriverManager.getConnection("jdbc:sqlite:" + file);
        Statement statement = connection.createStatement()) {
      statement.execute(sql);
    } catch (SQLException e) {
      throw new AssertionError(e);
    }
  }
}
