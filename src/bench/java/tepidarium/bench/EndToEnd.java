package tepidarium.bench;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import tepidarium.it.Grower;
import tepidarium.it.Influx;
import tepidarium.it.Mosquitto;
import tepidarium.it.Ports;
import tepidarium.it.ServiceProcess;

/**
 * From the publisher to the durable row, quality of service 1, twelve sensors in six containers,
 * against two ceilings of the same run: Paho's client that only counts at the same broker, and the
 * bare insert into the same store.
 */
final class EndToEnd {
  private static final int CONTAINERS = 6;
  private static final int SENSORS = 12;
  private static final int CONNECTIONS = 8;
  private static final int BURST = 50;

  private final Path folder;
  private final int readings;
  private final int rounds;

  EndToEnd(Path folder, int readings, int rounds) {
    this.folder = folder;
    this.readings = readings / SENSORS * SENSORS;
    this.rounds = rounds;
  }

  void run(Report report) throws Exception {
    try (Influx influx = Influx.started(Site.fresh(folder.resolve("influx")).data())) {
      double sqlite = new Stores(folder, readings).bareSqlite(readings, 5_000);
      double client = Stores.bareInflux(influx, "bare", readings);
      for (boolean embedded : new boolean[] {true, false}) {
        List<Run> bare = new ArrayList<>();
        List<Run> inSqlite = new ArrayList<>();
        List<Run> inInflux = new ArrayList<>();
        for (int round = 0; round < rounds; round++) {
          bare.add(with(embedded, this::bareSubscriber));
          inSqlite.add(with(embedded, (broker, port) -> service(broker, port, null)));
          String database = "ours" + round + embedded;
          Map<String, String> there =
              Map.of(
                  "TEPIDARIUM_INFLUX_URL",
                  influx.address(database).url(),
                  "TEPIDARIUM_INFLUX_DATABASE",
                  database);
          inInflux.add(with(embedded, (broker, port) -> service(broker, port, there)));
        }
        String broker = embedded ? "embedded broker" : "Mosquitto";
        tell(report, broker + " to SQLite", inSqlite, bare, sqlite);
        tell(report, broker + " to InfluxDB", inInflux, bare, client);
      }
    }
  }

  private static void tell(
      Report report, String what, List<Run> runs, List<Run> bare, double insert) {
    double subscriber = median(bare, Run::rate);
    String slower = subscriber < insert ? "bare subscriber" : "bare insert";
    String other =
        subscriber < insert
            ? "; bare insert: " + Report.figure(insert)
            : "; bare subscriber: " + Report.figure(subscriber);
    report.ratio(
        what + ", end to end" + other,
        "at least 0.8",
        " readings/s",
        median(runs, Run::rate),
        slower,
        Math.min(subscriber, insert));
    report.ratio(
        what + " at full speed, time on the processors for 1,000 readings",
        "",
        " s",
        median(runs, Run::cpuSeconds),
        "bare subscriber",
        median(bare, Run::cpuSeconds));
    report.figure(
        what + " at full speed, memory of the service's process",
        "",
        "at most " + Report.figure(median(runs, Run::megabytes)) + " MiB resident");
  }

  private static double median(List<Run> runs, Function<Run, Double> figure) {
    return Stores.median(runs.stream().map(figure).toList());
  }

  /** What one run gave; the CPU time is for 1,000 readings. */
  private record Run(double rate, double cpuSeconds, double megabytes) {}

  private interface Measured<T> {
    T run(String broker, int port) throws Exception;
  }

  private <T> T with(boolean embedded, Measured<T> measured) throws Exception {
    if (embedded) {
      return measured.run(Site.EMBEDDED, Ports.free());
    }
    Path own = Site.fresh(folder.resolve("mosquitto")).data();
    try (Mosquitto broker = Mosquitto.started(own, "max_inflight_messages 0")) {
      return measured.run("tcp://127.0.0.1:" + broker.port(), broker.port());
    }
  }

  private Run bareSubscriber(String broker, int port) {
    Path own = Site.fresh(folder.resolve("bare-broker")).data();
    try (Helper subscriber = Helper.bareSubscriber(broker, port, own);
        Load load = new Load(port, CONNECTIONS, SENSORS)) {
      long warmUp = readings / 2 / SENSORS;
      load.send((int) warmUp, BURST);
      subscriber.ask(String.valueOf(warmUp * SENSORS), "reached");
      return measured(
          subscriber.pid(),
          load,
          () -> subscriber.ask(String.valueOf(warmUp * SENSORS + readings), "reached"));
    }
  }

  private Run service(String broker, int port, @Nullable Map<String, String> influx) {
    Site site = Site.fresh(folder.resolve("service"));
    site.plant(CONTAINERS, SENSORS / CONTAINERS);
    int own = broker.equals(Site.EMBEDDED) ? port : Ports.free();
    Map<String, String> settings = influx == null ? Map.of() : influx;
    try (ServiceProcess service = site.start(own, broker, Site.SMALL, settings);
        Load load = new Load(port, CONNECTIONS, SENSORS)) {
      Grower grower = service.grower();
      long warmUp = readings / 2 / SENSORS;
      load.send((int) warmUp, BURST);
      awaitStored(grower, warmUp * SENSORS);
      return measured(service.pid(), load, () -> awaitStored(grower, warmUp * SENSORS + readings));
    }
  }

  private Run measured(long pid, Load load, Runnable awaitAll) {
    ProcessFigures process = new ProcessFigures(pid);
    double before = process.cpuSeconds();
    long start = System.nanoTime();
    load.send(readings / SENSORS, BURST);
    awaitAll.run();
    double seconds = Wait.secondsSince(start);
    double cpu = process.cpuSeconds() - before;
    return new Run(readings / seconds, cpu / readings * 1_000, process.peakMegabytes());
  }

  /** Until so many are durable; that is the service's own count, which its tests hold it to. */
  static void awaitStored(Grower grower, long count) {
    Wait.until(count + " readings stored", 50, () -> grower.count("stored") >= count);
  }
}
