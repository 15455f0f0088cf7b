package tepidarium.it;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A service that is killed: what others hear of it. */
class KillIT {
  private static final Duration SOON = Duration.ofSeconds(40);

  @TempDir private Path folder;

  @Test
  void anAlertIsNeitherLostNorRepeatedByAKill() throws IOException {
    Path data = folder.resolve("data");
    int port = Ports.free();
    Instant start = Instant.now().truncatedTo(ChronoUnit.SECONDS).minusSeconds(1_800);
    try (ServiceProcess service = start(data, port)) {
      Grower grower = service.grower();
      grower.place("bag", grower.container("Bag"), start);
      sendCold(grower, port, start, 0, 9, 25);
      service.kill();
    }
    try (ServiceProcess service = start(data, port)) {
      sendCold(service.grower(), port, start, 10, 10, 25);
      await().atMost(SOON).until(() -> coldTransitions(service.grower()).equals("raised "));
      service.kill();
    }
    try (ServiceProcess service = start(data, port)) {
      sendCold(service.grower(), port, start, 11, 16, 31);
      service.kill();
    }
    try (RunningService service = RunningService.embedded(data, port)) {
      Grower grower = new Grower(service.api());
      grower.awaitBroker();
      sendCold(grower, port, start, 17, 21, 31);
      await().atMost(SOON).until(() -> coldTransitions(grower).equals("raised returned "));
      JsonNode alert = service.api().get("/api/alerts?state=history").get(0);
      assertEquals(start.toString(), alert.get("since").textValue());
      assertEquals(start.plusSeconds(600).toString(), alert.get("raisedAt").textValue());
      assertEquals(start.plusSeconds(1_260).toString(), alert.get("returnedAt").textValue());
    }
    assertEquals(List.of(), namesIn(temporary()));
    assertEquals(1, namesIn(data.resolve("native")).size());
  }

  /** With a temporary folder of its own, to see what a killed service leaves there. */
  private ServiceProcess start(Path data, int port) throws IOException {
    Files.createDirectories(temporary());
    String option = "-Djava.io.tmpdir=" + temporary();
    return ServiceProcess.start(data, port, "embedded", Map.of("JAVA_TOOL_OPTIONS", option));
  }

  private Path temporary() {
    return folder.resolve("temporary");
  }

  private static List<String> namesIn(Path inside) throws IOException {
    try (var files = Files.list(inside)) {
      return files.map(file -> file.getFileName().toString()).toList();
    }
  }

  /** A reading a minute, each of which is durable when this returns, but perhaps not judged. */
  private static void sendCold(
      Grower grower, int port, Instant start, int from, int to, double temperatureC) {
    long stored = grower.settledCount("stored");
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
  void theBrokerPublishesTheWillOfAKilledService() {
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
