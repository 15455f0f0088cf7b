package tepidarium.it;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.concurrent.CompletableFuture;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The whole service with its records in a real PostgreSQL that comes and goes. */
class PostgresOutageIT {
  private static final Duration SOON = Duration.ofMinutes(1);
  private static final String TOPIC = "tepidarium/s1";

  @TempDir private Path folder;
  private Postgres postgres;
  private String url;

  @BeforeEach
  void startTheDatabase() {
    postgres = Postgres.started();
    postgres.create("garden");
    url = postgres.url("garden");
  }

  @AfterEach
  void stopTheDatabase() {
    postgres.close();
  }

  private RunningService service() {
    return RunningService.start(
        RunningService.config(folder, "embedded", Ports.free(), Postgres.settings(url)),
        java.time.Clock.tickMillis(java.time.ZoneOffset.UTC));
  }

  private static void awaitUp(Grower grower) {
    await().atMost(SOON).until(() -> grower.part("records").startsWith("up: answering from"));
  }

  @Test
  void readingsGoOnWhileTheDatabaseIsAway() {
    try (RunningService service = service()) {
      Grower grower = new Grower(service.api());
      Publisher sensor = Publisher.to(service.mqttPort());
      grower.awaitBroker();
      String bag = grower.container("Bag");
      grower.place("s1", bag, Instant.now().minusSeconds(3_600));
      sensor.send(TOPIC, "{\"temperature\":30}");
      await().atMost(SOON).until(() -> grower.count("stored") == 1);
      assertTrue(grower.part("backup").contains("pg_dump"), grower.part("backup"));

      postgres.kill();
      sensor.send(TOPIC, "no reading");
      sensor.send(TOPIC, "{\"temperature\":31}");
      await()
          .atMost(SOON)
          .until(() -> grower.count("stored") == 2 && grower.count("rejected") == 1);
      assertTrue(grower.part("readings").startsWith("up"), grower.part("readings"));
      String words = grower.part("records");
      assertTrue(words.startsWith("down: the database garden at 127.0.0.1:"), words);
      assertTrue(words.contains("does not answer"), words);
      String body = "{\"name\":\"Other\",\"kind\":\"bag\"}";
      assertEquals(503, service.api().call("POST", "/api/containers", body).status());
      assertEquals(200, service.api().call("GET", "/api/containers/" + bag, null).status());

      postgres.start();
      awaitUp(grower);
      grower.container("Other");
      await().atMost(SOON).until(() -> grower.rejects(TOPIC).size() == 1);
    }
  }

  @Test
  void theStartWaitsForTheDatabase() throws IOException {
    postgres.stop();
    CompletableFuture<RunningService> starting;
    try (ServerSocket port =
        new ServerSocket(postgres.port(), 1, InetAddress.getLoopbackAddress())) {
      starting = CompletableFuture.supplyAsync(this::service);
      port.accept().close();
    }
    postgres.start();
    try (RunningService service = starting.join()) {
      awaitUp(new Grower(service.api()));
    }
  }
}
