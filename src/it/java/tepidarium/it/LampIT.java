package tepidarium.it;

import static org.awaitility.Awaitility.await;

import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A lamp that follows an alert's topic while its broker comes and goes. */
class LampIT {
  private static final Duration SOON = Duration.ofSeconds(40);

  @Test
  void changesDuringABrokerOutageArePublishedAfterwards(@TempDir Path folder) {
    try (Mosquitto broker = Mosquitto.started(folder.resolve("mosquitto"));
        RunningService service = RunningService.withBroker(folder.resolve("data"), broker.port())) {
      Grower grower = new Grower(service.api());
      grower.awaitBroker();
      Instant start = Instant.now().truncatedTo(ChronoUnit.SECONDS).minusSeconds(1_800);
      grower.place("sensor", grower.container("Bag"), start);
      sendALeakThatEnds(Publisher.to(broker.port()), start);
      Subscriber lamp = Subscriber.to(broker.port());
      awaitWords(lamp, "\"state\":\"returned\",\"acknowledged\":false");

      broker.stop();
      await().atMost(SOON).until(() -> grower.part("broker").startsWith("down"));
      long id = service.api().get("/api/alerts?state=returned").get(0).get("id").longValue();
      service.api().post("/api/alerts/" + id + "/acknowledge", "{}");
      broker.start();

      awaitWords(lamp, "\"state\":\"returned\",\"acknowledged\":true");
    }
  }

  private static void sendALeakThatEnds(Publisher publisher, Instant start) {
    StringBuilder backlog = new StringBuilder("[");
    for (int minute = 0; minute < 10; minute++) {
      backlog.append(
          "%s{\"light\":%d,\"at\":\"%s\"}"
              .formatted(
                  minute == 0 ? "" : ",", minute < 5 ? 200 : 0, start.plusSeconds(60L * minute)));
    }
    publisher.send("tepidarium/sensor", backlog.append(']').toString());
  }

  private static void awaitWords(Subscriber lamp, String words) {
    await()
        .atMost(SOON)
        .until(() -> lamp.retained("tepidarium/alert/bag/light"), text -> text.contains(words));
  }
}
