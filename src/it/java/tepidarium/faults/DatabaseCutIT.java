package tepidarium.faults;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.DynamicTest.dynamicTest;

import java.nio.file.Path;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.api.io.TempDir;
import tepidarium.it.Mosquitto;
import tepidarium.it.Ports;
import tepidarium.it.Postgres;
import tepidarium.it.SeparateNetwork;
import tepidarium.it.ServiceProcess;

/**
 * PostgreSQL in a network of its own, whose cable to the service is cut while sensors publish: no
 * packet passes, and no connection ends. Long form only, as root. {@code TakeOverIT} cuts one of
 * two services off.
 */
class DatabaseCutIT {
  private static final String DATABASE = "garden";
  private static final int SENSORS = 4;
  private static final int ENOUGH = 300;
  private static final int SECONDS_CUT = 20;
  private static final int GOAL_SECONDS = 15;

  @TempDir private Path folder;

  @TestFactory
  Stream<DynamicTest> noReadingIsLostOrDoubled() {
    return Stream.of("true", "false")
        .limit(Form.of(0, 2))
        .map(standby -> dynamicTest("standby: " + standby, () -> drive(standby)));
  }

  private void drive(String standby) {
    try (SeparateNetwork network = SeparateNetwork.made(2);
        Postgres postgres = Postgres.started(network);
        Mosquitto broker = Mosquitto.started(folder.resolve("mosquitto-" + standby))) {
      postgres.create(DATABASE);
      try (Supervised service = Supervised.start(() -> start(postgres, broker, standby));
          Load load = Load.on(broker.port(), SENSORS)) {
        load.awaitMore(ENOUGH);
        await().atMost(Form.SOON).until(() -> readings(postgres) > 0);
        long storedAtCut = readings(postgres);
        long sentAtCut = load.acknowledged();
        network.cable().cut();
        Form.last(SECONDS_CUT);
        network.cable().join();
        long from = System.nanoTime();
        long before = readings(postgres);
        long sentMeanwhile = load.acknowledged() - sentAtCut;
        assertTrue(before - storedAtCut < sentMeanwhile / 2, "the cut kept readings away");
        await().atMost(Form.SOON).until(() -> readings(postgres) > before);
        double seconds = (System.nanoTime() - from) / 1e9;
        load.awaitMore(ENOUGH);
        load.finish();
        long sent = load.acknowledged();
        await().atMost(Form.SOON).until(() -> readings(postgres) >= sent);
        Tally tally = service.settled();
        assertEquals(standby.equals("true"), service.restarts() > 0);
        Stored stored = Stored.of(postgres.ask(DATABASE, Stored.IN_POSTGRES).get(0));
        new Row(
                "service and PostgreSQL cut off from one another for 20 s, "
                    + (standby.equals("true") ? "with standby" : "without standby"),
                tally,
                load.lost(stored.seconds()),
                stored.repeated() + load.madeUp(stored.seconds()),
                seconds,
                GOAL_SECONDS)
            .check();
      }
    }
  }

  private ServiceProcess start(Postgres postgres, Mosquitto broker, String standby) {
    return ServiceProcess.start(
        folder.resolve("data-" + standby),
        Ports.free(),
        "tcp://127.0.0.1:" + broker.port(),
        Postgres.environment(postgres.url(DATABASE), Boolean.parseBoolean(standby)));
  }

  private static long readings(Postgres postgres) {
    return Long.parseLong(
        postgres.ask(DATABASE, "SELECT count(temperature) FROM readings.reading").get(0));
  }
}
