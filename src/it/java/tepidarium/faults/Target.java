package tepidarium.faults;

import static org.awaitility.Awaitility.await;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.net.URI;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Duration;
import java.util.Comparator;
import java.util.HashMap;
import java.util.Map;
import java.util.stream.Stream;
import tepidarium.it.Grower;
import tepidarium.it.Ports;
import tepidarium.it.ServiceProcess;

/** The service under attack: a process of its own with the heap that the start script gives it. */
final class Target implements AutoCloseable {
  private static final String OPTIONS =
      "-Xms40m -XX:NewSize=16m -Xmx96m -Xss512k -XX:+UseSerialGC -XX:TieredStopAtLevel=1";
  private static final String GOOD = "good-sensor";

  /** The service must take in readings again within this time after an attack. */
  private static final Duration GOAL = Duration.ofSeconds(Form.of(60, 10));

  private static final int READINGS = 20;

  private final Path data;
  private final int mqttPort = Ports.free();
  private final Map<String, String> settings;
  private final long firstSecond = System.currentTimeMillis() / 1_000 - 3_000;
  private volatile ServiceProcess service;
  private volatile int starts;
  private volatile boolean steady = true;
  private int sent;

  private Target(Path data, Map<String, String> settings) {
    this.data = data;
    this.settings = settings;
    service = started();
  }

  /** Starts a service with its own broker on a new data folder; further settings by environment. */
  static Target start(Path data, Map<String, String> settings) throws IOException {
    Files.createDirectories(data);
    return new Target(data, settings);
  }

  private ServiceProcess started() {
    Map<String, String> all = new HashMap<>(settings);
    all.put(ServiceProcess.JAVA_OPTIONS, OPTIONS);
    // The default, which the other tests raise.
    all.put("TEPIDARIUM_MAX_SENSORS", "2000");
    return ServiceProcess.start(data, mqttPort, "embedded", all);
  }

  /** Kills the service without warning and starts it again. */
  void killAndStart() {
    steady = false;
    service.kill();
    starts++;
    service = started();
    steady = true;
  }

  /** Changes files in the data folder of a service that is not running. */
  interface Change {
    void apply(Path data) throws Exception;
  }

  /**
   * Stops the service, changes its files and starts it again. If it refuses to start, its files are
   * put back and it is started with them.
   *
   * @return the words in which it refused; empty if it started
   */
  String startAfter(Change change) throws Exception {
    steady = false;
    service.stop();
    starts++;
    Path kept = Files.createTempDirectory(data.toAbsolutePath().getParent(), "kept");
    copy(data, kept);
    String refusal = "";
    try {
      change.apply(data);
      service = started();
    } catch (AssertionError e) {
      refusal = String.valueOf(e.getMessage());
      remove(data);
      copy(kept, data);
      service = started();
    } finally {
      remove(kept);
    }
    steady = true;
    return refusal;
  }

  private static void copy(Path from, Path to) throws IOException {
    try (Stream<Path> files = Files.walk(from)) {
      for (Path file : files.toList()) {
        Path copy = to.resolve(from.relativize(file).toString());
        if (Files.isDirectory(file)) {
          Files.createDirectories(copy);
        } else {
          Files.copy(file, copy, StandardCopyOption.REPLACE_EXISTING);
        }
      }
    }
  }

  private static void remove(Path folder) throws IOException {
    try (Stream<Path> files = Files.walk(folder)) {
      for (Path file : files.sorted(Comparator.reverseOrder()).toList()) {
        Files.delete(file);
      }
    }
  }

  /** How often it was started; its counts begin again with each start. */
  int starts() {
    return starts;
  }

  /** Whether it is not being killed or started just now. */
  boolean isSteady() {
    return steady;
  }

  int mqttPort() {
    return mqttPort;
  }

  URI pages() {
    return URI.create(grower().api().base());
  }

  Grower grower() {
    return service.grower();
  }

  Path data() {
    return data;
  }

  long pid() {
    return service.pid();
  }

  boolean isAlive() {
    return service.isAlive();
  }

  JsonNode health() {
    return grower().api().get("/api/health");
  }

  /** Publishes the readings of a good sensor; how long until all of them are in the store, s. */
  double secondsUntilStored() throws IOException {
    long start = System.nanoTime();
    try (MqttSocket sensor = new MqttSocket(mqttPort, GOOD, 8_192)) {
      sensor.awaitConnected();
      for (int i = 1; i <= READINGS; i++) {
        String payload = "{\"temperature\":30,\"at\":" + (firstSecond + sent++) + "}";
        sensor.publish(i, "tepidarium/" + GOOD, MqttBytes.utf8(payload), false);
      }
      sensor.flush();
      for (int i = 1; i <= READINGS; i++) {
        sensor.acknowledged();
      }
    }
    await("20 readings of a good sensor are stored")
        .atMost(GOAL.multipliedBy(3))
        .pollInterval(Duration.ofMillis(20))
        .until(() -> missing() == 0);
    return (System.nanoTime() - start) / 1e9;
  }

  /** How many readings of the good sensor were sent and are not in the store. */
  long missing() {
    return sent - rowsOf(GOOD, 0, Long.MAX_VALUE);
  }

  /** How many readings of a sensor are in the store, from one instant to before another. */
  long rowsOf(String sensor, long fromMs, long toMs) {
    String sql =
        """
        SELECT count(*) FROM reading JOIN sensor ON sensor.id = reading.sensor_id
        WHERE name = ? AND at_ms >= ? AND at_ms < ?
        """;
    try (Connection file = DriverManager.getConnection("jdbc:sqlite:" + data + "/readings.db");
        PreparedStatement count = file.prepareStatement(sql)) {
      count.setString(1, sensor);
      count.setLong(2, fromMs);
      count.setLong(3, toMs);
      try (ResultSet row = count.executeQuery()) {
        return row.next() ? row.getLong(1) : 0;
      }
    } catch (SQLException e) {
      throw new IllegalStateException("cannot read the store in " + data, e);
    }
  }

  static double goalSeconds() {
    return GOAL.toSeconds();
  }

  @Override
  public void close() {
    service.close();
  }
}
