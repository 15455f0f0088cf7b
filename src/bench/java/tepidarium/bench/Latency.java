package tepidarium.bench;

import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.net.http.HttpResponse.BodyHandlers;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.stream.Stream;
import tepidarium.it.Ports;
import tepidarium.it.ServiceProcess;

/**
 * How long one reading takes from the publishing to the row that another program sees in the file,
 * and to the live stream of a page, while ten other sensors report a hundred times a second
 * together. Embedded broker, SQLite.
 */
final class Latency {
  private static final int CONTAINERS = 6;
  private static final int SENSORS = 12;
  private static final long PAUSE_MS = 110;

  private final Path folder;
  private final int probes;

  /** When a live event that shows a reading of this instant came, by the monotonic clock. */
  private final Map<String, Long> seenNanos = new ConcurrentHashMap<>();

  private volatile boolean enough;

  Latency(Path folder, int probes) {
    this.folder = folder;
    this.probes = probes;
  }

  void run(Report report) throws Exception {
    Site site = Site.fresh(folder.resolve("latency"));
    site.plant(CONTAINERS, SENSORS / CONTAINERS);
    int port = Ports.free();
    List<Double> durable = new ArrayList<>();
    List<Double> live = new ArrayList<>();
    try (ServiceProcess service = site.start(port, Site.EMBEDDED, Site.SMALL, Map.of());
        Sensor probe = new Sensor(port, "probe");
        Connection file =
            DriverManager.getConnection("jdbc:sqlite:" + site.data().resolve("readings.db"))) {
      listen(service.grower().api().base());
      Thread others = others(port);
      measure(probe, file, probes / 4, new ArrayList<>(), new ArrayList<>());
      measure(probe, file, probes, durable, live);
      enough = true;
      Wait.toEnd(others);
      report.figure(
          "six containers, 100 readings/s, service's process with its broker and store",
          "256 MB",
          "at most "
              + Report.figure(new ProcessFigures(service.pid()).peakMegabytes())
              + " MiB resident");
    }
    tell(report, "publish to durable row", durable);
    tell(report, "publish to a page's live stream (told once a second, by design)", live);
  }

  private static void tell(Report report, String what, List<Double> milliseconds) {
    report.figure(
        what + ", embedded broker, SQLite, 100 readings/s beside",
        "",
        "p50 "
            + Report.figure(Stores.percentile(milliseconds, 0.5))
            + " ms, p99 "
            + Report.figure(Stores.percentile(milliseconds, 0.99))
            + " ms");
  }

  private Thread others(int port) {
    Thread thread =
        new Thread(
            () -> {
              try (Load load = new Load(port, 1, SENSORS - 2)) {
                while (!enough) {
                  load.send(1, 1);
                  Wait.pause(100);
                }
              }
            },
            "other-sensors");
    thread.start();
    return thread;
  }

  private void measure(
      Sensor probe, Connection file, int count, List<Double> durable, List<Double> live)
      throws SQLException {
    String sql = "SELECT 1 FROM reading JOIN sensor ON id = sensor_id WHERE name = ? AND at_ms = ?";
    try (PreparedStatement look = file.prepareStatement(sql)) {
      for (int i = 0; i < count; i++) {
        Instant at = Instant.ofEpochMilli(System.currentTimeMillis());
        String payload = "{\"temperature\":30.25,\"at\":\"" + at + "\"}";
        long start = System.nanoTime();
        probe.publish(Load.topic(SENSORS - 1), payload.getBytes(StandardCharsets.UTF_8));
        probe.flush();
        look.setString(1, Load.sensor(SENSORS - 1).name());
        look.setLong(2, at.toEpochMilli());
        Wait.until("the row is there", 0, () -> isThere(look));
        durable.add((System.nanoTime() - start) / 1e6);
        probe.settle();
        Wait.until("the page is told", 1, () -> seenNanos.containsKey(at.toString()));
        live.add((seenNanos.get(at.toString()) - start) / 1e6);
        // Not in step with the page's own beat.
        Wait.pause(i * 37L % PAUSE_MS);
      }
    }
  }

  private static boolean isThere(PreparedStatement look) {
    try (ResultSet row = look.executeQuery()) {
      return row.next();
    } catch (SQLException e) {
      throw new IllegalStateException(e);
    }
  }

  /** Opens the stream as a page does, and notes when an instant is first told. */
  private void listen(String base) {
    HttpRequest request =
        HttpRequest.newBuilder(URI.create(base + "/api/live"))
            .header("Accept", "text/event-stream")
            .build();
    HttpResponse<Stream<String>> response =
        HttpClient.newHttpClient().sendAsync(request, BodyHandlers.ofLines()).join();
    String sensor = Load.sensor(SENSORS - 1).name();
    Thread reader =
        new Thread(
            () -> {
              try (Stream<String> lines = response.body()) {
                lines.filter(line -> line.contains(sensor)).forEach(this::note);
              } catch (RuntimeException e) {
                // The service has ended.
              }
            },
            "page");
    reader.setDaemon(true);
    reader.start();
  }

  private void note(String line) {
    long now = System.nanoTime();
    int from = line.indexOf("T", 1);
    while (from > 0) {
      int end = line.indexOf('Z', from);
      if (end > 0 && from >= 10 && line.charAt(from - 1) <= '9') {
        seenNanos.putIfAbsent(line.substring(from - 10, end + 1), now);
      }
      from = line.indexOf("T", from + 1);
    }
  }
}
