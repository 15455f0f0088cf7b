package tepidarium.faults;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.DynamicTest.dynamicTest;

import java.nio.file.Path;
import java.time.Duration;
import java.util.concurrent.CompletableFuture;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.api.io.TempDir;
import tepidarium.it.Mosquitto;
import tepidarium.it.Patroni;
import tepidarium.it.Ports;
import tepidarium.it.Postgres;
import tepidarium.it.ServiceProcess;

/**
 * Two services with two PostgreSQL servers under Patroni. The leading server is killed or frozen,
 * alone or together with the working service. Long form only: it needs the packages of Patroni and
 * etcd.
 */
class PatroniIT {
  private static final String DATABASE = "garden";
  private static final int SENSORS = 4;
  private static final int ENOUGH = 300;
  private static final int GOAL_SECONDS = 20;

  @TempDir private Path folder;

  private enum Trouble {
    KILLED("leader under Patroni: SIGKILL"),
    FROZEN("leader under Patroni: SIGSTOP"),
    OWNER_TOO("working service and leader under Patroni: SIGKILL");

    private final String words;

    Trouble(String words) {
      this.words = words;
    }
  }

  @TestFactory
  Stream<DynamicTest> noReadingIsLostOrDoubled() {
    return Stream.of(Trouble.values())
        .limit(Form.of(0, Trouble.values().length))
        .map(trouble -> dynamicTest(trouble.name(), () -> drive(trouble)));
  }

  private void drive(Trouble trouble) {
    try (Patroni patroni = Patroni.started();
        Mosquitto broker = Mosquitto.started(folder.resolve(trouble + "-mosquitto"))) {
      patroni.create(DATABASE);
      try (Supervised first =
          Supervised.start(() -> service(patroni, broker, trouble + "-first"))) {
        first.grower().container("Bag");
        CompletableFuture<ServiceProcess> second =
            CompletableFuture.supplyAsync(() -> service(patroni, broker, trouble + "-second"));
        try {
          drive(trouble, patroni, broker, first, second);
        } finally {
          // After a failure, the second one would wait for the first and then go on.
          first.end();
          second.thenAccept(ServiceProcess::close).exceptionally(failure -> null).join();
        }
      }
    }
  }

  private ServiceProcess service(Patroni patroni, Mosquitto broker, String data) {
    String url = "postgresql://" + patroni.servers() + '/' + DATABASE;
    return ServiceProcess.start(
        folder.resolve(data),
        Ports.free(),
        "tcp://127.0.0.1:" + broker.port(),
        Postgres.environment(url, true));
  }

  private static void drive(
      Trouble trouble,
      Patroni patroni,
      Mosquitto broker,
      Supervised first,
      CompletableFuture<ServiceProcess> second) {
    await()
        .atMost(Form.SOON)
        .until(() -> ask(patroni, "SELECT count(*) FROM waiting_service").equals("1"));
    try (Load load = Load.on(broker.port(), SENSORS)) {
      load.awaitMore(ENOUGH);
      await().atMost(Form.SOON).until(() -> readings(patroni) > 0);
      String owner = service(ask(patroni, "SELECT owner FROM lease"));
      int lost = patroni.leader().orElseThrow();

      long from = System.nanoTime();
      if (trouble == Trouble.OWNER_TOO) {
        first.end();
      }
      if (trouble == Trouble.FROZEN) {
        patroni.freeze(lost);
      } else {
        patroni.kill(lost);
      }
      await().atMost(Form.SOON).until(() -> patroni.leader().isPresent());
      double led = secondsSince(from);
      long before = readings(patroni);
      await().atMost(Form.SOON).until(() -> !liveOwner(patroni).isEmpty());
      double owned = secondsSince(from);
      boolean kept = service(liveOwner(patroni)).equals(owner);
      await().atMost(Form.SOON).until(() -> readings(patroni) > before);
      double stored = secondsSince(from);

      comeBack(trouble, patroni, lost);
      load.awaitMore(ENOUGH);
      load.finish();
      long sent = load.acknowledged();
      await().atMost(Form.SOON).until(() -> readings(patroni) >= sent);
      Tally tally = kept ? first.settled() : Health.settled(() -> second.join().grower());
      assertEquals(kept ? "0" : "1", ask(patroni, "SELECT count(*) FROM take_over"), "take-overs");
      assertSameOnBoth(patroni);
      Stored inAll = Stored.of(ask(patroni, Stored.IN_POSTGRES));
      new Row(
              "%s; another one leads after %.1f s, %s service stores after %.1f s"
                  .formatted(trouble.words, led, kept ? "the same" : "the other", stored),
              tally,
              load.lost(inAll.seconds()),
              inAll.repeated() + load.madeUp(inAll.seconds()),
              owned,
              GOAL_SECONDS)
          .check();
    }
  }

  /** The service that owns the database now; empty if none does. */
  private static String liveOwner(Patroni patroni) {
    return ask(patroni, "SELECT owner FROM lease WHERE ends_at > clock_timestamp()");
  }

  /** The lost server follows the new leader. */
  private static void comeBack(Trouble trouble, Patroni patroni, int lost) {
    if (trouble == Trouble.FROZEN) {
      patroni.thaw(lost);
    } else {
      patroni.start(lost);
    }
    patroni.awaitStandby();
    // A thawed one takes itself for the leader until Patroni looks.
    await().atMost(Form.SOON).until(() -> patroni.leader().filter(one -> one != lost).isPresent());
  }

  private static void assertSameOnBoth(Patroni patroni) {
    String sql = "SELECT count(*) FROM readings.reading";
    await()
        .atMost(Duration.ofSeconds(30))
        .untilAsserted(
            () -> assertEquals(patroni.ask(1, DATABASE, sql), patroni.ask(2, DATABASE, sql)));
  }

  private static long readings(Patroni patroni) {
    return Long.parseLong(ask(patroni, "SELECT count(temperature) FROM readings.reading"));
  }

  private static String ask(Patroni patroni, String sql) {
    return patroni.ask(DATABASE, sql);
  }

  /** An owner without the mark of its start. */
  private static String service(String owner) {
    return owner.replaceFirst("\\.[0-9a-f]{8}$", "");
  }

  private static double secondsSince(long nanos) {
    return (System.nanoTime() - nanos) / 1e9;
  }
}
