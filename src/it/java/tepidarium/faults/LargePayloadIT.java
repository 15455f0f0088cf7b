package tepidarium.faults;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.StringJoiner;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tepidarium.it.Grower;
import tepidarium.it.Ports;
import tepidarium.it.ServiceProcess;

/** Payloads near the limit of 4 MiB, at the heap of 96 MiB with which the service is started. */
class LargePayloadIT {
  private static final int EMPTY_OBJECTS = 1_390_000;
  private static final int BACKLOG = 44_000;

  @TempDir private Path folder;

  private static byte[] bytes(String payload) {
    return payload.getBytes(StandardCharsets.UTF_8);
  }

  private static byte[] backlog() {
    StringJoiner json = new StringJoiner(",", "[", "]");
    for (int i = 0; i < BACKLOG; i++) {
      json.add("{\"temperature\":30.25,\"humidity\":96.1,\"at\":" + (Load.FIRST_SECOND + i) + "}");
    }
    return bytes(json.toString());
  }

  @Test
  void manyNamesFitIntoTheMemoryOfTheService() throws IOException {
    Path data = folder.resolve("data");
    int port = Ports.free();
    String rule = "[{topic: 'garden/{sensor}/all', temperature: {pointer: /999999/t}}]";
    Map<String, String> settings =
        Map.of(
            ServiceProcess.JAVA_OPTIONS,
            "-Xmx96m -Xss512k -XX:+UseSerialGC",
            "TEPIDARIUM_MAPPINGS",
            rule);
    try (ServiceProcess service = ServiceProcess.start(data, port, "embedded", settings);
        MqttSocket sensor = new MqttSocket(port, "sensor", 1 << 16)) {
      Grower grower = service.grower();
      sensor.awaitConnected();
      byte[] empty = bytes("[{}" + ",{}".repeat(EMPTY_OBJECTS - 1) + "]");
      byte[] wide = bytes("{\"a\":[" + "1,".repeat(1_900_000) + "1]}");
      List<Map.Entry<String, byte[]>> messages =
          List.of(
              Map.entry("tepidarium/bad", empty),
              Map.entry("garden/bad/all", empty),
              Map.entry("tepidarium/bad", wide),
              Map.entry("tepidarium/good", backlog()),
              Map.entry("tepidarium/bad", empty));
      for (int i = 0; i < messages.size(); i++) {
        sensor.publish(i + 1, messages.get(i).getKey(), messages.get(i).getValue(), false);
        sensor.flush();
        assertEquals(i + 1, sensor.acknowledged());
      }
      for (int i = 0; i < 20; i++) {
        sensor.publish(10 + i, "tepidarium/next/light", bytes(String.valueOf(i)), false);
        sensor.flush();
        sensor.acknowledged();
      }

      await()
          .atMost(Form.SOON)
          .ignoreExceptions()
          .until(() -> Tally.of(grower).stored() == BACKLOG + 20);
      Tally tally = Health.settled(() -> grower);
      assertEquals(2L * EMPTY_OBJECTS + 2, tally.rejected());
      assertEquals(0, tally.repeated());
      assertTrue(service.isAlive() && Health.isUp(grower));
      assertEquals(BACKLOG, Stored.in(data).seconds().get("good").cardinality());
      List<String> reasons = grower.rejects("tepidarium/bad");
      assertEquals(41, reasons.size());
      assertEquals("and " + (EMPTY_OBJECTS - 19) + " more rejects of this message", reasons.get(0));
    }
  }
}
