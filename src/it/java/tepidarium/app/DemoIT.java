package tepidarium.app;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeSet;
import java.util.concurrent.atomic.AtomicReference;
import java.util.function.Predicate;
import java.util.stream.StreamSupport;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tepidarium.app.demo.Demo;
import tepidarium.backup.BackupWriter;
import tepidarium.it.Api;
import tepidarium.it.EveryGet;
import tepidarium.it.Ports;
import tepidarium.it.RunningService;

/** The demo as a visitor meets it: over HTTP, once its history is in. */
class DemoIT {
  /** Half an hour off the full hour, to see that dawn is the garden's and not UTC's. */
  private static final ZoneId ZONE = ZoneId.of("Asia/Kolkata");

  /** Every GET takes ten seconds on a machine with other work, and is called twice or more. */
  private static final Duration SETTLED = Duration.ofMinutes(3);

  private static final List<String> JARS = List.of("cacao-jar-1", "cacao-jar-2", "lychee-jar");
  private static final Set<String> NOT_IN_THE_DEMO =
      Set.of("/api/entries/{entry}/photo", "/api/seasons/{season}");

  private static DemoService demo;
  private static Api api;
  private static Demo.LoadedHistory filled;
  private static Instant filledAt;

  @BeforeAll
  static void start() throws Exception {
    demo = DemoService.start(config(), Clock.tickMillis(ZoneOffset.UTC));
    api = new Api("http://127.0.0.1:" + demo.httpPort());
    filled = demo.loadHistory();
    filledAt = Instant.now().truncatedTo(ChronoUnit.MILLIS);
  }

  private static Config config() {
    return Config.of(
        Map.of(
            "data",
            "never-used",
            "httpPort",
            0,
            "mqttHost",
            "127.0.0.1",
            "mqttPort",
            Ports.free(),
            "timeZone",
            ZONE.getId()));
  }

  @Test
  void anEmptyInstallationTakesTheWholeRecord(@TempDir Path folder) throws Exception {
    byte[] record = zip("GET", demo.httpPort(), "/api/record.zip", new byte[0]);
    try (RunningService other = RunningService.embedded(folder)) {
      int port = URI.create(other.url()).getPort();
      String taken = new String(zip("POST", port, "/api/record", record), StandardCharsets.UTF_8);
      assertTrue(taken.contains("{\"table\":\"entries\",\"rows\":"), taken);
      assertArrayEquals(record, zip("GET", port, "/api/record.zip", new byte[0]));
    }
  }

  private static byte[] zip(String method, int port, String path, byte[] body) throws Exception {
    HttpRequest request =
        HttpRequest.newBuilder(URI.create("http://127.0.0.1:" + port + path))
            .header("Content-Type", "application/zip")
            .method(method, HttpRequest.BodyPublishers.ofByteArray(body))
            .build();
    HttpResponse<byte[]> answer =
        HttpClient.newHttpClient().send(request, HttpResponse.BodyHandlers.ofByteArray());
    assertEquals(200, answer.statusCode(), new String(answer.body(), StandardCharsets.UTF_8));
    return answer.body();
  }

  @AfterAll
  static void stop() {
    Path folder = demo.folder();
    assertTrue(Files.exists(folder));
    demo.close();
    assertFalse(Files.exists(folder), "the throw-away folder is still there");
    assertFalse(Files.exists(Path.of("never-used")));
  }

  private static boolean any(JsonNode list, Predicate<JsonNode> which) {
    return StreamSupport.stream(list.spliterator(), false).anyMatch(which);
  }

  private static List<JsonNode> all(JsonNode list, Predicate<JsonNode> which) {
    return StreamSupport.stream(list.spliterator(), false).filter(which).toList();
  }

  private static boolean is(JsonNode node, String field, String value) {
    return node.path(field).asText().equals(value);
  }

  private static LocalTime local(JsonNode node, String field) {
    return Instant.parse(node.path(field).asText()).atZone(ZONE).toLocalTime();
  }

  @Test
  void theWholeHistoryIsInAndNothingWasRejected() {
    assertTrue(filled.readings() > 70_000, "only " + filled);
    assertTrue(filled.sent() > filled.readings(), "nothing was repeated: " + filled);
    JsonNode health = api.get("/api/health");
    assertEquals("up", health.path("status").asText());
    assertEquals(0, health.path("counts").path("rejected").asLong());
    assertTrue(health.path("counts").path("stored").asLong() >= filled.readings());
    assertTrue(api.get("/api/setup").path("demo").asBoolean());
  }

