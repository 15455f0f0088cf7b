package tepidarium.it;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertFalse;

import java.nio.file.Path;
import java.time.Duration;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A broker that drops messages is noticed, and the remedy named. */
class DroppingBrokerIT {
  @TempDir private Path folder;

  @Test
  void healthReportsMessagesThatTheBrokerDropped() {
    try (Mosquitto broker =
            Mosquitto.started(folder.resolve("broker"), "max_queued_messages 5", "sys_interval 1");
        RunningService service = RunningService.withBroker(folder.resolve("data"), broker.port())) {
      Grower grower = new Grower(service.api());
      grower.awaitBroker();
      assertFalse(grower.part("broker").contains("dropped"));
      // Not this service, which is there, but somebody who is away: the broker counts for all.
      Subscriber.to(broker.port()).leaveASession("away", "tepidarium/#");
      Publisher sensor = Publisher.to(broker.port());
      sensor.lines(
          "tepidarium/bag", IntStream.range(0, 200).mapToObj(i -> "{\"temperature\":30}").toList());
      await().atMost(Duration.ofSeconds(20)).until(() -> grower.part("broker").contains("dropped"));
      await().until(() -> grower.part("broker").contains("max_queued_messages 0"));
    }
  }
}
