package tepidarium.faults;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.Statement;
import java.time.Duration;
import java.time.Instant;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.stream.Stream;
import tepidarium.it.Grower;
import tepidarium.it.MovableClock;
import tepidarium.it.Ports;
import tepidarium.it.Publisher;
import tepidarium.it.RunningService;

/**
 * What a start may find: files that are damaged, emptied, missing or too new, and a wrong clock.
 */
final class StartAttacks {
  private static final Duration AHEAD = Duration.ofDays(400);

  /** A clock that is wrong at the start must not delete anything in this time. */
  private static final int SECONDS_AHEAD = 25;

  private StartAttacks() {}

  static List<Attack> all() {
    return List.of(
        start("an emptied records.db", data -> Files.write(data.resolve("records.db"), none())),
        start("an emptied readings.db", data -> Files.write(data.resolve("readings.db"), none())),
        start("no readings.db", data -> Files.delete(data.resolve("readings.db"))),
        start("half of readings.db", data -> halve(data.resolve("readings.db"))),
        start("half of ledger.db", data -> halve(data.resolve("ledger.db"))),
        start("no ledger.db", data -> Files.delete(data.resolve("ledger.db"))),
        start("random bytes in records.db", data -> scramble(data.resolve("records.db"))),
        start("an empty client-id", data -> Files.write(data.resolve("client-id"), none())),
        start("a journal cut in half", data -> eachJournalFile(data, StartAttacks::halve)),
        start("random bytes in the journal", data -> eachJournalFile(data, StartAttacks::scramble)),
        start("a records.db of a later version", StartAttacks::later),
        Attack.slow("a clock 400 days ahead at the start, with keepRawDays", StartAttacks::clock));
  }

  private static byte[] none() {
    return new byte[0];
  }

  /** It starts without loss, or refuses in words that are no stack trace. */
  private static Attack start(String name, Target.Change change) {
    return Attack.slow(
        "started with " + name,
        (target, tries) -> {
          String words = target.startAfter(change);
          boolean readable =
              !words.contains("\tat ") && !words.contains("Exception") && !words.contains(": null");
          tries.check(readable, "it refuses with: " + words);
        });
  }

  private static void halve(Path file) throws IOException {
    byte[] whole = Files.readAllBytes(file);
    Files.write(file, Arrays.copyOf(whole, whole.length / 2));
  }

  private static void scramble(Path file) throws IOException {
    byte[] whole = Files.readAllBytes(file);
    byte[] noise = new byte[Math.min(2_000, whole.length)];
    new Random(3).nextBytes(noise);
    System.arraycopy(noise, 0, whole, 0, noise.length);
    Files.write(file, whole);
  }

  private static void eachJournalFile(Path data, Target.Change change) throws Exception {
    try (Stream<Path> files = Files.list(data.resolve("broker").resolve("journal"))) {
      for (Path file : files.filter(Files::isRegularFile).toList()) {
        change.apply(file);
      }
    }
  }

  /** As a later version of the service would leave it behind. */
  private static void later(Path data) throws Exception {
    try (Connection file = DriverManager.getConnection("jdbc:sqlite:" + data + "/records.db");
        Statement statement = file.createStatement()) {
      statement.execute(
          """
          INSERT INTO flyway_schema_history (installed_rank, version, description, type, script,
            checksum, installed_by, installed_on, execution_time, success)
          SELECT max(installed_rank) + 1, '999', 'later', 'SQL', 'V999__later.sql', 0, '',
            max(installed_on), 1, 1
          FROM flyway_schema_history
          """);
    }
  }

  private static void clock(Target target, Tries tries) throws Exception {
    Path data = target.data().resolveSibling("clock");
    Instant now = Instant.now();
    run(
        data,
        now,
        0,
        service -> {
          Publisher publisher = Publisher.to(service.mqttPort());
          for (int i = 0; i < 50; i++) {
            Instant at = now.minus(Duration.ofDays(5)).plusSeconds(60L * i);
            publisher.send("tepidarium/bag", "{\"temperature\":30,\"at\":\"" + at + "\"}");
          }
        });
    long before = rows(data);
    run(data, now.plus(AHEAD), SECONDS_AHEAD, service -> {});
    long after = rows(data);
    tries.check(before == 50, before + " readings were stored before");
    tries.check(after == before, (before - after) + " readings were deleted");
  }

  private interface Use {
    void of(RunningService service);
  }

  private static void run(Path data, Instant now, int seconds, Use use) throws IOException {
    Files.createDirectories(data);
    int port = Ports.free();
    MovableClock clock = new MovableClock(now);
    try (RunningService service =
        RunningService.start(
            RunningService.config(data, "embedded", port, Map.of("keepRawDays", 30)), clock)) {
      Grower grower = new Grower(service.api());
      grower.awaitBroker();
      use.of(service);
      Health.settled(() -> grower);
      Form.last(seconds);
    }
  }

  private static long rows(Path data) {
    return Stored.in(data).rows();
  }
}
