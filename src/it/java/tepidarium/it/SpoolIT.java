package tepidarium.it;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The whole service with its readings in a real InfluxDB that comes and goes. */
class SpoolIT {
  private static final Duration SOON = Duration.ofSeconds(30);
  private static final String DATABASE = "tepidarium";
  private static final String SENSOR = "bag";
  private static final String TOPIC = "tepidarium/" + SENSOR;

  private final Path folder;
  private final Path data;
  private final Instant start = Instant.now().truncatedTo(ChronoUnit.HOURS).minusSeconds(86_400);
  private Influx influx;

  SpoolIT(@TempDir Path folder) {
    this.folder = folder;
    data = folder.resolve("data");
  }

  @BeforeEach
  void startTheStore() {
    influx = Influx.started(folder.resolve("influx"));
  }

  @AfterEach
  void stopTheStore() {
    influx.close();
  }

  private String reading(int second) {
    return "{\"temperature\":" + temperature(second) + ",\"at\":\"" + at(second) + "\"}";
  }

  private Instant at(int second) {
    return start.plusSeconds(second);
  }

  private static double temperature(int second) {
    return 20 + second % 100 / 10.0;
  }

  private String backlog(int from, int to) {
    return IntStream.range(from, to).mapToObj(this::reading).toList().toString();
  }

  private RunningService service() {
    return RunningService.withInflux(data, influx.address(DATABASE));
  }

  private ServiceProcess process(int port, Map<String, String> more) {
    Map<String, String> settings = new java.util.HashMap<>(more);
    settings.put("TEPIDARIUM_INFLUX_URL", influx.address(DATABASE).url());
    return ServiceProcess.start(data, port, "embedded", settings);
  }

  private static void awaitWaiting(Grower grower, long readings) {
    awaitCount(grower, "waiting", readings);
  }

  private static void awaitCount(Grower grower, String name, long readings) {
    await().atMost(SOON).until(() -> grower.count(name) == readings);
  }

  private static void assertAllCounted(Grower grower) {
    await().atMost(SOON).untilAsserted(() -> assertSumOfCounts(grower));
  }

  private static void assertSumOfCounts(Grower grower) {
    JsonNode counts = grower.api().get("/api/health").get("counts");
    long ends = 0;
    for (String name : List.of("stored", "repeated", "rejected", "waiting")) {
      ends += counts.get(name).longValue();
    }
    assertEquals(counts.get("received").longValue(), ends, counts::toString);
  }

  @Test
  void readingsGoToInfluxAndComeBackAsHeat() {
    try (RunningService service = service()) {
      Grower grower = new Grower(service.api());
      grower.awaitBroker();
      String container = grower.container("bag");
      grower.place(SENSOR, container, start);
      Publisher.to(service.mqttPort())
          .send(
              TOPIC,
              ("[{\"temperature\":30,\"at\":\"%s\"},{\"temperature\":30,\"at\":\"%s\"},"
                      + "{\"temperature\":20,\"at\":\"%s\"}]")
                  .formatted(at(0), at(1_500), at(3_000)));
      await().atMost(SOON).until(() -> influx.count(DATABASE, "temperature") == 3);

      String span = "?base=10&from=" + at(0) + "&to=" + at(3_000);
      JsonNode heat = service.api().get("/api/containers/" + container + "/heat" + span);
      assertEquals(
          (20 * 1_500 + 15 * 1_500) / 3_600.0, heat.get("degreeHours").doubleValue(), 1e-9);
      assertEquals(
          "up: writing to InfluxDB at " + influx.address("").url(), grower.part("readings"));
      assertAllCounted(grower);
    }
  }

