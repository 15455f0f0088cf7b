package tepidarium.it;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.ZoneOffset;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** One client floods the broker; the readings of the others are stored all the same. */
class ClientFloodIT {
  /** Far above the time that it takes, because the machine may be busy. */
  private static final Duration SOON = Duration.ofSeconds(10);

  private static final int READINGS = 10;

  @Test
  void othersAreStoredWhileOneFloods(@TempDir Path folder) throws IOException {
    Map<String, Integer> limits =
        Map.of("clientMessagesPerSecond", 100, "clientKilobytesPerSecond", 256);
    try (RunningService service =
        RunningService.start(
            RunningService.config(folder, "embedded", Ports.free(), limits),
            Clock.tickMillis(ZoneOffset.UTC))) {
      Grower grower = new Grower(service.api());
      grower.awaitBroker();
      try (Flood flood = Flood.start(service.mqttPort(), "mad-1");
          RawMqtt good = RawMqtt.connected(service.mqttPort(), 4, "good-1")) {
        await().atMost(SOON).until(() -> grower.part("clients").contains("\"mad-1\""));
        for (int i = 1; i <= READINGS; i++) {
          String value = "" + (20 + i);
          assertEquals(4, good.publish("tepidarium/good/temperature", value).type());
          await().atMost(SOON).until(() -> latest(service).equals(value));
        }
        assertTrue(flood.sent() > 0);
        String named = grower.part("clients");
        assertTrue(
            named.startsWith("up: the client \"mad-1\" at 127.0.0.1 sends more than 100 "), named);
      }
    }
  }

  private static String latest(RunningService service) {
    if (service.api().call("GET", "/api/sensors/good", null).status() != 200) {
      return "";
    }
    double value =
        service.api().get("/api/sensors/good").at("/latest/temperature/value").doubleValue();
    return String.valueOf(Math.round(value));
  }
}
