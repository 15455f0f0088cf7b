package tepidarium.faults;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tepidarium.it.Grower;
import tepidarium.it.Ports;
import tepidarium.it.ServiceProcess;

/** All sensors of a seed bank come at once, each over a connection of its own. */
class ManySensorsIT {
  private static final int SENSORS = Form.of(500, 10_000);
  private static final int READINGS = 3;
  private static final int SMALL_BUFFER = 256;

  @TempDir private Path folder;

  @Test
  void everyReadingOfEveryoneIsStored() throws IOException {
    Path data = folder.resolve("data");
    int port = Ports.free();
    List<MqttSocket> sensors = new ArrayList<>();
    try (ServiceProcess service = ServiceProcess.start(data, port, "embedded")) {
      for (int i = 0; i < SENSORS; i++) {
        sensors.add(new MqttSocket(port, "many-" + i, SMALL_BUFFER));
      }
      for (MqttSocket sensor : sensors) {
        sensor.awaitConnected();
      }
      for (int reading = 0; reading < READINGS; reading++) {
        publishAtOnce(sensors, reading);
      }
      long from = System.nanoTime();
      Grower grower = service.grower();
      double seconds = Health.secondsUntilUp(() -> grower, from);
      long sent = (long) SENSORS * READINGS;
      await().atMost(Form.SOON).until(() -> Tally.of(grower).received() >= sent);
      Tally tally = Health.settled(() -> grower);

      Stored stored = Stored.in(data);
      long there =
          stored.seconds().values().stream()
              .mapToLong(known -> known.get(0, READINGS).cardinality())
              .sum();
      assertEquals(SENSORS, grower.api().get("/api/sensors").size());
      new Row(
              String.format(
                  Locale.ROOT,
                  "%,d sensors at once, %d MB of memory",
                  SENSORS,
                  Memory.peakMegabytes(service.pid())),
              tally,
              sent - there,
              stored.repeated() + stored.rows() - there,
              seconds)
          .check();
    } finally {
      sensors.forEach(MqttSocket::close);
    }
  }

  private static void publishAtOnce(List<MqttSocket> sensors, int reading) throws IOException {
    String payload = "{\"temperature\":30,\"at\":" + (Load.FIRST_SECOND + reading) + "}";
    for (int i = 0; i < sensors.size(); i++) {
      MqttSocket sensor = sensors.get(i);
      sensor.publish(1, "tepidarium/many-" + i, payload.getBytes(StandardCharsets.UTF_8), false);
      sensor.flush();
    }
    for (MqttSocket sensor : sensors) {
      assertEquals(1, sensor.acknowledged());
    }
  }
}
