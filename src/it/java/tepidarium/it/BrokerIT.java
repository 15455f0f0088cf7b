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
import tepidarium.ingest.mqtt.BrokerAccounts;
import tepidarium.ingest.mqtt.EmbeddedBroker;

/** The broker inside the service, as sensors and strangers meet it. */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class BrokerIT {
  private static final Duration SOON = Duration.ofSeconds(15);

  private RunningService open;
  private RunningService closed;
  private Publisher anybody;

  @BeforeAll
  void startOneOpenAndOneClosedService(@TempDir Path folder) {
    open = RunningService.embedded(folder.resolve("open"));
    closed =
        RunningService.start(
            config(folder.resolve("closed"), Ports.free(), Map.of("bag-1", "right")),
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
  void aForbiddenTopicLeavesALineAndTheConnectionGoesOn() throws MqttException {
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
    String words = "\"" + topic + "\" is not read here: publish to tepidarium/<sensor>";
    Grower grower = new Grower(open.api());
    await()
        .atMost(SOON)
        .until(() -> grower.rejects(topic).stream().anyMatch(line -> line.startsWith(words)));
  }

  @Test
  void aForbiddenTopicOfAnOldClientLeavesALine() {
    anybody.attempt("elsewhere/bag", "{\"temperature\":30}");

    awaitReject("elsewhere/bag");
  }

  @Test
  void aForbiddenTopicIsToldToANewClient() {
    String said = anybody.version5().attempt("elsewhere/tray", "{\"temperature\":30}");

    assertTrue(said.contains("Not authorized"), said);
    awaitReject("elsewhere/tray");
  }

  @Test
  void theRightPasswordLetsASensorIn() {
    Publisher.to(closed.mqttPort()).as("bag-1", "right").send("tepidarium/known", "{\"light\":0}");

    awaitHeard(closed, "known");
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
    Publisher.to(closed.mqttPort()).as("bag-1", "right").send("tepidarium/last", "{\"light\":0}");
    awaitHeard(closed, "last");
    assertEquals(404, closed.api().call("GET", "/api/sensors/unknown", null).status());
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
  void aPortTakenAfterTheStartIsSaidAndOpenedOnceItIsFree(@TempDir Path data) throws IOException {
    int port = Ports.free();
    EmbeddedBroker broker =
        EmbeddedBroker.start(
            "127.0.0.1",
            port,
            data,
            new BrokerAccounts("service", "word", Map.of(), List.of("tepidarium"), topic -> {}));
    try (broker) {
      try (ServerSocket taken = new ServerSocket(port, 1, InetAddress.getLoopbackAddress())) {
        String words = "sensors cannot publish, since port " + taken.getLocalPort() + " on ";
        for (int asked = 1; asked <= 2; asked++) {
          String message =
              assertThrows(IllegalStateException.class, broker::letSensorsIn).getMessage();
          assertTrue(message.startsWith(words), message);
        }
      }

      broker.letSensorsIn();

      Publisher.to(port).send("tepidarium/late", "{\"light\":0}");
    }
  }
}
