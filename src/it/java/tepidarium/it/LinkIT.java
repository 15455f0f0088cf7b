package tepidarium.it;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The link to a broker of others, which comes and goes, and a store that fails. */
class LinkIT {
  private static final Duration SOON = Duration.ofSeconds(40);
  private static final Instant START = Instant.parse("2026-03-01T06:00:00Z");

  private Path data;
  private Mosquitto broker;
  private RunningService service;
  private Grower grower;

  @BeforeEach
  void prepareABroker(@TempDir Path folder) {
    data = folder.resolve("data");
    broker = Mosquitto.prepared(folder.resolve("mosquitto"));
  }

  @AfterEach
  void stopEverything() {
    if (service != null) {
      service.close();
    }
    broker.close();
  }

  private void startService() {
    service = RunningService.withBroker(data, broker.port());
    grower = new Grower(service.api());
  }

  private void stopService() {
    service.close();
    service = null;
  }

  private void startBoth() {
    broker.start();
    startService();
    grower.awaitBroker();
  }

  /** Messages that the broker has accepted from the sensor, one for each minute. */
  private void send(int fromMinute, int toMinute) {
    Publisher.to(broker.port())
        .lines(
            "tepidarium/bag",
            IntStream.rangeClosed(fromMinute, toMinute)
                .mapToObj(m -> "{\"temperature\":30,\"at\":\"" + START.plusSeconds(60L * m) + "\"}")
                .toList());
  }

  private void awaitStored(long readings) {
    await().atMost(SOON).until(() -> grower.count("stored") == readings);
    await().atMost(SOON).until(() -> grower.count("waiting") == 0);
  }

  private void awaitStatus(String word) {
    await()
        .atMost(SOON)
        .until(
            () -> Subscriber.to(broker.port()).retained("tepidarium/status"),
            text -> text.equals("{\"status\":\"" + word + "\"}"));
  }

  @Test
  void aBrokerThatComesLaterIsFound() {
    startService();
    await()
        .atMost(SOON)
        .until(
            () ->
                grower
                    .part("broker")
                    .startsWith(
                        "down: cannot reach the broker at tcp://127.0.0.1:" + broker.port()));
    assertEquals("degraded", service.api().get("/api/health").get("status").textValue());
    assertEquals(503, service.api().call("GET", "/api/health/ready", null).status());
    assertEquals(200, service.api().call("GET", "/api/health/live", null).status());

    broker.start();

    grower.awaitBroker();
    assertEquals("up", service.api().get("/api/health").get("status").textValue());
    assertEquals(200, service.api().call("GET", "/api/health/ready", null).status());
    send(1, 3);
    awaitStored(3);
  }

  @Test
  void theLinkSubscribesAgainAfterTheBrokerLostItsSessions() {
    startBoth();
    send(1, 3);
    awaitStored(3);
    assertFalse(grower.part("broker").contains("no session"));

    broker.kill();
    await().atMost(SOON).until(() -> grower.part("broker").startsWith("down"));
    broker.start();

    grower.awaitBroker();
    assertTrue(grower.part("broker").contains("the broker had no session of this service"));
    awaitStatus("up");
    send(4, 6);
    awaitStored(6);
  }

  @Test
  void readingsSentWhileTheServiceIsAwayArriveAfterwards() {
    startBoth();
    awaitStatus("up");
    stopService();
    awaitStatus("down");
    send(1, 500);
    broker.stop();
    broker.start();

    startService();

    awaitStored(500);
    assertFalse(grower.part("broker").contains("no session"));
    assertEquals(0, grower.count("repeated"));
    awaitStatus("up");
  }

  @Test
  void aSessionLostWhileTheServiceIsAwayIsReported() {
    startBoth();
    send(1, 1);
    awaitStored(1);
    stopService();
    broker.kill();
    broker.start();

    startService();

    grower.awaitBroker();
    assertTrue(grower.part("broker").contains("the broker had no session of this service"));
  }

  @Test
  void nothingIsAcknowledgedBeforeItIsDurable() throws SQLException {
    startBoth();
    send(1, 1);
    awaitStored(1);
    try (Connection other = DriverManager.getConnection("jdbc:sqlite:" + data + "/readings.db")) {
      lock(other);
      send(2, 6);
      await().atMost(SOON).until(() -> grower.count("waiting") == 5);
      await()
          .atMost(SOON)
          .until(() -> grower.part("readings"), text -> text.startsWith("down: cannot write"));
      assertEquals(1, grower.count("stored"));
      unlock(other);
      awaitStored(6);
      assertTrue(grower.part("readings").startsWith("up"));

      lock(other);
      send(7, 9);
      await().atMost(SOON).until(() -> grower.count("waiting") == 3);
      stopService();
      unlock(other);
    }

    startService();

    awaitStored(3);
    assertEquals(List.of(0L, 0L), List.of(grower.count("repeated"), grower.count("rejected")));
  }

  private static void lock(Connection connection) throws SQLException {
    try (Statement statement = connection.createStatement()) {
      statement.execute("PRAGMA busy_timeout = 10000");
      statement.execute("BEGIN EXCLUSIVE");
    }
  }

  private static void unlock(Connection connection) throws SQLException {
    try (Statement statement = connection.createStatement()) {
      statement.execute("ROLLBACK");
    }
  }
}