  @Test
  void thereAreContainersWithHeatAndSensors() {
    JsonNode containers = api.get("/api/containers");
    assertTrue(containers.size() >= 6, "only " + containers.size());
    for (JsonNode container : containers) {
      assertTrue(container.path("sensors").size() >= 1, container.toString());
      assertTrue(container.path("heat").path("degreeHours").asDouble() > 8_000);
    }
    assertEquals(2, api.get("/api/containers/cacao-jar-1").path("sensors").size());
    JsonNode sensor = api.get("/api/sensors/shed-jar-2");
    assertEquals(-0.3, sensor.path("calibration").path("temperatureOffset").asDouble());
  }

  @Test
  void theJarsOfTheCupboardHadAColdNight() {
    for (String jar : JARS) {
      List<JsonNode> cold =
          all(
              api.get("/api/containers/" + jar + "/band").path("excursions"),
              excursion -> is(excursion, "kind", "cold") && excursion.path("hours").asDouble() > 3);
      assertEquals(1, cold.size(), jar);
      assertEquals(24, cold.get(0).path("worst").asDouble(), 1.5);
      assertTrue(local(cold.get(0), "start").isAfter(LocalTime.of(1, 30)));
      assertTrue(local(cold.get(0), "start").isBefore(LocalTime.of(5, 0)));
      assertTrue(cold.get(0).path("degreeHoursLost").asDouble() > 5);
    }
  }

  @Test
  void theLidLeaksAtDawnAndChecksAreOpenings() {
    JsonNode events = api.get("/api/containers/paper-lined-box/light").path("events");
    List<JsonNode> leaks = all(events, event -> is(event, "kind", "daylight"));
    assertTrue(leaks.size() >= 12 && leaks.size() <= 14, leaks.size() + " leaks");
    for (JsonNode leak : leaks) {
      assertTrue(local(leak, "start").isAfter(LocalTime.of(6, 29)), leak.toString());
      assertTrue(local(leak, "start").isBefore(LocalTime.of(6, 36)), leak.toString());
      assertTrue(leak.path("peakLux").asDouble() <= 25, leak.toString());
      assertTrue(leak.path("advice").asText().contains("east"), leak.toString());
    }
    for (JsonNode container : api.get("/api/containers")) {
      String path = "/api/containers/" + container.path("id").asText() + "/light";
      List<JsonNode> openings =
          all(api.get(path).path("events"), event -> is(event, "kind", "opening"));
      assertEquals(4, openings.size(), path);
      openings.forEach(event -> assertTrue(event.path("peakLux").asDouble() >= 150));
    }
  }

  @Test
  void oneTrayIsDry() {
    JsonNode alerts = api.get("/api/alerts?state=active");
    assertTrue(
        any(alerts, a -> is(a, "kind", "dry") && is(a, "container", "lychee-tray-a")),
        alerts.toString());
  }

  @Test
  void oneSensorIsSilentAndNoOther() {
    await()
        .atMost(Duration.ofSeconds(60))
        .untilAsserted(
            () -> {
              List<JsonNode> silent =
                  all(api.get("/api/alerts?state=active"), a -> is(a, "kind", "silent"));
              assertEquals(1, silent.size(), silent.toString());
              assertEquals("cacao-bag", silent.get(0).path("container").asText());
            });
    // Nor was any other called silent while the history came in.
    List<JsonNode> ever = all(api.get("/api/alerts?state=all"), a -> is(a, "kind", "silent"));
    assertEquals(1, ever.size(), ever::toString);
  }

  @Test
  void theGapStaysAndTheLateStretchIsThere() {
    JsonNode lost = api.get("/api/containers/lychee-tray-b/heat");
    assertEquals(5.1, lost.path("gapHours").asDouble(), 0.2);
    JsonNode late = api.get("/api/containers/lychee-jar/heat");
    assertEquals(0, late.path("gapHours").asDouble(), 0.1);
  }

  @Test
  void theHeatBenchFindsTheTrueDifferenceOfTheDemo() {
    JsonNode sources = api.get("/api/compare/heat?sources=airing%20cupboard,heat%20mat");
    assertEquals("less", sources.at("/pairs/0/finding").asText(), sources.toString());
    JsonNode trays = api.get("/api/compare/heat?containers=lychee-tray-a,lychee-tray-b");
    String finding = trays.at("/pairs/0/finding").asText();
    assertTrue(List.of("none-shown", "within-sensor-error").contains(finding), trays.toString());
    JsonNode trial = api.get("/api/containers/trial-box/trial");
    assertEquals("told", trial.path("outcome").asText(), trial.toString());
    assertEquals(16, trial.at("/low/roomBelow/value").asDouble(), 0.3);
  }

