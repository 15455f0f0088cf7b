package tepidarium.it;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Alerts from the sensor's message to the lamp's, on a clock that the test moves. */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class AlertIT {
  private static final Duration SOON = Duration.ofSeconds(20);
  private static final String GOOD = "{\"temperature\":31,\"humidity\":95,\"light\":0,\"at\":\"";

  private final MovableClock clock = new MovableClock(Instant.parse("2026-03-01T12:00:00Z"));
  private Path data;
  private int mqttPort;
  private RunningService service;
  private Grower grower;
  private String sensor;
  private String container;

  /** When the test begins; minutes count from here. */
  private Instant start;

  private int tests;

  @BeforeAll
  void startTheService(@TempDir Path folder) {
    data = folder;
    mqttPort = Ports.free();
    start();
  }

  private void start() {
    service = RunningService.start(RunningService.config(data, "embedded", mqttPort), clock);
    grower = new Grower(service.api());
    grower.awaitBroker();
  }

  @AfterAll
  void stopTheService() {
    service.close();
  }

  @BeforeEach
  void placeAFreshSensor() {
    start = clock.instant().plusSeconds(7_200);
    clock.set(start);
    sensor = "sensor-" + ++tests;
    container = grower.container("Bag " + tests);
    grower.place(sensor, container, start);
  }

  private Instant minute(double minute) {
    return start.plusMillis(Math.round(minute * 60_000));
  }

  /** Sends a value every half minute of the stretch, both ends included, and awaits it. */
  private void report(String quantity, double value, int fromMinute, int toMinute) {
    long received = grower.count("received");
    Publisher publisher = Publisher.to(mqttPort);
    StringBuilder backlog = new StringBuilder("[");
    for (double minute = fromMinute; minute <= toMinute; minute += 0.5) {
      backlog
          .append(minute > fromMinute ? "," : "")
          .append("{\"" + quantity + "\":" + value + ",\"at\":\"" + minute(minute) + "\"}");
    }
    clock.set(minute(toMinute));
    publisher.send("tepidarium/" + sensor, backlog.append(']').toString());
    int readings = 2 * (toMinute - fromMinute) + 1;
    await()
        .atMost(SOON)
        .until(
            () -> grower.count("received") >= received + readings && grower.count("waiting") == 0);
    await()
        .atMost(SOON)
        .until(() -> latest(quantity).get("at").textValue().equals(minute(toMinute).toString()));
  }

  private JsonNode latest(String quantity) {
    return show().get("latest").get(quantity);
  }

  private JsonNode show() {
    return service.api().get("/api/containers/" + container);
  }

  private String limit(String kind) {
    return show().get("limits").get(kind).textValue();
  }

  /** This container's alerts of a kind among those in a state. */
  private List<JsonNode> alerts(String state, String kind) {
    return service
        .api()
        .get("/api/alerts?state=" + state)
        .valueStream()
        .filter(alert -> alert.get("container").textValue().equals(container))
        .filter(alert -> alert.get("kind").textValue().equals(kind))
        .toList();
  }

  private JsonNode theAlert(String state, String kind) {
    await().atMost(SOON).until(() -> alerts(state, kind).size() == 1);
    return alerts(state, kind).get(0);
  }

  private void awaitRetained(String kind, String words) {
    String topic = "tepidarium/alert/" + container + "/" + kind;
    await()
        .atMost(SOON)
        .until(() -> Subscriber.to(mqttPort).retained(topic), text -> text.contains(words));
  }

  private JsonNode post(JsonNode alert, String what, String body) {
    return service.api().post("/api/alerts/" + alert.get("id") + "/" + what, body);
  }

  @ParameterizedTest
  @CsvSource({
    "cold,  temperature, 25,  29.6, 31, 10, 10",
    "hot,   temperature, 36,  33.9, 32, 10, 10",
    "light, light,       120, 120,  0,   1,  2",
    "dry,   humidity,    60,  81,   95, 30, 10",
    "staleAir, co2, 30000, 19800, 900, 60, 30",
    "dryMedium, mediumMoisture, 12, 21, 45, 60, 30",
  })
  void anAlertIsRaisedReturnsAndIsClosed(
      String kind, String quantity, double bad, double stillBad, double good, int on, int off) {
    report(quantity, bad, 0, on - 1);
    await().atMost(SOON).until(() -> limit(kind).equals("outside"));
    assertEquals(List.of(), alerts("all", kind));

    report(quantity, bad, on, on);
    JsonNode alert = theAlert("open", kind);
    assertEquals("active", alert.get("state").textValue());
    assertEquals(start.toString(), alert.get("since").textValue());
    assertEquals(minute(on).toString(), alert.get("raisedAt").textValue());
    assertEquals("alert", limit(kind));
    assertTrue(show().get("alerts").findValues("id").contains(alert.get("id")));
    awaitRetained(kind, "\"state\":\"active\"");

    // Inside again, but not by the deadband, it does not return; nor before the off-delay.
    report(quantity, stillBad, on + 1, on + 11);
    report(quantity, good, on + 12, on + 11 + off);
    assertEquals(1, alerts("active", kind).size());

    report(quantity, good, on + 12 + off, on + 12 + off);
    JsonNode returned = theAlert("returned", kind);
    assertEquals(minute(on + 12 + off).toString(), returned.get("returnedAt").textValue());
    assertEquals(bad, returned.get("worst").doubleValue());
    assertEquals("inside", limit(kind));
    awaitRetained(kind, "\"state\":\"returned\"");

    post(returned, "acknowledge", "{\"by\":\"Ada\"}");
    assertEquals(List.of(), alerts("open", kind));
    assertEquals("Ada", theAlert("all", kind).get("acknowledgedBy").textValue());
    awaitRetained(kind, "\"acknowledgedBy\":\"Ada\"");
  }

  @Test
  void shelvingHidesAnAlertUntilItEnds() {
    report("temperature", 25, 0, 10);
    JsonNode alert = theAlert("open", "cold");

    post(alert, "shelve", "{\"minutes\":20}");
    assertEquals(List.of(), alerts("open", "cold"));
    assertEquals(1, alerts("shelved", "cold").size());
    clock.set(minute(29));
    assertEquals(List.of(), alerts("open", "cold"));

    clock.set(minute(30));
    assertEquals(1, alerts("open", "cold").size());
    // The lamp, too, learns that the time is over.
    awaitRetained("cold", "\"shelvedUntil\":null");
  }

  @Test
  void aSensorThatWasNeverHeardIsSilentAfterTheLimit() {
    clock.set(minute(31));
    assertEquals("active", theAlert("open", "silent").get("state").textValue());
  }

  @Test
  void theClockAloneRaisesSilence() {
    report("temperature", 31, 0, 0);
    clock.set(minute(30));
    await().atMost(SOON).until(() -> limit("silent").equals("inside"));
    assertEquals(List.of(), alerts("open", "silent"));

    clock.set(minute(31));
    assertEquals("active", theAlert("open", "silent").get("state").textValue());
    awaitRetained("silent", "\"state\":\"active\"");

    report("temperature", 31, 32, 32);
    assertEquals("returned", theAlert("returned", "silent").get("state").textValue());
  }

  @Test
  void aRestartKeepsTheAlertAndRaisesNoSecond() {
    report("temperature", 25, 0, 10);
    report("light", 50, 0, 2);
    post(theAlert("open", "light"), "acknowledge", "{}");
    JsonNode before = theAlert("open", "cold");
    service.close();

    start();
    assertEquals(before, theAlert("open", "cold"));
    assertTrue(theAlert("active", "light").get("acknowledged").booleanValue());
    report("temperature", 24, 11, 30);
    await().atMost(SOON).until(() -> limit("cold").equals("alert"));
    assertEquals(1, alerts("all", "cold").size());
    assertEquals(24, theAlert("open", "cold").get("worst").doubleValue());

    report("temperature", 31, 31, 41);
    theAlert("returned", "cold");
  }

  @Test
  void anOpeningExcusesLightAndColdButNotHeat() {
    service.api().post("/api/containers/" + container + "/openings", "{\"minutes\":30}");
    report("light", 300, 1, 12);
    report("temperature", 25, 1, 12);
    assertEquals(List.of(), alerts("all", "light"));
    assertEquals(List.of(), alerts("all", "cold"));
    report("temperature", 36, 13, 24);
    theAlert("open", "hot");

    report("light", 300, 31, 33);
    theAlert("open", "light");
  }

  @Test
  void aRunningDelayGoesOnAfterARestart() {
    report("temperature", 25, 0, 6);
    service.close();
    start();
    report("temperature", 25, 10, 10);
    JsonNode alert = theAlert("open", "cold");
    assertEquals(start.toString(), alert.get("since").textValue());

    report("temperature", 31, 11, 15);
    service.close();
    start();
    report("temperature", 31, 21, 21);
    theAlert("returned", "cold");
    assertEquals(List.of("raised", "returned"), transitions(alert));
  }

  /** What happened to an alert, in its order. */
  private List<String> transitions(JsonNode alert) {
    return service
        .api()
        .get("/api/alerts/" + alert.get("id"))
        .get("transitions")
        .valueStream()
        .map(one -> one.get("what").textValue())
        .toList();
  }

  @Test
  void silenceNeitherEndsNorIsAnnouncedAgainAfterARestart() {
    report("temperature", 31, 0, 0);
    clock.set(minute(31));
    JsonNode alert = theAlert("open", "silent");
    service.close();
    start();
    clock.set(minute(33));
    await().atMost(SOON).until(() -> limit("silent").equals("alert"));
    report("temperature", 31, 40, 40);
    theAlert("returned", "silent");
    assertEquals(List.of("raised", "returned"), transitions(alert));
  }

  @Test
  void rulesOfOneContainerHoldAfterARestart() {
    String path = "/api/containers/" + container + "/alert-rules";
    service
        .api()
        .put(
            path,
            "{\"by\":\"Ada\",\"reason\":\"draughty\",\"rules\":{\"cold\":{\"onDelayMinutes\":20,"
                + "\"priority\":\"low\"},\"light\":{\"inService\":false}}}");
    service.close();
    start();
    JsonNode rules = service.api().get(path).get("rules");
    assertEquals(20, rules.at("/cold/effective/onDelayMinutes").doubleValue());
    assertEquals(10, rules.at("/cold/defaults/onDelayMinutes").doubleValue());
    assertEquals("draughty", rules.at("/light/outOfService/reason").textValue());

    report("temperature", 25, 0, 15);
    report("light", 300, 16, 19);
    await().atMost(SOON).until(() -> limit("cold").equals("outside"));
    report("temperature", 25, 20, 20);
    assertEquals("low", theAlert("open", "cold").get("priority").textValue());
    assertEquals(List.of(), alerts("all", "light"));

    service.api().put(path, "{\"rules\":{\"light\":{\"inService\":true}}}");
    clock.set(minute(21));
    report("light", 300, 22, 24);
    theAlert("open", "light");
  }

  @Test
  void anExcursionDuringAnOpeningIsMarked() {
    service.api().post("/api/containers/" + container + "/openings", "{\"minutes\":10}");
    report("light", 0, 0, 1);
    report("light", 300, 2, 5);
    report("light", 0, 6, 40);
    report("light", 300, 41, 43);
    report("light", 0, 44, 50);
    String span = "?from=" + start + "&to=" + minute(50);
    JsonNode band = service.api().get("/api/containers/" + container + "/band" + span);
    assertEquals(
        List.of(true, false),
        band.get("excursions")
            .valueStream()
            .map(one -> one.get("duringOpening").booleanValue())
            .toList());
  }

  @Test
  void aButtonOpensAndClosesAContainer() {
    clock.set(minute(0));
    String topic = "tepidarium/opening/" + container;
    Publisher button = Publisher.to(mqttPort);
    button.send(topic, "30");
    await().atMost(SOON).until(() -> !show().get("opening").isNull());
    report("light", 300, 1, 12);
    assertEquals(List.of(), alerts("all", "light"));

    button.send(topic, "0");
    await().atMost(SOON).until(() -> show().get("opening").isNull());
    JsonNode opening = service.api().get("/api/containers/" + container + "/openings").get(0);
    assertEquals(minute(0).toString(), opening.get("from").textValue());
    assertEquals(minute(12).toString(), opening.get("until").textValue());
    report("light", 300, 13, 15);
    theAlert("open", "light");
  }

  @Test
  void anInvalidButtonMessageIsLogged() {
    Publisher button = Publisher.to(mqttPort);
    button.send("tepidarium/opening/" + container, "soon");
    button.send("tepidarium/opening/attic-" + tests, "5");
    button.retained().send("tepidarium/opening/kept-" + tests, "5");
    awaitReject("tepidarium/opening/" + container, "send minutes from 0");
    awaitReject("tepidarium/opening/attic-" + tests, "there is no container");
    button.send("tepidarium/opening", "5");
    awaitReject("tepidarium/opening", "not the topic of a sensor");
    assertTrue(show().get("opening").isNull());
  }

  private void awaitReject(String topic, String words) {
    await()
        .atMost(SOON)
        .until(() -> grower.rejects(topic).stream().anyMatch(line -> line.contains(words)));
  }

  @Test
  void lateReadingsRaiseNothing() {
    clock.set(minute(120));
    long stored = grower.settledCount("stored");
    Publisher.to(mqttPort)
        .lines(
            "tepidarium/" + sensor,
            IntStream.rangeClosed(0, 50)
                .mapToObj(m -> "{\"temperature\":20,\"light\":300,\"at\":\"" + minute(m) + "\"}")
                .toList());
    Publisher.to(mqttPort).send("tepidarium/" + sensor, GOOD + minute(120) + "\"}");

    await().atMost(SOON).until(() -> grower.count("stored") == stored + 52);
    await().atMost(SOON).until(() -> limit("cold").equals("inside"));
    JsonNode cold = theAlert("history", "cold");
    assertTrue(cold.get("foundLate").booleanValue());
    assertEquals(minute(0).toString(), cold.get("since").textValue());
    assertEquals(minute(50).toString(), cold.get("returnedAt").textValue());
    assertEquals(List.of("foundLate"), transitions(cold));
    theAlert("history", "light");
    assertEquals(List.of(), alerts("open", "cold"));
    assertEquals(List.of(), alerts("open", "light"));
    String kept = Subscriber.to(mqttPort).retained("tepidarium/alert/" + container + "/cold");
    assertTrue(!kept.contains("{"), kept);
  }
}
