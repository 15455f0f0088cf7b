package tepidarium.it;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.concurrent.CompletableFuture;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Readings without a time of their own that wait in a broker while the service is away. */
class WaitedReadingsIT {
  private static final Duration SOON = Duration.ofSeconds(30);
  private static final int WAITED = 1_200;
  private static final int FLOOD = 6_000;

  @TempDir private Path folder;

  private static List<String> values(int from, int to) {
    return IntStream.range(from, to).mapToObj(i -> String.valueOf(i / 100.0)).toList();
  }

  /** Messages may be received twice on a busy machine; what is stored counts. */
  private static void awaitStored(Grower grower, int wanted) {
    await()
        .atMost(SOON)
        .until(() -> grower.count("stored") >= wanted && grower.count("waiting") == 0);
  }

  @Test
  void readingsAreAllStoredAndMarkedAsOfUncertainTime() {
    Path data = folder.resolve("data");
    try (Mosquitto broker = Mosquitto.started(folder.resolve("broker"))) {
      Publisher sensor = Publisher.to(broker.port());
      try (RunningService service = RunningService.withBroker(data, broker.port())) {
        new Grower(service.api()).awaitBroker();
      }
      sensor.lines("tepidarium/jar/temperature", values(0, WAITED));

      try (RunningService service = RunningService.withBroker(data, broker.port())) {
        Grower grower = new Grower(service.api());
        grower.awaitBroker();
        String container = grower.container("Jar");
        grower.place("jar", container, Instant.parse("2020-01-01T00:00:00Z"));
        awaitStored(grower, WAITED);

        assertEquals(WAITED, grower.count("stored"));
        JsonNode jar = service.api().get("/api/sensors/jar");
        assertEquals(WAITED, jar.get("uncertain").get("count").intValue());
        assertTrue(jar.get("lastHeard").isNull());
        String words = grower.part("times");
        assertTrue(words.contains("1200 readings waited in the broker"), words);
        assertTrue(words.contains("Make the sensor send the field at"), words);

        sensor.send("tepidarium/jar/temperature", "31.5");
        await().atMost(SOON).until(() -> grower.count("stored") == WAITED + 1);
        Instant now = Instant.now();
        Instant from = now.minusSeconds(3_600);
        assertEquals(
            List.of(31.5),
            List.copyOf(grower.values(container, "temperature", from, now).values()));
      }
    }
  }

  @Test
  void aKillNeitherLosesNorDoublesThem() throws SQLException {
    Path data = folder.resolve("data");
    try (Mosquitto broker =
        Mosquitto.started(folder.resolve("broker"), "max_inflight_messages 1000")) {
      String address = "tcp://127.0.0.1:" + broker.port();
      Publisher sensor = Publisher.to(broker.port());
      CompletableFuture<Void> sending;
      try (ServiceProcess service = ServiceProcess.start(data, broker.port(), address)) {
        Grower grower = service.grower();
        sending =
            CompletableFuture.runAsync(
                () -> sensor.lines("tepidarium/jar/temperature", values(0, FLOOD)));
        await()
            .atMost(SOON)
            .pollInterval(Duration.ofMillis(5))
            .until(() -> grower.count("stored") > 200);
        service.kill();
      }
      sending.join();
      try (RunningService service = RunningService.withBroker(data, broker.port())) {
        Grower grower = new Grower(service.api());
        grower.awaitBroker();
        await().atMost(SOON).until(() -> rows(data, "DISTINCT temperature") == FLOOD);
        await().atMost(SOON).until(() -> grower.count("waiting") == 0);
        assertEquals(FLOOD, rows(data, "*"));
      }
    }
  }

  private static int rows(Path data, String what) throws SQLException {
    String sql =
        "SELECT count("
            + what
            + ") FROM (SELECT temperature FROM reading UNION ALL"
            + " SELECT temperature FROM uncertain_reading)";
    try (Connection file = DriverManager.getConnection("jdbc:sqlite:" + data + "/readings.db");
        Statement statement = file.createStatement();
        ResultSet row = statement.executeQuery(sql)) {
      row.next();
      return row.getInt(1);
    }
  }
}
