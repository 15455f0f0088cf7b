package tepidarium.faults;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tepidarium.it.Grower;
import tepidarium.it.Ports;
import tepidarium.it.ServiceProcess;

/** One sensor takes a new name for each reading, with the heap of a household. */
class ManyNamesIT {
  private static final int MAX_NAMES = Form.of(100, 2_000);
  private static final int NEW_EACH_HOUR = Form.of(20, 100);
  private static final int NAMES = Form.of(200, 20_000);
  private static final int BUFFER = 8_192;

  @Test
  void namesBeyondTheLimitAreRejectedAndKnownSensorsGoOn(@TempDir Path folder) throws IOException {
    int port = Ports.free();
    Map<String, String> settings =
        Map.of(
            ServiceProcess.JAVA_OPTIONS,
            "-Xmx96m -Xss512k -XX:+UseSerialGC",
            "TEPIDARIUM_MAX_SENSORS",
            Integer.toString(MAX_NAMES),
            "TEPIDARIUM_NEW_SENSORS_PER_HOUR",
            Integer.toString(NEW_EACH_HOUR));
    try (ServiceProcess service =
            ServiceProcess.start(folder.resolve("data"), port, "embedded", settings);
        MqttSocket sensor = new MqttSocket(port, "counter", BUFFER)) {
      sensor.awaitConnected();
      Grower grower = service.grower();
      publish(sensor, "good", 1);
      for (int i = 1; i <= NAMES; i++) {
        publish(sensor, "name-" + i, 1);
      }
      Tally flooded = Health.settled(() -> grower);
      assertEquals(NAMES + 1, flooded.received());
      assertEquals(MAX_NAMES + NEW_EACH_HOUR, flooded.stored());
      String said = grower.part("sensors");
      assertTrue(said.startsWith("down: ") && said.contains("with new sensor names"), said);

      for (int i = 2; i <= 21; i++) {
        publish(sensor, "good", i);
      }
      await().atMost(Form.SOON).until(() -> grower.count("stored") == flooded.stored() + 20);
    }
  }

  private static void publish(MqttSocket sensor, String name, int reading) throws IOException {
    byte[] payload =
        ("{\"temperature\":30,\"age\":" + (100 - reading) + "}").getBytes(StandardCharsets.UTF_8);
    sensor.publish(1, "tepidarium/" + name, payload, false);
    sensor.flush();
    assertEquals(1, sensor.acknowledged());
  }
}
