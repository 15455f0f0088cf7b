package tepidarium.it;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Duration;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.Collections;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.concurrent.ConcurrentSkipListSet;
import java.util.concurrent.atomic.AtomicLong;
import java.util.stream.IntStream;
import org.eclipse.paho.mqttv5.client.IMqttToken;
import org.eclipse.paho.mqttv5.client.MqttAsyncClient;
import org.eclipse.paho.mqttv5.client.persist.MemoryPersistence;
import org.eclipse.paho.mqttv5.common.MqttException;
import org.eclipse.paho.mqttv5.common.packet.MqttPubAck;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What was acknowledged to a sensor outlives the process that acknowledged it. */
class KillIT {
  private static final Duration SOON = Duration.ofSeconds(40);
  private static final long FIRST_SECOND = 1_772_344_800;
  private static final int ROUNDS = 3;
  private static final int SENSORS = 4;
  private static final int ENOUGH = 400;

  private final AtomicLong nextSecond = new AtomicLong(FIRST_SECOND);
  private final Set<Long> acknowledged = new ConcurrentSkipListSet<>();

  @TempDir private Path folder;

  @Test
  void everyAcknowledgedReadingIsThereOnceAfterAKill() throws Exception {
    Path data = folder.resolve("data");
    int port = Ports.free();
    for (int round = 1; round <= ROUNDS; round++) {
      try (ServiceProcess service = ServiceProcess.start(data, port, "embedded")) {
        int before = acknowledged.size();
        List<Thread> sensors = IntStream.range(0, SENSORS).mapToObj(i -> sensor(port, i)).toList();
        sensors.forEach(Thread::start);
        await().atMost(SOON).until(() -> acknowledged.size() >= before + ENOUGH);
        service.kill();
        for (Thread sensor : sensors) {
          sensor.join();
        }
      }
    }

    try (ServiceProcess service = ServiceProcess.start(data, port, "embedded")) {
      await().atMost(SOON).untilAsserted(() -> assertEquals(Set.of(), missing(data)));
      assertTrue(acknowledged.size() >= ROUNDS * ENOUGH);
      assertEquals(List.of(), service.grower().rejects("tepidarium/bag"));
    }
    assertEquals(Set.of(), missing(data));
    assertTrue(
        recorded(data).stream().allMatch(s -> s >= FIRST_SECOND && s < nextSecond.get()),
        "only what was sent is there");
  }

  /** One that publishes until its broker is gone, and notes what was acknowledged. */
  private Thread sensor(int port, int number) {
    return new Thread(
        () -> {
          try {
            MqttAsyncClient client =
                new MqttAsyncClient(
                    "tcp://127.0.0.1:" + port, "sensor-" + number, new MemoryPersistence());
            client.connect().waitForCompletion(5_000);
            while (client.isConnected()) {
              long second = nextSecond.getAndIncrement();
              String payload = "{\"temperature\":30,\"at\":" + second + "}";
              IMqttToken sent =
                  client.publish(
                      "tepidarium/bag", payload.getBytes(StandardCharsets.UTF_8), 1, false);
              sent.waitForCompletion(5_000);
              // The client also ends the waiting when it loses the broker; only the broker's own
              // word counts.
              if (sent.getResponse() instanceof MqttPubAck) {
                acknowledged.add(second);
              }
            }
          } catch (MqttException e) {
            // The broker is gone, as planned; what it did not acknowledge is not counted.
          }
        },
        "sensor-" + number);
  }

  /** The acknowledged readings that are not in the record. */
  private Set<Long> missing(Path data) throws SQLException {
    Set<Long> missing = new TreeSet<>(acknowledged);
    missing.removeAll(recorded(data));
    return missing;
  }

  /** A reading is known by sensor and instant, so each can be there once at most. */
  private static Set<Long> recorded(Path data) throws SQLException {
    String sql = "SELECT at_ms / 1000 FROM reading";
    try (Connection file = DriverManager.getConnection("jdbc:sqlite:" + data + "/readings.db");
        Statement statement = file.createStatement();
        ResultSet rows = statement.executeQuery(sql)) {
      Set<Long> seconds = new TreeSet<>();
      while (rows.next()) {
        assertTrue(seconds.add(rows.getLong(1)));
      }
      return Collections.unmodifiableSet(seconds);
    }
  }

  @Test
  void anAlertIsNeitherLostNorRepeatedByAKill() {
    Path data = folder.resolve("data");
    int port = Ports.free();
    Instant start = Instant.now().truncatedTo(ChronoUnit.SECONDS).minusSeconds(1_800);
    try (ServiceProcess service = ServiceProcess.start(data, port, "embedded")) {
      Grower grower = service.grower();
      grower.place("bag", grower.container("Bag"), start);
      sendCold(grower, port, start, 0, 9, 25);
      service.kill();
    }
    try (ServiceProcess service = ServiceProcess.start(data, port, "embedded")) {
      sendCold(service.grower(), port, start, 10, 10, 25);
      await().atMost(SOON).until(() -> coldTransitions(service.grower()).equals("raised "));
      service.kill();
    }
    try (ServiceProcess service = ServiceProcess.start(data, port, "embedded")) {
      sendCold(service.grower(), port, start, 11, 16, 31);
      service.kill();
    }
    try (ServiceProcess service = ServiceProcess.start(data, port, "embedded")) {
      sendCold(service.grower(), port, start, 17, 21, 31);
      await()
          .atMost(SOON)
          .until(() -> coldTransitions(service.grower()).equals("raised returned "));
      JsonNode alert = service.grower().api().get("/api/alerts?state=history").get(0);
      assertEquals(start.toString(), alert.get("since").textValue());
      assertEquals(start.plusSeconds(600).toString(), alert.get("raisedAt").textValue());
      assertEquals(start.plusSeconds(1_260).toString(), alert.get("returnedAt").textValue());
    }
  }

  /** A reading a minute, each of which is durable when this returns, but perhaps not judged. */
  private static void sendCold(
      Grower grower, int port, Instant start, int from, int to, double temperatureC) {
    long stored = grower.count("stored");
    List<String> lines =
        IntStream.rangeClosed(from, to)
            .mapToObj(
                minute ->
                    "{\"temperature\":%s,\"at\":\"%s\"}"
                        .formatted(temperatureC, start.plusSeconds(60L * minute)))
            .toList();
    Publisher.to(port).lines("tepidarium/bag", lines);
    await().atMost(SOON).until(() -> grower.count("stored") == stored + lines.size());
  }

  private static String coldTransitions(Grower grower) {
    StringBuilder all = new StringBuilder();
    for (JsonNode alert : grower.api().get("/api/alerts?state=history")) {
      for (JsonNode one : grower.api().get("/api/alerts/" + alert.get("id")).get("transitions")) {
        all.append(one.get("what").textValue()).append(' ');
      }
    }
    return all.toString();
  }

  @Test
  void theBrokerTellsOfAServiceThatWasKilled() {
    try (Mosquitto broker = Mosquitto.started(folder.resolve("mosquitto"));
        ServiceProcess service =
            ServiceProcess.start(
                folder.resolve("data"), Ports.free(), "tcp://127.0.0.1:" + broker.port())) {
      Subscriber lamp = Subscriber.to(broker.port());
      await()
          .atMost(SOON)
          .until(() -> lamp.retained("tepidarium/status").equals("{\"status\":\"up\"}"));

      service.kill();

      await()
          .atMost(SOON)
          .until(() -> lamp.retained("tepidarium/status").equals("{\"status\":\"down\"}"));
    }
  }
}
