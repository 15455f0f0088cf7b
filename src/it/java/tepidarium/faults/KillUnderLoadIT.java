package tepidarium.faults;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;

import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tepidarium.it.Ports;
import tepidarium.it.ServiceProcess;

/** The whole service, its broker inside, killed again and again while sensors publish. */
class KillUnderLoadIT {
  private static final int KILLS = Form.of(3, 50);
  private static final int SENSORS = 4;
  private static final int ENOUGH = 500;

  @TempDir private Path folder;

  @Test
  void everyAcknowledgedReadingIsThereOnceAfterEveryKill() {
    Path data = folder.resolve("data");
    int port = Ports.free();
    double slowest = 0;
    try (Supervised service = Supervised.start(() -> ServiceProcess.start(data, port, "embedded"));
        Load load = Load.on(port, SENSORS)) {
      for (int kill = 1; kill <= KILLS; kill++) {
        load.awaitMore(ENOUGH);
        int restarts = kill;
        long from = System.nanoTime();
        service.kill();
        await().atMost(Form.SOON).until(() -> service.restarts() == restarts);
        slowest = Math.max(slowest, Health.secondsUntilUp(service::grower, from));
      }
      load.finish();
      await().atMost(Form.SOON).until(() -> load.lost(Stored.in(data).seconds()) == 0);
      Tally tally = service.settled();

      Stored stored = Stored.in(data);
      assertEquals(load.acknowledged(), stored.rows());
      new Row(
              "service killed " + KILLS + " times (kill -9)",
              tally,
              load.lost(stored.seconds()),
              stored.repeated() + load.madeUp(stored.seconds()),
              slowest)
          .check();
    }
  }
}
