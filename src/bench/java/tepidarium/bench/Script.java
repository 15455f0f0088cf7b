package tepidarium.bench;

import java.nio.file.Path;
import java.util.Map;
import tepidarium.it.Mosquitto;
import tepidarium.it.Ports;
import tepidarium.it.ServiceProcess;

/**
 * What a hobbyist would write instead, src/bench/script.py, on the same broker with the same load.
 */
final class Script {
  private static final int SENSORS = 12;
  private static final int CONNECTIONS = 8;
  private static final int BURST = 50;

  private final Path folder;
  private final int readings;

  Script(Path folder, int readings) {
    this.folder = folder;
    this.readings = readings / SENSORS * SENSORS;
  }

  void run(Report report) {
    double ours = service();
    double script = script();
    report.ratio(
        "Mosquitto to SQLite, short run",
        "",
        " readings/s",
        ours,
        "script that inserts row by row",
        script);
  }

  private Mosquitto broker() {
    Path own = Site.fresh(folder.resolve("mosquitto")).data();
    return Mosquitto.started(own, "max_inflight_messages 0");
  }

  private double service() {
    Site site = Site.fresh(folder.resolve("service"));
    site.plant(SENSORS / 2, 2);
    try (Mosquitto broker = broker();
        ServiceProcess service =
            site.start(Ports.free(), "tcp://127.0.0.1:" + broker.port(), Site.SMALL, Map.of());
        Load load = new Load(broker.port(), CONNECTIONS, SENSORS)) {
      long start = System.nanoTime();
      load.send(readings / SENSORS, BURST);
      EndToEnd.awaitStored(service.grower(), readings);
      return readings / Wait.secondsSince(start);
    }
  }

  private double script() {
    Path own = Site.fresh(folder.resolve("script")).data();
    try (Mosquitto broker = broker();
        Helper script =
            Helper.program(
                "/usr/bin/python3",
                "src/bench/script.py",
                String.valueOf(broker.port()),
                own.resolve("readings.db").toString(),
                String.valueOf(readings));
        Load load = new Load(broker.port(), CONNECTIONS, SENSORS)) {
      long start = System.nanoTime();
      load.send(readings / SENSORS, BURST);
      script.expect("done");
      return readings / Wait.secondsSince(start);
    }
  }
}