  @Test
  void whileInfluxIsAwayReadingsAreKeptAndGoOverOnceItIsBack() {
    try (RunningService service = service()) {
      Grower grower = new Grower(service.api());
      grower.awaitBroker();
      String container = grower.container("bag");
      grower.place(SENSOR, container, start);
      Publisher publisher = Publisher.to(service.mqttPort());
      publisher.send(TOPIC, backlog(0, 1_000));
      await().atMost(SOON).until(() -> grower.count("stored") == 1_000);
      String sowing = sow(service.api(), container);
      assertEquals(200, service.api().call("GET", sowing, null).status());

      influx.kill();
      publisher.send(TOPIC, backlog(500, 2_000));
      publisher.send(TOPIC, backlog(1_900, 3_000));

      awaitWaiting(grower, 2_600);
      grower.awaitReadingsPart(
          SOON,
          "down: InfluxDB has not answered since 20",
          "2600 readings are kept on this disk (0.");
      assertEquals("degraded", service.api().get("/api/health").get("status").textValue());
      assertAllCounted(grower);
      Api.Answer history =
          service.api().call("GET", "/api/containers/" + container + "/readings", null);
      assertEquals(503, history.status());
      assertTrue(history.type().startsWith("application/problem+json"), history.type());
      // The heat until the first check may be cached; the heat until a new check must be read.
      check(service.api(), at(1_200));
      assertEquals(503, service.api().call("GET", sowing, null).status());
      JsonNode now = service.api().get("/api/containers/" + container);
      assertEquals(
          temperature(2_999), now.get("latest").get("temperature").get("value").doubleValue());
      assertTrue(now.get("heat").isNull());

      influx.start();
      awaitWaiting(grower, 0);
      grower.awaitReadingsPart(SOON, "up: writing", "");
      assertEquals(3_000, influx.count(DATABASE, "temperature"));
      awaitCount(grower, "stored", 3_000);
      awaitCount(grower, "repeated", 600);
      assertAllCounted(grower);
      assertEquals(
          temperature(2_500),
          grower.values(container, "temperature", at(2_000), at(3_000)).get(at(2_500)));
    }
  }

  /** A sowing of a species with a base of its own; where its heat is told. */
  private String sow(Api api, String container) {
    api.post(
        "/api/species",
        "{\"name\":\"Oil nut\",\"figures\":{\"base\":{\"value\":12,\"source\":\"own results\"}}}");
    String seeds =
        "{\"species\":\"oil-nut\",\"seeds\":9,\"from\":\"plant\",\"gatheredAt\":\"" + at(0);
    int lot = api.post("/api/lots", seeds + "\"}").get("id").intValue();
    String group = "{\"container\":\"" + container + "\",\"seeds\":9}";
    String sown = "{\"lot\":" + lot + ",\"groups\":[" + group + "],\"at\":\"" + at(0) + "\"}";
    api.post("/api/sowings", sown);
    check(api, at(900));
    return "/api/sowings/1/heat-course";
  }

  private static void check(Api api, Instant at) {
    api.post("/api/groups/1-1/checks", "{\"germinated\":2,\"at\":\"" + at + "\"}");
  }

  @Test
  void readingsThatArriveWhileInfluxComesAndGoesAreAllThereOnce() {
    try (RunningService service = service()) {
      Grower grower = new Grower(service.api());
      grower.awaitBroker();
      Publisher publisher = Publisher.to(service.mqttPort());
      for (int round = 0; round < 4; round++) {
        int from = round * 2_000;
        publisher.lines(TOPIC, IntStream.range(from, from + 500).mapToObj(this::reading).toList());
        if (round % 2 == 0) {
          influx.kill();
        } else {
          influx.start();
        }
        publisher.send(TOPIC, backlog(from + 500, from + 2_000));
      }

      awaitWaiting(grower, 0);
      await().atMost(SOON).until(() -> grower.count("received") == 8_000);
      await().atMost(SOON).until(() -> influx.count(DATABASE, "temperature") == 8_000);
      await().atMost(SOON).until(() -> grower.count("stored") + grower.count("repeated") == 8_000);
      assertAllCounted(grower);
    }
  }

  @Test
  void theServiceStartsWithoutInflux() {
    influx.kill();
    try (RunningService service = service()) {
      Grower grower = new Grower(service.api());
      grower.awaitBroker();
      grower.awaitReadingsPart(
          SOON, "down: InfluxDB has not answered since", "0 readings are kept");
      Publisher.to(service.mqttPort()).send(TOPIC, reading(0));
      awaitWaiting(grower, 1);

      influx.start();
      grower.awaitReadingsPart(SOON, "up: writing", "");
      assertEquals(1, influx.count(DATABASE, "temperature"));
    }
  }

  @Test
  void olderReadingsAreKnownOnceInfluxIsBack() {
    try (RunningService service = service()) {
      Grower grower = new Grower(service.api());
      grower.awaitBroker();
      Publisher.to(service.mqttPort()).send(TOPIC, reading(0));
      // Only then has the broker the acknowledgement, and does not send the reading again.
      await().atMost(SOON).until(() -> grower.count("stored") == 1);
    }
    influx.kill();
    try (RunningService service = service()) {
      assertEquals(0, service.api().get("/api/sensors").size());

      influx.start();

      await().atMost(SOON).until(() -> service.api().get("/api/sensors").size() == 1);
    }
  }

