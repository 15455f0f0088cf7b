package tepidarium.bench;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.PreparedStatement;
import java.sql.SQLException;
import java.time.Duration;
import java.time.Instant;
import java.util.Comparator;
import java.util.HashMap;
import java.util.Map;
import java.util.stream.Stream;
import tepidarium.container.Band;
import tepidarium.container.Container;
import tepidarium.container.ContainerId;
import tepidarium.container.ContainerKind;
import tepidarium.container.ContainerSettings;
import tepidarium.it.ServiceProcess;
import tepidarium.records.ContainerRecords;
import tepidarium.records.sqlite.SqliteRecords;
import tepidarium.series.sqlite.SqliteReadings;

/** A data folder with containers in it, and the service on it as a process of its own. */
final class Site {
  static final String EMBEDDED = "embedded";

  /** As the start script has it for a household. */
  static final String SMALL = "-Xms40m -XX:NewSize=16m -Xmx96m";

  /** For thousands of sensors. */
  static final String LARGE = "-Xms40m -Xmx256m";

  private static final String OTHERS = "-Xss512k -XX:+UseSerialGC -XX:TieredStopAtLevel=1";

  private final Path data;

  private Site(Path data) {
    this.data = data;
  }

  /** A folder as an earlier run left it, or a new one. */
  static Site at(Path data) {
    try {
      Files.createDirectories(data);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return new Site(data);
  }

  /** A new folder in place of what was there. */
  static Site fresh(Path data) {
    remove(data);
    return at(data);
  }

  static void remove(Path folder) {
    if (!Files.exists(folder)) {
      return;
    }
    try (Stream<Path> files = Files.walk(folder)) {
      for (Path file : files.sorted(Comparator.reverseOrder()).toList()) {
        Files.delete(file);
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  Path data() {
    return data;
  }

  /** Puts the first sensors into containers, equally many into each, for a long time. */
  void plant(int containers, int sensorsInEach) {
    Instant longAgo = Instant.now().minus(Duration.ofDays(400));
    // A store without the other would count as lost.
    SqliteReadings.open(data.resolve("readings.db")).close();
    Path file = data.resolve("records.db");
    try (SqliteRecords database = SqliteRecords.open(file)) {
      ContainerRecords records = new ContainerRecords(database);
      for (int i = 0; i < containers; i++) {
        ContainerSettings settings =
            new ContainerSettings(
                "Bag " + i, ContainerKind.BAG, "closet", "Bench " + i / 20, 15, 35.0, Band.DEFAULT);
        records.put(new Container(container(i), settings, longAgo));
      }
    }
    place(file, containers * sensorsInEach, sensorsInEach, longAgo);
  }

  /** All in one transaction, which the service itself never needs. */
  private static void place(Path file, int sensors, int sensorsInEach, Instant from) {
    String sql = "INSERT INTO placement (sensor, container_id, from_ms) VALUES (?, ?, ?)";
    try (Connection connection = DriverManager.getConnection("jdbc:sqlite:" + file);
        PreparedStatement insert = connection.prepareStatement(sql)) {
      connection.setAutoCommit(false);
      for (int i = 0; i < sensors; i++) {
        insert.setString(1, Load.sensor(i).name());
        insert.setString(2, container(i / sensorsInEach).value());
        insert.setLong(3, from.toEpochMilli());
        insert.addBatch();
      }
      insert.executeBatch();
      connection.commit();
    } catch (SQLException e) {
      throw new IllegalStateException("cannot place sensors in " + file, e);
    }
  }

  static ContainerId container(int number) {
    return new ContainerId("bag-" + number);
  }

  /**
   * Starts the service, with the memory that the start script gives it or other.
   *
   * @param mqttPort where its own broker listens, if it is to have one
   * @param broker the word for its own, or an address
   * @param heap the options for the heap
   */
  ServiceProcess start(int mqttPort, String broker, String heap, Map<String, String> settings) {
    Map<String, String> all = new HashMap<>(settings);
    all.putAll(environment(heap));
    return ServiceProcess.start(data, mqttPort, broker, all);
  }

  /** What makes a Java process as small as the start script does. */
  static Map<String, String> environment(String heap) {
    return Map.of(ServiceProcess.JAVA_OPTIONS, heap + " " + OTHERS, "MALLOC_ARENA_MAX", "2");
  }
}
