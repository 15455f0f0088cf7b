package tepidarium.faults;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;

import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tepidarium.it.Ports;
import tepidarium.it.ServiceProcess;

/** The whole service, its broker inside, ended again and again while sensors publish. */
class KillUnderLoadIT {
  private static final int KILLS = Form.of(1, 50);
  private static final int STOPS = Form.of(1, 20);
  private static final int SENSORS = 4;
  private static final int ENOUGH = 500;

  @TempDir private Path folder;

  /** While the broker lets go of its queues at a stop in order, sensors are still connected. */
  @Test
  void everyAcknowledgedReadingIsThereOnceAfterEveryKillAndStop() {
    Path data = folder.resolve("data");
    int port = Ports.free();
    double slowest = 0;
    try (Supervised service = Supervised.start(() -> ServiceProcess.start(data, port, "embedded"));
        Load load = Load.on(port, SENSORS)) {
      for (int time = 1; time <= KILLS + STOPS; time++) {
        load.awaitMore(ENOUGH);
        int restarts = time;
        long from = System.nanoTime();
        if (time <= KILLS) {
          service.kill();
        } else {
          service.stop();
        }
        await().atMost(Form.SOON).until(() -> service.restarts() == restarts);
        slowest = Math.max(slowest, Health.secondsUntilUp(service::grower, from));
      }
      load.finish();
      await().atMost(Form.SOON).until(() -> load.lost(Stored.in(data).seconds()) == 0);
      Tally tally = service.settled();

      Stored stored = Stored.in(data);
      assertEquals(load.acknowledged(), stored.rows());
      new Row(
              "service killed " + KILLS + " times (kill -9), stopped in order " + STOPS + " times",
              tally,
              load.lost(stored.seconds()),
              stored.repeated() + load.madeUp(stored.seconds()),
              slowest)
          .check();
    }
  }
}
