package tepidarium.bench;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import tepidarium.it.Ports;
import tepidarium.it.Postgres;
import tepidarium.it.ServiceProcess;

/**
 * The same sensors on one service, and halved over two: each with its own broker, and its readings
 * in a database of its own on one PostgreSQL server. As a site each would have them.
 */
final class Instances {
  private static final int SENSORS = 10_000;
  private static final int IN_EACH = 10;
  private static final int CONNECTIONS = 4;
  private static final int BURST = 50;

  private final Path folder;
  private final int each;

  /**
   * Creates the comparison.
   *
   * @param readings how many all sensors send together in each of two rounds
   */
  Instances(Path folder, int readings) {
    this.folder = folder;
    this.each = Math.max(2, readings / SENSORS);
  }

  /** A service with its load; everything that it has stored is known from its own count. */
  private record Running(ServiceProcess service, Load load, int sensors) {
    void close() {
      load.close();
      service.close();
    }
  }

  private record Rate(double readings, double cpuSeconds) {}

  void run(Report report) {
    try (Postgres server = Postgres.started("shared_buffers = 128MB", "max_wal_size = 2GB")) {
      Rate one = rate(server, 1);
      Rate two = rate(server, 2);
      report.ratio(
          "10,000 sensors over two services with a database each",
          "at least 1.5 where the cores allow",
          " readings/s",
          two.readings,
          "one service",
          one.readings);
      report.ratio(
          "the same, processors that the services used",
          "",
          "",
          two.cpuSeconds,
          "one service",
          one.cpuSeconds);
    }
  }

  private Rate rate(Postgres server, int services) {
    List<Running> running = new ArrayList<>();
    try {
      for (int i = 0; i < services; i++) {
        running.add(start(server, "site" + services + i, SENSORS / services));
      }
      send(running, 1);
      double before = cpuSeconds(running);
      long start = System.nanoTime();
      send(running, 2);
      double seconds = Wait.secondsSince(start);
      return new Rate((double) each * SENSORS / seconds, (cpuSeconds(running) - before) / seconds);
    } finally {
      running.forEach(Running::close);
    }
  }

  private Running start(Postgres server, String name, int sensors) {
    Site site = Site.fresh(folder.resolve(name));
    site.plant(sensors / IN_EACH, IN_EACH);
    int port = Ports.free();
    server.create(name);
    Map<String, String> settings =
        Map.of(
            "TEPIDARIUM_READINGS_URL",
            "postgresql://127.0.0.1:" + server.port() + '/' + name,
            "TEPIDARIUM_READINGS_USER",
            Postgres.USER,
            "TEPIDARIUM_READINGS_PASSWORD",
            Postgres.PASSWORD);
    ServiceProcess service = site.start(port, Site.EMBEDDED, Site.LARGE, settings);
    return new Running(service, new Load(port, CONNECTIONS, sensors), sensors);
  }

  private static double cpuSeconds(List<Running> running) {
    return running.stream()
        .mapToDouble(each -> new ProcessFigures(each.service.pid()).cpuSeconds())
        .sum();
  }

  /** Sends a round to all at once, and waits until so many rounds are stored. */
  private void send(List<Running> running, int rounds) {
    List<Thread> threads = new ArrayList<>();
    for (Running one : running) {
      threads.add(new Thread(() -> one.load.send(each, BURST), "instance"));
    }
    threads.forEach(Thread::start);
    threads.forEach(Wait::toEnd);
    for (Running one : running) {
      EndToEnd.awaitStored(one.service.grower(), (long) rounds * each * one.sensors);
    }
  }
}
