package tepidarium.app;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.Statement;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneOffset;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.atomic.AtomicReference;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tepidarium.it.EveryGet;
import tepidarium.it.Grower;
import tepidarium.it.Ports;
import tepidarium.it.Postgres;
import tepidarium.it.Publisher;
import tepidarium.it.RunningService;
import tepidarium.it.ServiceProcess;
import tepidarium.it.SmallSeason;
import tepidarium.series.postgres.PostgresReadings;

/** An installation moved from its files to PostgreSQL and back. */
class MoveIT {
  private static final Duration LONG = Duration.ofMinutes(1);

  /** Readings of each of the two sensors of the season. */
  private static final int OF_A_SENSOR = SmallSeason.DAYS * 24 * 4 + 1;

  private static Postgres server;

  @TempDir private Path folder;
  private final StringWriter words = new StringWriter();

  @BeforeAll
  static void start() {
    server = Postgres.started();
  }

  @AfterAll
  static void stop() {
    server.close();
  }

  private Config files(String name) {
    return RunningService.config(folder.resolve(name), "embedded", Ports.free());
  }

  private Config databases(String name, String database) {
    Map<String, String> settings = new HashMap<>(Postgres.settings(server.url(database)));
    settings.putAll(Postgres.readingsSettings(server.url(database)));
    return RunningService.config(folder.resolve(name), "embedded", Ports.free(), settings);
  }

  private int move(Config from, Config to) throws IOException {
    words.getBuffer().setLength(0);
    return new Move(from, to, Clock.systemUTC(), new PrintWriter(words)).run();
  }

  private void assertSaid(String part) {
    assertTrue(words.toString().contains(part), words.toString());
  }

  /** While it runs, and killed at first; then stopped; then back again. */
  @Test
  void everyGetGivesTheSameAnswerAfterTheMoveThereAndBack() throws Exception {
    server.create("moved");
    Config first = files("first");
    Config there = databases("there", "moved");
    try (RunningService service = RunningService.start(first, Clock.tickMillis(ZoneOffset.UTC))) {
      Publisher sensor = Publisher.to(service.mqttPort());
      new SmallSeason(new Grower(service.api()), sensor).fill();
      killInTheMiddle(first);
      assertEquals(Move.AGAIN, move(first, there), words::toString);
      assertSaid("1,922 readings verified hour by hour, 961 of them stored now");
      assertSaid("Stop the service and run the same command again");
      sensor.send("tepidarium/late", "{\"temperature\":20}");
      await().atMost(LONG).until(() -> service.counts().stored() == 2 * OF_A_SENSOR + 1);
    }
    Clock clock = Clock.fixed(Instant.now().truncatedTo(ChronoUnit.MILLIS), ZoneOffset.UTC);
    Map<String, String> before = answers(first, clock);
    assertTrue(before.size() > 60, before.keySet().toString());
    assertEquals(Move.COMPLETE, move(first, there), words::toString);
    assertSaid("readings verified hour by hour, 1 of them stored now");
    assertSaid("The move is complete");
    assertEquals(Move.COMPLETE, move(first, there), words::toString);
    assertSame(before, there, clock);
    Config back = files("back");
    assertEquals(Move.COMPLETE, move(there, back), words::toString);
    assertSame(before, back, clock);
    assertEquals(
        Files.readString(folder.resolve("first/client-id")),
        Files.readString(folder.resolve("back/client-id")));
  }

  /** Kills the command after it has copied one sensor, while it waits for a lock. */
  private void killInTheMiddle(Config first) throws Exception {
    try (PostgresReadings tables = new PostgresReadings(server.readings("moved"))) {
      tables.probe();
    }
    Path settings = folder.resolve("new.yaml");
    List<String> lines = new ArrayList<>(List.of("data: " + folder.resolve("there")));
    Map<String, String> stores = new HashMap<>(Postgres.settings(server.url("moved")));
    stores.putAll(Postgres.readingsSettings(server.url("moved")));
    stores.forEach((name, value) -> lines.add(name + ": '" + value + '\''));
    Files.write(settings, lines);
    List<String> command = new ArrayList<>();
    command.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
    command.addAll(ServiceProcess.launch());
    command.addAll(List.of("move", "--data", first.data().toString(), "--to", settings.toString()));
    Path output = folder.resolve("move.out");
    String other = "SELECT count(*) FROM pg_stat_activity WHERE wait_event_type = 'Lock'";
    try (Connection connection =
            DriverManager.getConnection(
                "jdbc:" + server.url("moved"), Postgres.USER, Postgres.PASSWORD);
        Statement statement = connection.createStatement()) {
      connection.setAutoCommit(false);
      statement.execute("INSERT INTO readings.sensor (name) VALUES ('in-mat-bag')");
      Process process =
          new ProcessBuilder(command)
              .redirectErrorStream(true)
              .redirectOutput(output.toFile())
              .start();
      try {
        await()
            .atMost(LONG)
            .until(
                () -> {
                  assertTrue(process.isAlive(), () -> text(output));
                  return server.ask("moved", other).equals(List.of("1"));
                });
      } finally {
        process.destroyForcibly();
        assertEquals(128 + 9, process.waitFor());
      }
      connection.rollback();
    }
    assertEquals(
        List.of(String.valueOf(OF_A_SENSOR)),
        server.ask("moved", "SELECT count(*) FROM readings.reading"));
  }

  private static String text(Path file) {
    try {
      return Files.readString(file);
    } catch (IOException e) {
      return e.toString();
    }
  }

  /** The answers once two in a row are the same: the first checks may raise alerts. */
  private static Map<String, String> answers(Config config, Clock clock) {
    try (RunningService service = RunningService.start(config, clock)) {
      EveryGet calls = new EveryGet(service.api());
      AtomicReference<Map<String, String>> last = new AtomicReference<>(calls.answers());
      await()
          .atMost(LONG)
          .until(
              () -> {
                Map<String, String> now = calls.answers();
                return now.equals(last.getAndSet(now));
              });
      return last.get();
    }
  }

  private static void assertSame(Map<String, String> before, Config config, Clock clock) {
    try (RunningService service = RunningService.start(config, clock)) {
      EveryGet calls = new EveryGet(service.api());
      await()
          .atMost(LONG)
          .untilAsserted(
              () -> {
                Map<String, String> now = calls.answers();
                before.forEach((path, answer) -> assertEquals(answer, now.get(path), path));
                assertEquals(before.keySet(), now.keySet());
              });
    }
  }
}
