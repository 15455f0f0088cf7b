package tepidarium.faults;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tepidarium.it.Grower;
import tepidarium.it.Mosquitto;
import tepidarium.it.RunningService;

/** A broker of others, killed and started again while sensors publish. */
class BrokerRestartIT {
  private static final int KILLS = Form.of(1, 20);
  private static final int SECONDS_UP = Form.of(2, 8);
  private static final int SENSORS = 4;

  /** Mosquitto saves after every change here; a busy machine may be late with that. */
  private static final double SAVED_WITHIN_SECONDS = 5;

  @TempDir private Path folder;

  @Test
  void onlyWhatTheBrokerHadNotSavedIsLost() {
    Path data = folder.resolve("data");
    List<Long> ends = new ArrayList<>();
    double slowest = 0;
    try (Mosquitto broker =
            Mosquitto.started(
                folder.resolve("mosquitto"), "autosave_interval 1", "autosave_on_changes true");
        RunningService service = RunningService.withBroker(data, broker.port())) {
      Grower grower = new Grower(service.api());
      grower.awaitBroker();
      try (Load load = Load.on(broker.port(), SENSORS)) {
        for (int kill = 1; kill <= KILLS; kill++) {
          load.awaitMore(200);
          Form.last(SECONDS_UP);
          broker.kill();
          ends.add(System.nanoTime());
          Health.awaitTrouble(() -> grower);
          broker.start();
          slowest = Math.max(slowest, Health.secondsUntilUp(() -> grower, System.nanoTime()));
        }
        load.finish();
        // The last readings after the last kill: once they are there, so is all before them.
        Tally tally = settled(grower);

        Stored stored = Stored.in(data);
        assertEquals(
            List.of(),
            load.secondsBefore(ends, stored.seconds()).stream()
                .filter(seconds -> seconds > SAVED_WITHIN_SECONDS)
                .toList(),
            "lost although the broker had time to save them");
        assertEquals(stored.rows(), tally.stored());
        new Row(
                "Mosquitto killed " + KILLS + " times",
                tally,
                load.lost(stored.seconds()),
                stored.repeated() + load.madeUp(stored.seconds()),
                slowest)
            .checkButFor("lost by Mosquitto between its last save and the kill");
      }
    }
  }

  /** The broker does not tell when it has nothing more: nothing must have come for a while. */
  private static Tally settled(Grower grower) {
    Tally[] last = {Tally.NOTHING};
    await()
        .atMost(Form.SOON)
        .pollInterval(java.time.Duration.ofSeconds(2))
        .until(
            () -> {
              Tally now = Tally.of(grower);
              boolean quiet = now.equals(last[0]) && now.addsUp();
              last[0] = now;
              return quiet;
            });
    return last[0];
  }
}
