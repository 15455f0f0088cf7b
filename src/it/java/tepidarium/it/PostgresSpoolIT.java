package tepidarium.it;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;

import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * The whole service with its readings in a real PostgreSQL: the database is missing at the start,
 * and its server is killed later.
 */
class PostgresSpoolIT {
  private static final Duration SOON = Duration.ofMinutes(1);
  private static final String DATABASE = "garden";
  private static final String TOPIC = "tepidarium/bag";

  private final Instant start = Instant.parse("2026-03-31T20:00:00Z");

  @TempDir private Path folder;

  private String backlog(int from, int to) {
    return IntStream.range(from, to)
        .mapToObj(
            i ->
                "{\"temperature\":%s,\"at\":\"%s\"}"
                    .formatted(20 + i % 100 / 10.0, start.plusSeconds(i * 60L)))
        .toList()
        .toString();
  }

  @Test
  void whileItIsMissingOrAwayReadingsAreKeptAndGoOverAfterwards() {
    try (Postgres postgres = Postgres.started()) {
      try (RunningService service =
          RunningService.start(
              RunningService.config(
                  folder,
                  "embedded",
                  Ports.free(),
                  Postgres.readingsSettings(postgres.url(DATABASE))),
              Clock.tickMillis(ZoneOffset.UTC))) {
        Grower grower = new Grower(service.api());
        grower.awaitBroker();
        Publisher publisher = Publisher.to(service.mqttPort());
        publisher.send(TOPIC, backlog(0, 200));
        grower.awaitReadingsPart(
            SOON, "down: PostgreSQL has not", "Create it, or correct readingsUrl");
        await().atMost(SOON).until(() -> grower.count("waiting") == 200);

        postgres.create(DATABASE);
        await().atMost(SOON).until(() -> grower.count("stored") == 200);
        publisher.send(TOPIC, backlog(200, 500));
        await().atMost(SOON).until(() -> grower.count("stored") == 500);
        grower.awaitReadingsPart(SOON, "up: writing to the database garden at 127.0.0.1:", "");

        postgres.kill();
        publisher.send(TOPIC, backlog(400, 1_000));
        grower.awaitReadingsPart(
            SOON, "down: PostgreSQL has not answered since 20", "600 readings are kept");
        grower.awaitReadingsPart(SOON, "down:", "does not answer");

        postgres.start();
        await().atMost(SOON).until(() -> grower.count("waiting") == 0);
        grower.awaitReadingsPart(SOON, "up: writing", "");
        assertEquals(
            List.of("1000"), postgres.ask(DATABASE, "SELECT count(*) FROM readings.reading"));
        await().atMost(SOON).until(() -> grower.count("stored") == 1_000);
        assertEquals(100, grower.count("repeated"));
      }
    }
  }
}
