package tepidarium.faults;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.DynamicTest.dynamicTest;

import java.nio.file.Path;
import java.time.Clock;
import java.time.ZoneOffset;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.api.io.TempDir;
import tepidarium.it.Cable;
import tepidarium.it.Grower;
import tepidarium.it.Mosquitto;
import tepidarium.it.Ports;
import tepidarium.it.RunningService;
import tepidarium.it.SeparateNetwork;

/**
 * Mosquitto in a network of its own with two cables. The one to the service is cut while sensors
 * publish over the other one: no packet passes, and no connection ends. Long form only, as root.
 */
class BrokerCutIT {
  private static final int SENSORS = 4;
  private static final int ENOUGH = 300;
  private static final int GOAL_SECONDS = 15;

  /** Both ends have given the connection up after this time. */
  private static final int KEPT_SECONDS = 45;

  @TempDir private Path folder;

  /** The connection survives the first one, and is given up by both ends in the second one. */
  @TestFactory
  Stream<DynamicTest> noReadingIsLostOrDoubled() {
    return Stream.of(20, 60)
        .limit(Form.of(0, 2))
        .map(seconds -> dynamicTest(seconds + " s", () -> drive(seconds)));
  }

  private void drive(int seconds) {
    Path data = folder.resolve("data-" + seconds);
    try (SeparateNetwork network = SeparateNetwork.made(3);
        Cable ofSensors = Cable.to(network, 4);
        Mosquitto broker = Mosquitto.started(folder.resolve("mosquitto-" + seconds), network);
        RunningService service =
            RunningService.start(
                RunningService.config(
                    data, "tcp://" + broker.host() + ':' + broker.port(), Ports.free()),
                Clock.tickMillis(ZoneOffset.UTC))) {
      Grower grower = new Grower(service.api());
      grower.awaitBroker();
      try (Load load = Load.on(ofSensors.host(), broker.port(), SENSORS)) {
        load.awaitMore(ENOUGH);
        await().atMost(Form.SOON).until(() -> Tally.of(grower).stored() > 0);
        network.cable().cut();
        long sentAtCut = load.acknowledged();
        long storedAtCut = Tally.of(grower).stored();
        Form.last(seconds);
        long sentMeanwhile = load.acknowledged() - sentAtCut;
        long before = Tally.of(grower).stored();
        assertTrue(before - storedAtCut < sentMeanwhile / 2, "the cut kept readings away");
        network.cable().join();
        long from = System.nanoTime();
        await().atMost(Form.SOON).until(() -> Tally.of(grower).stored() > before);
        double stored = (System.nanoTime() - from) / 1e9;
        load.awaitMore(ENOUGH);
        load.finish();
        Tally tally = Health.settled(() -> grower, load.acknowledged());
        assertEquals(0, tally.rejected());
        Stored all = Stored.in(data);
        new Row(
                "service and Mosquitto cut off from one another "
                    + (seconds < KEPT_SECONDS ? "briefly" : "until both ends give up"),
                tally,
                load.lost(all.seconds()),
                all.repeated() + load.madeUp(all.seconds()),
                stored,
                GOAL_SECONDS)
            .check();
      }
    }
  }
}
