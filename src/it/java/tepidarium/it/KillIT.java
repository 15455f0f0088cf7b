package tepidarium.it;

import static org.awaitility.Awaitility.await;

import java.nio.file.Path;
import java.time.Duration;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A service that is killed: what others hear of it. */
class KillIT {
  private static final Duration SOON = Duration.ofSeconds(40);

  @TempDir private Path folder;

  @Test
  void theBrokerTellsOfAServiceThatWasKilled() {
    try (Mosquitto broker = Mosquitto.started(folder.resolve("mosquitto"));
        ServiceProcess service =
            ServiceProcess.start(
                folder.resolve("data"), Ports.free(), "tcp://127.0.0.1:" + broker.port())) {
      Subscriber lamp = Subscriber.to(broker.port());
      await()
          .atMost(SOON)
          .until(() -> lamp.retained("tepidarium/status").equals("{\"status\":\"up\"}"));

      service.kill();

      await()
          .atMost(SOON)
          .until(() -> lamp.retained("tepidarium/status").equals("{\"status\":\"down\"}"));
    }
  }
}
