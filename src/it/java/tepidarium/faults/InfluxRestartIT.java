package tepidarium.faults;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tepidarium.it.Grower;
import tepidarium.it.Influx;
import tepidarium.it.RunningService;

/** The readings store on another machine, killed and started again while sensors publish. */
class InfluxRestartIT {
  private static final int KILLS = Form.of(1, 20);
  private static final int SECONDS_AWAY = Form.of(1, 5);
  private static final int SENSORS = 4;
  private static final int ENOUGH = 500;
  private static final String DATABASE = "tepidarium";

  @TempDir private Path folder;

  @Test
  void everyAcknowledgedReadingIsThereOnce() {
    double slowest = 0;
    try (Influx influx = Influx.started(folder.resolve("influx"));
        RunningService service =
            RunningService.withInflux(folder.resolve("data"), influx.address(DATABASE))) {
      Grower grower = new Grower(service.api());
      grower.awaitBroker();
      try (Load load = Load.on(service.mqttPort(), SENSORS)) {
        for (int kill = 1; kill <= KILLS; kill++) {
          load.awaitMore(ENOUGH);
          influx.kill();
          Health.awaitTrouble(() -> grower);
          load.awaitMore(ENOUGH);
          Form.last(SECONDS_AWAY);
          influx.start();
          slowest = Math.max(slowest, Health.secondsUntilUp(() -> grower, System.nanoTime()));
        }
        load.finish();
        long sent = load.acknowledged();
        Tally tally = Health.settled(() -> grower, sent);

        // A point is known by sensor and instant: as many as were sent is exactly those.
        long there = influx.count(DATABASE, "temperature");
        assertEquals(0, tally.rejected());
        new Row(
                "InfluxDB killed " + KILLS + " times",
                tally,
                Math.max(0, sent - there),
                Math.max(0, there - sent),
                slowest)
            .check();
      }
    }
  }
}