  /**
   * Two services without sensors and with a clock that stands: the first on a backup of the running
   * demo, the second on a backup of the first while it runs.
   */
  @Test
  void everyGetGivesTheSameAnswerAfterBackupAndRestore(@TempDir Path copies) throws IOException {
    Clock clock = Clock.fixed(Instant.now().truncatedTo(ChronoUnit.MILLIS), ZoneOffset.UTC);
    Path first = restored(demo.folder(), copies.resolve("first"));
    Map<String, String> before;
    Path second;
    try (RunningService service = onCopy(first, clock)) {
      EveryGet calls = new EveryGet(service.api());
      before = settled(calls);
      assertEquals(NOT_IN_THE_DEMO, calls.withoutIds());
      second = restored(first, copies.resolve("second"));
    }
    assertTrue(before.size() > 70, before.keySet().toString());
    long good = before.values().stream().filter(answer -> answer.startsWith("20")).count();
    assertEquals(before.size(), good, () -> failures(before));
    try (RunningService service = onCopy(second, clock)) {
      EveryGet calls = new EveryGet(service.api());
      await()
          .atMost(SETTLED)
          .untilAsserted(() -> assertEquals(List.of(), different(before, calls.answers())));
    }
  }

  private static Path restored(Path data, Path folder) throws IOException {
    Path file = folder.resolveSibling(folder.getFileName() + ".zip");
    new BackupWriter(Clock.systemUTC()).write(BackupCommand.source(copyOf(data), false), file);
    FolderRestore.restore(file, folder);
    return folder;
  }

  private static Config copyOf(Path data) {
    return RunningService.config(data, "embedded", Ports.free(), Map.of("timeZone", ZONE.getId()));
  }

  private static RunningService onCopy(Path data, Clock clock) {
    return RunningService.start(copyOf(data), clock);
  }

  /**
   * The answers once two in a row are the same: the first checks after a start may raise alerts.
   */
  private static Map<String, String> settled(EveryGet calls) {
    AtomicReference<Map<String, String>> last = new AtomicReference<>(calls.answers());
    await()
        .atMost(SETTLED)
        .until(
            () -> {
              Map<String, String> now = calls.answers();
              return now.equals(last.getAndSet(now));
            });
    return last.get();
  }

  private static List<String> different(Map<String, String> before, Map<String, String> after) {
    Set<String> paths = new TreeSet<>(before.keySet());
    paths.addAll(after.keySet());
    return paths.stream()
        .filter(path -> !Objects.equals(before.get(path), after.get(path)))
        .map(path -> path + "\n  " + before.get(path) + "\n  " + after.get(path))
        .toList();
  }

  private static String failures(Map<String, String> answers) {
    return answers.entrySet().stream()
        .filter(answer -> !answer.getValue().startsWith("20"))
        .toList()
        .toString();
  }

  @Test
  void theRoomIsThere() {
    JsonNode temperature = api.get("/api/room").path("temperature");
    assertTrue(temperature.path("at").size() > 100, temperature.toString());
  }

  @Test
  void liveReadingsArrive() {
    await()
        .atMost(Duration.ofSeconds(30))
        .untilAsserted(
            () -> {
              String last = api.get("/api/sensors/shed-room").path("lastHeard").asText();
              assertTrue(Instant.parse(last).isAfter(filledAt), last);
            });
  }

  @Test
  void anOpeningCanBeRecordedAfterwardsButNotAhead() {
    String path = "/api/containers/lychee-tray-b/openings";
    // No light then, so that no event of the other tests becomes an opening.
    String past = filledAt.minus(Duration.ofHours(3)).toString();
    JsonNode opening = api.post(path, "{\"minutes\":10,\"from\":\"" + past + "\"}");
    assertEquals(past, opening.path("from").asText());
    String future = filledAt.plus(Duration.ofHours(1)).toString();
    Api.Answer ahead = api.call("POST", path, "{\"from\":\"" + future + "\"}");
    assertEquals(400, ahead.status());
    assertTrue(ahead.text().contains("future"), ahead.text());
    assertEquals(400, api.call("POST", path, "{\"from\":\"yesterday\"}").status());
  }
}
