package tepidarium.it;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.ZoneOffset;
import java.util.Map;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.api.io.TempDir;

/** Accounts of sensors made over the API, on a service where every sensor needs one. */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class SensorAccountsIT {
  private static final Duration SOON = Duration.ofSeconds(15);
  private static final String ACCOUNTS = "/api/sensor-accounts";
  private static final int BAD_PASSWORD = 0x86;
  private static final int NOT_AUTHORIZED = 0x87;

  private RunningService service;

  @BeforeAll
  void start(@TempDir Path folder) {
    service =
        RunningService.start(
            RunningService.config(
                folder, "embedded", Ports.free(), Map.of("anonymousSensors", "never")),
            Clock.tickMillis(ZoneOffset.UTC));
    new Grower(service.api()).awaitBroker();
  }

  @AfterAll
  void stop() {
    service.close();
  }

  private String made(String name, String more) {
    JsonNode answer = service.api().post(ACCOUNTS, "{\"name\":\"" + name + '"' + more + '}');
    return answer.get("password").textValue();
  }

  private int login(RawMqtt client, String user, String password) throws IOException {
    return client.connect("client-of-" + user, user, password, null, 0).reason();
  }

  private RawMqtt connection() throws IOException {
    return new RawMqtt(service.mqttPort(), 5);
  }

  private boolean isConnected(String name) {
    return service
        .api()
        .get(ACCOUNTS)
        .get("accounts")
        .valueStream()
        .anyMatch(a -> a.get("name").textValue().equals(name) && a.get("connected").asBoolean());
  }

  @Test
  void anAccountPublishesToItsTopicsAndReadsNothing() throws IOException {
    String password = made("jar-1", "");
    try (RawMqtt jar = connection()) {
      assertEquals(0, login(jar, "jar-1", password));
      assertTrue(isConnected("jar-1"));
      assertEquals(0, jar.publish("tepidarium/jar-1", "{\"light\":0}").reason());
      assertEquals(0, jar.publish("tepidarium/jar-1/temperature", "30").reason());
      for (String foreign : new String[] {"tepidarium/jar-10", "tepidarium/status", "x/jar-1"}) {
        assertEquals(NOT_AUTHORIZED, jar.publish(foreign, "{\"light\":0}").reason(), foreign);
      }
      assertEquals(NOT_AUTHORIZED, jar.subscribe("tepidarium/jar-1").granted());
    }
    await().atMost(SOON).until(() -> !isConnected("jar-1"));
    await()
        .atMost(SOON)
        .until(() -> service.api().call("GET", "/api/sensors/jar-1", null).status() == 200);
  }

  @Test
  void aLampReadsWhatItMay() throws IOException {
    String password = made("lamp", ",\"topics\":[],\"reads\":[\"tepidarium/alert/+/#\"]");
    try (RawMqtt lamp = connection()) {
      assertEquals(0, login(lamp, "lamp", password));
      assertEquals(1, lamp.subscribe("tepidarium/alert/jar/+").granted());
      assertEquals(NOT_AUTHORIZED, lamp.subscribe("tepidarium/#").granted());
      assertEquals(NOT_AUTHORIZED, lamp.publish("tepidarium/lamp", "{\"light\":0}").reason());
    }
  }

  @Test
  void aRemovedAccountIsDisconnectedAndRefused() throws IOException {
    String password = made("gone", "");
    try (RawMqtt jar = connection()) {
      assertEquals(0, login(jar, "gone", password));
      assertEquals(204, service.api().call("DELETE", ACCOUNTS + "/gone", null).status());
      assertTrue(jar.next().ended());
    }
    try (RawMqtt again = connection()) {
      assertEquals(BAD_PASSWORD, login(again, "gone", password));
    }
  }

  @Test
  void aReplacedPasswordEndsConnectionsAndTheOldPassword() throws IOException {
    String old = made("swap", "");
    try (RawMqtt jar = connection()) {
      assertEquals(0, login(jar, "swap", old));
      String replaced =
          service.api().post(ACCOUNTS + "/swap/password", "").get("password").textValue();
      assertTrue(jar.next().ended());
      try (RawMqtt again = connection()) {
        assertEquals(BAD_PASSWORD, login(again, "swap", old));
      }
      try (RawMqtt again = connection()) {
        assertEquals(0, login(again, "swap", replaced));
      }
    }
  }

  @Test
  void changedTopicsHoldAtOnce() throws IOException {
    String password = made("moved", "");
    try (RawMqtt jar = connection()) {
      assertEquals(0, login(jar, "moved", password));
      assertEquals(0, jar.publish("tepidarium/moved", "{\"light\":0}").reason());
      service
          .api()
          .put(
              ACCOUNTS + "/moved/topics",
              "{\"topics\":[\"tepidarium/other\"],\"reads\":[\"lamp\"]}");
      assertTrue(jar.next().ended());
    }
    try (RawMqtt again = connection()) {
      assertEquals(0, login(again, "moved", password));
      assertEquals(0, again.publish("tepidarium/other", "{\"light\":0}").reason());
      assertEquals(NOT_AUTHORIZED, again.publish("tepidarium/moved", "{\"light\":0}").reason());
      assertEquals(1, again.subscribe("lamp").granted());
    }
    String none = "{\"topics\":[],\"reads\":[]}";
    assertEquals(400, service.api().call("PUT", ACCOUNTS + "/moved/topics", none).status());
    assertEquals(404, service.api().call("PUT", ACCOUNTS + "/nobody/topics", none).status());
  }

  @Test
  void aClientWithoutAnAccountIsRefusedAndNamed() throws IOException {
    try (RawMqtt stranger = connection()) {
      assertEquals(NOT_AUTHORIZED, stranger.connect("stray-1", null, null, null, 0).reason());
    }
    JsonNode state = service.api().get(ACCOUNTS);
    assertEquals("never", state.get("anonymous").textValue());
    assertTrue(state.at("/refused/count").asInt() >= 1);
    assertEquals("stray-1", state.at("/refused/clientId").textValue());
    assertEquals("127.0.0.1", state.at("/refused/address").textValue());
    String health = new Grower(service.api()).part("sensorAccounts");
    assertTrue(
        health.contains("the latest from the client \"stray-1\" at 127.0.0.1. Make"), health);
    assertFalse(health.contains("null"), health);
  }
}