  @Test
  void readingsThatInfluxRefusesLandInTheRejectLogAndNothingElseWaits() {
    influx.run("", "CREATE DATABASE " + DATABASE + " WITH DURATION 3d");
    influx.write(DATABASE, "reading,sensor=x humidity=\"damp\" " + at(0).toEpochMilli());
    try (RunningService service = service()) {
      Grower grower = new Grower(service.api());
      grower.awaitBroker();
      Publisher publisher = Publisher.to(service.mqttPort());
      String wrong = "{\"humidity\":96.5,\"at\":\"" + at(1) + "\"}";
      String old = "{\"temperature\":30,\"at\":\"" + start.minus(20, ChronoUnit.DAYS) + "\"}";

      publisher.send(TOPIC, "[" + wrong + "," + reading(2) + "," + old + "]");
      await().atMost(SOON).until(() -> grower.count("rejected") == 2);
      awaitCount(grower, "stored", 1);
      List<String> reasons = grower.rejects(TOPIC);
      assertTrue(reasons.toString().contains("field type conflict"), reasons::toString);
      assertTrue(reasons.toString().contains("beyond retention policy"), reasons::toString);

      influx.kill();
      publisher.send(TOPIC, "[" + wrong + "," + reading(3) + "]");
      awaitWaiting(grower, 2);
      influx.start();
      awaitWaiting(grower, 0);
      awaitCount(grower, "rejected", 3);
      assertEquals(3, grower.rejects(TOPIC).size());
      JsonNode line = service.api().get("/api/rejects").get("rejects").get(0);
      assertEquals("{\"humidity\":96.5,\"at\":\"" + at(1) + "\"}", line.get("payload").textValue());
      assertEquals(2, influx.count(DATABASE, "temperature"));
      assertAllCounted(grower);
    }
  }

  @Test
  void spooledReadingsSurviveAKilledService() {
    int port = Ports.free();
    influx.kill();
    Publisher publisher = Publisher.to(port);
    try (ServiceProcess service = process(port, Map.of())) {
      publisher.send(TOPIC, backlog(0, 2_000));
      awaitWaiting(service.grower(), 2_000);
      publisher.lines(TOPIC, IntStream.range(2_000, 2_200).mapToObj(this::reading).toList());
      service.kill();
    }
    try (RunningService service =
        RunningService.withInflux(data, influx.address(DATABASE), port, 64)) {
      Grower grower = new Grower(service.api());
      await().atMost(SOON).until(() -> grower.count("waiting") >= 2_200);
      grower.awaitReadingsPart(SOON, "down: InfluxDB has not answered since", "readings are kept");

      influx.start();

      awaitWaiting(grower, 0);
      assertEquals(2_200, influx.count(DATABASE, "temperature"));
      assertAllCounted(grower);
    }
  }

  @Test
  void aFullSpoolTakesNothingMoreAndTheBrokerKeepsTheRest() {
    int port = Ports.free();
    influx.kill();
    Publisher publisher = Publisher.to(port);
    Map<String, String> small = Map.of("TEPIDARIUM_SPOOL_MAX_MEGABYTES", "1");
    // A spool of 1 MB holds 33,000 of these.
    int readings = 40_000;
    try (ServiceProcess service = process(port, small)) {
      for (int from = 0; from < readings; from += 2_000) {
        publisher.send(TOPIC, backlog(from, from + 2_000));
      }
      Grower grower = service.grower();
      grower.awaitReadingsPart(
          SOON, "down: the spool or its disk is full", "New readings are rejected");
      await().atMost(SOON).until(() -> grower.count("waiting") == readings);
      service.kill();
    }
    try (RunningService service =
        RunningService.withInflux(data, influx.address(DATABASE), port, 1)) {
      Grower grower = new Grower(service.api());
      influx.start();

      await()
          .atMost(Duration.ofMinutes(1))
          .untilAsserted(
              () ->
                  assertEquals(
                      readings,
                      influx.count(DATABASE, "temperature"),
                      grower.api().get("/api/health")::toString));
      awaitWaiting(grower, 0);
      grower.awaitReadingsPart(SOON, "up: writing", "");
      assertAllCounted(grower);
    }
  }
}
