package tepidarium.it;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertAll;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Map;
import org.eclipse.paho.mqttv5.client.MqttClient;
import org.eclipse.paho.mqttv5.client.persist.MemoryPersistence;
import org.eclipse.paho.mqttv5.common.MqttException;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import tepidarium.app.Config;
import tepidarium.ingest.mqtt.BrokerLimits;
import tepidarium.ingest.mqtt.EmbeddedBroker;
import tepidarium.ingest.mqtt.OpenAccounts;
import tepidarium.ingest.mqtt.SensorPorts;

/** The broker inside the service, as sensors and strangers meet it. */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class BrokerIT {
  private static final Duration SOON = Duration.ofSeconds(15);

  private static final Map<String, String> ACCOUNTS =
      Map.of("bag-1", "right", "bag-2", "two", "lamp", "light", "guessed", "secret");
  private static final Map<String, Map<String, List<String>>> GRANTS =
      Map.of(
          "lamp",
          Map.of(
              "publish", List.of("tepidarium/opening/jar"), "read", List.of("tepidarium/alert/#")));

  private RunningService open;
  private RunningService closed;
  private Publisher anybody;

  @BeforeAll
  void startOneOpenAndOneClosedService(@TempDir Path folder) {
    open = RunningService.embedded(folder.resolve("open"));
    closed =
        RunningService.start(
            RunningService.config(
                folder.resolve("closed"),
                "embedded",
                Ports.free(),
                Map.of("accounts", ACCOUNTS, "grants", GRANTS)),
            Clock.tickMillis(ZoneOffset.UTC));
    anybody = Publisher.to(open.mqttPort());
    new Grower(open.api()).awaitBroker();
    new Grower(closed.api()).awaitBroker();
  }

  private static Config config(Path data, int port, Map<String, String> accounts) {
    return RunningService.config(data, "embedded", port, Map.of("accounts", accounts));
  }

  @AfterAll
  void stopBoth() {
    open.close();
    closed.close();
  }

  private static void awaitHeard(RunningService service, String sensor) {
    await()
        .atMost(SOON)
        .until(
            () ->
                service
                    .api()
                    .get("/api/sensors")
                    .valueStream()
                    .anyMatch(line -> line.get("sensor").textValue().equals(sensor)));
  }

  @Test
  void clientsOfBothVersionsAreHeard() {
    anybody.send("tepidarium/old", "{\"temperature\":30}");
    anybody.version5().send("tepidarium/new", "{\"temperature\":30}");
    anybody.qos(2).send("tepidarium/twice", "{\"temperature\":30}");

    awaitHeard(open, "old");
    awaitHeard(open, "new");
    awaitHeard(open, "twice");
  }

  @Test
  void aForbiddenTopicIsLoggedAndTheConnectionStays() throws MqttException {
    MqttClient sensor =
        new MqttClient(
            "tcp://127.0.0.1:" + open.mqttPort(), "careless-sensor", new MemoryPersistence());
    sensor.setTimeToWait(SOON.toMillis());
    sensor.connect();
    byte[] payload = "{\"temperature\":30}".getBytes(StandardCharsets.UTF_8);
    sensor.publish("teepidarium/bag", payload, 1, false);
    sensor.publish("teepidarium/light", payload, 0, false);

    sensor.publish("tepidarium/careless", payload, 1, false);
    assertTrue(sensor.isConnected());
    sensor.disconnect();
    sensor.close();

    awaitHeard(open, "careless");
    for (String topic : List.of("teepidarium/bag", "teepidarium/light")) {
      awaitReject(topic);
    }
  }

  private void awaitReject(String topic) {
    String words = "\"" + topic + "\" is not read by this service: publish to tepidarium/<sensor>";
    Grower grower = new Grower(open.api());
    await()
        .atMost(SOON)
        .until(() -> grower.rejects(topic).stream().anyMatch(line -> line.startsWith(words)));
  }

  @Test
  void aForbiddenTopicOfAnMqtt3ClientIsLogged() {
    anybody.attempt("elsewhere/bag", "{\"temperature\":30}");

    awaitReject("elsewhere/bag");
  }

  @Test
  void anMqtt5ClientGetsTheErrorOfAForbiddenTopic() {
    String said = anybody.version5().attempt("elsewhere/tray", "{\"temperature\":30}");

    assertTrue(said.contains("Not authorized"), said);
    awaitReject("elsewhere/tray");
  }

  @Test
  void theRightPasswordLetsASensorIn() {
    Publisher.to(closed.mqttPort()).as("bag-1", "right").send("tepidarium/bag-1", "{\"light\":0}");

    awaitHeard(closed, "bag-1");
  }

  @Test
  void aWrongPasswordOrNoneIsRefused() {
    Publisher sensor = Publisher.to(closed.mqttPort());
    for (Publisher refused :
        List.of(
            sensor,
            sensor.as("bag-1", "wrong"),
            sensor.as("bag-2", "right"),
            sensor.as("tepidarium-service", "right"))) {
      String said = refused.attempt("tepidarium/unknown", "{\"light\":0}");
      assertTrue(said.contains("Refused: not authorised"), said);
    }
    String said =
        Subscriber.to(closed.mqttPort()).as("bag-1", "wrong").attempt("tepidarium/unknown");
    assertTrue(said.contains("Bad User Name or Password"), said);
    Publisher.to(closed.mqttPort()).as("bag-1", "right").send("tepidarium/bag-1", "{\"light\":0}");
    awaitHeard(closed, "bag-1");
    assertEquals(404, closed.api().call("GET", "/api/sensors/unknown", null).status());
  }

  private RawMqtt loggedIn(String account, String clientId, int expirySeconds) throws IOException {
    RawMqtt client = new RawMqtt(closed.mqttPort(), 5);
    String password = ACCOUNTS.get(account);
    assertEquals(0, client.connect(clientId, account, password, null, expirySeconds).reason());
    return client;
  }

  @Test
  void anAccountPublishesToItsOwnAndGrantedTopics() throws IOException {
    try (RawMqtt bag = loggedIn("bag-1", "publishing", 0)) {
      assertEquals(0, bag.publish("tepidarium/bag-1", "{\"light\":0}").reason());
      assertEquals(0, bag.publish("tepidarium/bag-1/temperature", "30").reason());
      for (String foreign :
          List.of(
              "tepidarium/bag-2", "tepidarium/opening/jar", "tepidarium/status", "else/bag-1")) {
        assertEquals(0x87, bag.publish(foreign, "{\"light\":0}").reason(), foreign);
      }
    }
    try (RawMqtt lamp = loggedIn("lamp", "opening", 0)) {
      assertEquals(0, lamp.publish("tepidarium/opening/jar", "").reason());
      assertEquals(0x87, lamp.publish("tepidarium/opening/bag", "").reason());
    }
    Grower grower = new Grower(closed.api());
    await()
        .atMost(SOON)
        .untilAsserted(
            () -> {
              List<String> reasons = grower.rejects("tepidarium/bag-2");
              assertTrue(
                  reasons.stream().anyMatch(r -> r.contains("\"bag-1\" may not publish")),
                  reasons::toString);
            });
  }

  @Test
  void anAccountReadsItsOwnAndGrantedTopics() throws IOException {
    try (RawMqtt bag = loggedIn("bag-1", "reading", 0)) {
      assertEquals(1, bag.subscribe("tepidarium/bag-1/#").granted());
      for (String foreign : List.of("tepidarium/#", "tepidarium/bag-2", "tepidarium/+", "#")) {
        assertEquals(0x87, bag.subscribe(foreign).granted(), foreign);
      }
    }
    try (RawMqtt lamp = loggedIn("lamp", "watching", 0)) {
      assertEquals(1, lamp.subscribe("tepidarium/alert/jar/+").granted());
      assertEquals(0x87, lamp.subscribe("tepidarium/+/jar").granted());
    }
  }

  @Test
  void anotherAccountCannotTakeOverAClientId() throws IOException {
    try (RawMqtt owner = loggedIn("bag-1", "shared-id", 3_600)) {
      try (RawMqtt thief = new RawMqtt(closed.mqttPort(), 5)) {
        assertEquals(0x85, thief.connect("shared-id", "bag-2", "two", null, 0).reason());
      }
      assertEquals(0, owner.publish("tepidarium/bag-1", "{\"light\":0}").reason());
    }
    // Its session is kept for an hour and stays its own.
    try (RawMqtt thief = new RawMqtt(closed.mqttPort(), 5)) {
      assertEquals(0x85, thief.connect("shared-id", "bag-2", "two", null, 0).reason());
    }
    loggedIn("bag-1", "shared-id", 0).close();
  }

  @Test
  void passwordGuessingIsSlowedAndReported() throws IOException {
    loggedIn("guessed", "sensor-of-guessed", 0).close();
    for (int guess = 1; guess <= 6; guess++) {
      try (RawMqtt thief = new RawMqtt(closed.mqttPort(), 5)) {
        String password = guess < 6 ? "guess-" + guess : "secret";
        int reason = thief.connect("thief", "guessed", password, null, 0).reason();
        assertEquals(guess < 6 ? 0x86 : 0x9F, reason);
      }
    }
    loggedIn("bag-1", "not-slowed", 0).close();
    loggedIn("guessed", "sensor-of-guessed", 0).close();
    String said = new Grower(closed.api()).part("logins");
    assertTrue(said.contains(" logins refused within the last hour, the last one from "), said);
  }

  @ParameterizedTest
  @ValueSource(strings = {"#", "+/#", "+/bag", "teepidarium/#", "$SYS/#", "activemq.notifications"})
  void aSensorCannotListenOutsideTheRoot(String filter) {
    String said = Subscriber.to(open.mqttPort()).attempt(filter);

    assertTrue(said.contains("denied"), said);
  }

  @ParameterizedTest
  @ValueSource(strings = {"tepidarium/#", "tepidarium/alert/#", "tepidarium/+/light"})
  void aLampMayListenBelowTheRoot(String filter) {
    assertTrue(Subscriber.to(open.mqttPort()).attempt(filter).startsWith("0: "), filter);
  }

  @Test
  void aPortInUseIsNamedWithTheRemedy(@TempDir Path data) throws IOException {
    try (ServerSocket taken = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
      int port = taken.getLocalPort();
      Config config = config(data, port, Map.of());
      String message =
          assertThrows(
                  IllegalStateException.class,
                  () -> RunningService.start(config, Clock.tickMillis(ZoneOffset.UTC)).close())
              .getMessage();

      assertAll(
          () -> assertTrue(message.contains("MQTT port " + port + " "), message),
          () -> assertTrue(message.contains("broker: tcp://127.0.0.1:" + port), message),
          () -> assertTrue(message.contains("--mqtt-port"), message));
    }
  }

  @Test
  void aPortTakenAfterTheStartIsReportedAndOpenedOnceItIsFree(@TempDir Path data)
      throws IOException {
    int port = Ports.free();
    EmbeddedBroker broker =
        EmbeddedBroker.start(
            new SensorPorts("127.0.0.1", port, null),
            data,
            OpenAccounts.anybody(),
            BrokerLimits.of(4 << 20, 10, Duration.ofDays(1), 16L << 20, topic -> null));
    try (broker) {
      try (ServerSocket taken = new ServerSocket(port, 1, InetAddress.getLoopbackAddress())) {
        String words = "sensors cannot publish, because port " + taken.getLocalPort() + " on ";
        for (int asked = 1; asked <= 2; asked++) {
          String message =
              assertThrows(IllegalStateException.class, broker::openSensorPort).getMessage();
          assertTrue(message.startsWith(words), message);
        }
      }

      broker.openSensorPort();

      Publisher.to(port).send("tepidarium/late", "{\"light\":0}");
    }
  }
}
