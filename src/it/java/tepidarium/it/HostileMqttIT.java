package tepidarium.it;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Clients that break the protocol or the rules on the embedded broker without accounts, over bare
 * sockets. After each of them a good sensor's readings are stored.
 */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class HostileMqttIT {
  private static final Duration SOON = Duration.ofSeconds(10);
  private static final String READING = "{\"temperature\":30}";
  private static final byte[] NONE = {};

  private Path data;
  private RunningService service;
  private Grower grower;
  private int port;
  private int clients;

  @BeforeAll
  void startTheService(@TempDir Path folder) {
    data = folder;
    service = RunningService.embedded(folder);
    grower = new Grower(service.api());
    grower.awaitBroker();
    port = service.mqttPort();
  }

  @AfterAll
  void stopTheService() {
    service.close();
  }

  @AfterEach
  void aGoodSensorIsStillStored() throws IOException {
    long stored = grower.settledCount("stored");
    try (RawMqtt good = client(5)) {
      for (int i = 1; i <= 20; i++) {
        String reading = "{\"temperature\":30,\"age\":" + i + "}";
        assertEquals(0, good.publish("tepidarium/good-" + clients, reading).reason());
      }
    }
    await().atMost(SOON).until(() -> grower.count("stored") == stored + 20);
    await()
        .atMost(SOON)
        .until(
            () ->
                grower.count("received")
                    == grower.count("stored")
                        + grower.count("repeated")
                        + grower.count("rejected"));
    assertEquals("up", service.api().get("/api/health").get("status").textValue());
  }

  private RawMqtt client(int version) throws IOException {
    return RawMqtt.connected(port, version, "client-" + ++clients);
  }

  private void awaitReject(String topic, String words) {
    await()
        .atMost(SOON)
        .untilAsserted(
            () -> {
              List<String> reasons = grower.rejects(topic);
              assertTrue(
                  reasons.stream().anyMatch(reason -> reason.contains(words)),
                  () -> words + " is not in " + reasons);
            });
  }

  /** The characters that the service's own MQTT client refuses to read. */
  @ParameterizedTest
  @ValueSource(strings = {"\u0000", "\uFFFF", "\u0001", "\t", "\u009F", "\uFDD0", "\uD83F\uDFFF"})
  void aTopicWithACharacterThatMqttForbidsIsRefused(String bad) throws IOException {
    for (int version : List.of(4, 5)) {
      String topic = "tepidarium/bag-" + ++clients;
      try (RawMqtt firmware = client(version)) {
        assertTrue(firmware.publish(topic + bad, READING).ended());
      }
      awaitReject(topic + "\uFFFD", "holds the character U+");
    }
  }

  @Test
  void aWillWithSuchATopicIsRefused() throws IOException {
    try (RawMqtt firmware = new RawMqtt(port, 4)) {
      byte[] topic = RawMqtt.utf8("tepidarium/bag\u0000");
      assertEquals(5, firmware.connect("will", null, null, topic, 0).reason());
    }
    awaitReject("tepidarium/bag\uFFFD", "holds the character U+0000");
  }

  @Test
  void textPropertiesWithSuchCharactersDoNotStopTheReading() throws IOException {
    byte[] contentType = {0x03, 0, 1, 0};
    byte[] userProperty = {0x26, 0, 1, 'a', 0, 3, (byte) 0xEF, (byte) 0xBF, (byte) 0xBF};
    long stored = grower.settledCount("stored");
    try (RawMqtt sensor = client(5)) {
      byte[] topic = RawMqtt.utf8("tepidarium/typed");
      byte[] reading = RawMqtt.utf8(READING);
      assertEquals(0, sensor.publish(topic, contentType, reading).reason());
      assertEquals(0, sensor.publish(topic, userProperty, reading).reason());
      assertEquals(0, sensor.publish(topic, NONE, reading).reason());
    }
    await()
        .atMost(SOON)
        .until(() -> grower.count("stored") + grower.count("repeated") >= stored + 3);
  }

  @Test
  void aTopicWithTwoColonsIsRefusedAndLogged() throws IOException {
    for (int version : List.of(4, 5)) {
      try (RawMqtt sensor = client(version)) {
        assertTrue(sensor.publish("tepidarium/a" + version + "::b", READING).ended());
      }
      awaitReject("tepidarium/a" + version + "::b", "two colons in a row");
    }
  }

  @ParameterizedTest
  @ValueSource(strings = {"status", "alert/jar/cold", "notice/begin/high"})
  void aTopicOfTheServiceIsRefused(String below) throws IOException {
    String topic = "tepidarium/" + below;
    try (RawMqtt sensor = client(5)) {
      assertEquals(0x87, sensor.publish(topic, "{}").reason());
      assertEquals(0, sensor.publish("tepidarium/same-connection", READING).reason());
    }
    try (RawMqtt sensor = new RawMqtt(port, 4)) {
      String id = "will-" + ++clients;
      assertEquals(5, sensor.connect(id, null, null, RawMqtt.utf8(topic), 0).reason());
    }
    awaitReject(topic, "is reserved for this service");
  }

  @Test
  void nobodyElseMayUseTheClientIdOfTheService() throws IOException {
    String id = Files.readString(data.resolve("client-id")).strip();
    try (RawMqtt thief = new RawMqtt(port, 4)) {
      assertEquals(2, thief.connect(id, null, null, null, 0).reason());
    }
    try (RawMqtt thief = new RawMqtt(port, 5)) {
      assertEquals(0x85, thief.connect(id, null, null, null, -1).reason());
    }
    // A group of this name would share the queue of the service.
    try (RawMqtt thief = client(5)) {
      assertTrue(thief.subscribe("$share/" + id + "/tepidarium/#").ended());
    }
    assertTrue(grower.part("broker").startsWith("up"), grower.part("broker"));
  }

  /** The embedded broker reads "a::b" as queue b of address a. */
  @Test
  void nobodyElseMayReadFromTheQueueOfTheService() throws IOException {
    String id = Files.readString(data.resolve("client-id")).strip();
    for (int version : List.of(4, 5)) {
      try (RawMqtt thief = RawMqtt.connected(port, version, "x::" + id)) {
        assertTrue(thief.subscribe("tepidarium/#").ended());
      }
      try (RawMqtt thief = new RawMqtt(port, version)) {
        int reason = thief.connect(id + ".tepidarium", null, null, null, 0).reason();
        assertEquals(version == 5 ? 0x85 : 2, reason);
      }
    }
  }

  /** Expiry in seconds; the embedded broker counted with too few bits and dropped the message. */
  @ParameterizedTest
  @ValueSource(ints = {0, 2_592_000, -1})
  void aReadingDoesNotExpire(int seconds) throws IOException {
    long stored = grower.settledCount("stored");
    byte[] expiry = ByteBuffer.allocate(5).put((byte) 2).putInt(seconds).array();
    byte[] topic = RawMqtt.utf8("tepidarium/expiring-" + ++clients);
    try (RawMqtt sensor = client(5)) {
      assertEquals(0, sensor.publish(topic, expiry, RawMqtt.utf8(READING)).reason());
    }
    await().atMost(SOON).until(() -> grower.count("stored") == stored + 1);
  }
}
