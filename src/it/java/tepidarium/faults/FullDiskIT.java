package tepidarium.faults;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;

import java.nio.file.Path;
import java.util.List;
import java.util.function.Function;
import java.util.stream.Stream;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import tepidarium.it.Mosquitto;
import tepidarium.it.Ports;
import tepidarium.it.ServiceProcess;

/** A disk that takes nothing more for a while, under a service that is busy. */
class FullDiskIT {
  private static final int SECONDS = Form.of(3, 30);
  private static final int SENSORS = 4;
  private static final int ENOUGH = 500;

  @TempDir private Path folder;

  private record Case(String name, boolean embedded, Function<Path, Shortage> shortage) {
    @Override
    public String toString() {
      return name;
    }
  }

  /**
   * The system's limit, which stops every file at once, and in the long form full disks too, where
   * the test may mount some.
   */
  static Stream<Case> cases() {
    Case limited = new Case("file size limit, embedded broker", true, Shortage::fileSizeLimit);
    Case embedded = new Case("full disk, embedded broker", true, Shortage::fullDisk);
    Case mosquitto = new Case("full disk, Mosquitto", false, Shortage::fullDisk);
    boolean mounts = Form.of(0, 1) == 1 && SmallDisk.canMount();
    return mounts ? Stream.of(limited, embedded, mosquitto) : Stream.of(limited);
  }

  @ParameterizedTest
  @MethodSource("cases")
  void onceThereIsSpaceAgainNothingIsLostAndHealthIsUp(Case fault) {
    int port = Ports.free();
    Mosquitto mosquitto = fault.embedded() ? null : Mosquitto.started(folder.resolve("mosquitto"));
    int sensorPort = mosquitto == null ? port : mosquitto.port();
    String broker = mosquitto == null ? "embedded" : "tcp://127.0.0.1:" + mosquitto.port();
    try (Shortage shortage = fault.shortage().apply(folder);
        Supervised service =
            Supervised.start(() -> ServiceProcess.start(folder, shortage.data(), port, broker));
        Load load = Load.on(sensorPort, SENSORS)) {
      load.awaitMore(ENOUGH);
      shortage.begin(service.process().pid());
      Health.awaitTrouble(service::grower);
      Form.last(SECONDS);
      long from = System.nanoTime();
      shortage.end(service.process().pid());
      double seconds = Health.secondsUntilUp(service::grower, from);
      load.awaitMore(ENOUGH);
      load.finish();
      Path data = shortage.data();
      await().atMost(Form.SOON).until(() -> load.lost(Stored.in(data).seconds()) == 0);
      Tally tally = service.settled();

      Stored stored = Stored.in(data);
      assertEquals(load.acknowledged(), stored.rows());
      assertEquals(List.of(), service.grower().rejects("tepidarium/load-0"));
      String name = fault.name() + ", " + SECONDS + " s";
      new Row(
              service.restarts() == 0
                  ? name
                  : name + ", restarted " + service.restarts() + " times",
              tally,
              load.lost(stored.seconds()),
              stored.repeated() + load.madeUp(stored.seconds()),
              seconds)
          .check();
    } finally {
      if (mosquitto != null) {
        mosquitto.close();
      }
    }
  }
}
