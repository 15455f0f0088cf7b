package tepidarium.faults;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
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
 * alone or together with the working service, cut off from its standby, or from its standby and
 * etcd. Long form only, as root: it needs the packages of Patroni and etcd, and networks.
 */
class PatroniIT {
  private static final String DATABASE = "garden";
  private static final int SENSORS = 4;
  private static final int ENOUGH = 300;
  private static final int GOAL_SECONDS = 20;
  private static final int SECONDS_CUT = 20;

  @TempDir private Path folder;

  private enum Trouble {
    KILLED("leader under Patroni: SIGKILL"),
    FROZEN("leader under Patroni: SIGSTOP"),
    OWNER_TOO("working service and leader under Patroni: SIGKILL"),
    STANDBY_CUT_OFF("leader under Patroni and its standby cut off from one another"),
    ISOLATED("leader under Patroni cut off from etcd and from its standby, not from the services");

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
      switch (trouble) {
        case KILLED -> patroni.kill(lost);
        case FROZEN -> patroni.freeze(lost);
        case OWNER_TOO -> {
          first.end();
          patroni.kill(lost);
        }
        case STANDBY_CUT_OFF -> patroni.cutStandby();
        case ISOLATED -> patroni.isolate(lost);
      }
      int leads = trouble == Trouble.STANDBY_CUT_OFF ? lost : 3 - lost;
      await("a leader that waits for nobody lost")
          .atMost(Form.SOON)
          .until(() -> patroni.leads(leads) && !patroni.waits(leads));
      double led = secondsSince(from);
      assertFalse(patroni.leads(3 - leads), "two leaders");
      long before = readings(patroni);
      await().atMost(Form.SOON).until(() -> !liveOwner(patroni).isEmpty());
      double owned = secondsSince(from);
      await().atMost(Form.SOON).until(() -> readings(patroni) > before);
      double stored = secondsSince(from);
      boolean kept = service(ask(patroni, "SELECT owner FROM lease")).equals(owner);

      comeBack(trouble, patroni, lost, leads);
      load.awaitMore(ENOUGH);
      load.finish();
      long sent = load.acknowledged();
      await().atMost(Form.SOON).until(() -> readings(patroni) >= sent);
      Tally tally = kept ? first.settled() : Health.settled(() -> second.join().grower());
      assertEquals(kept ? "0" : "1", ask(patroni, "SELECT count(*) FROM take_over"), "take-overs");
      assertSameOnBoth(patroni);
      Stored inAll = Stored.of(ask(patroni, Stored.IN_POSTGRES));
      new Row(
              "%s; %s after %.1f s, %s service stores after %.1f s"
                  .formatted(
                      trouble.words,
                      leads == lost ? "it goes on alone" : "another one leads",
                      led,
                      kept ? "the same" : "the other",
                      stored),
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

  /** The lost server follows the new leader; one that was cut off does so after a while. */
  private static void comeBack(Trouble trouble, Patroni patroni, int lost, int leads) {
    switch (trouble) {
      case KILLED, OWNER_TOO -> patroni.start(lost);
      case FROZEN -> patroni.thaw(lost);
      case STANDBY_CUT_OFF -> {
        Form.last(SECONDS_CUT);
        patroni.joinStandby();
      }
      case ISOLATED -> {
        Form.last(SECONDS_CUT);
        patroni.rejoin(lost);
      }
    }
    patroni.awaitStandby();
    // A thawed one takes itself for the leader until Patroni looks.
    await().atMost(Form.SOON).until(() -> patroni.leader().filter(one -> one == leads).isPresent());
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
