package tepidarium.app;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.URI;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.ZoneId;
import java.util.Comparator;
import java.util.Map;
import java.util.concurrent.TimeoutException;
import java.util.stream.Stream;
import tepidarium.app.demo.Demo;

/** The real service on a folder that is thrown away at the end, with invented sensors. */
public final class DemoService implements AutoCloseable {
  /** Short, so that the sensor that went silent raises its alert while somebody watches. */
  private static final int SILENT_GRACE_SECONDS = 20;

  private final Path folder;
  private final Service service;
  private final Demo demo;

  private DemoService(Path folder, Config config, Clock clock) {
    this.folder = folder;
    this.service = Service.start(config, clock, true);
    try {
      URI api = URI.create("http://" + local(config.httpHost()) + ':' + service.httpPort());
      URI broker = URI.create("tcp://" + local(config.mqttHost()) + ':' + config.mqttPort());
      this.demo =
          new Demo(new Demo.Addresses(api, broker, config.rootTopic(), config.timeZone()), clock);
    } catch (RuntimeException e) {
      service.close();
      throw e;
    }
  }

  /**
   * Starts everything, without readings yet.
   *
   * @param asked where to listen and where a day begins; all other settings are the demo's own
   * @throws IllegalStateException when a part cannot start; the message names it and the remedy
   */
  public static DemoService start(Config asked, Clock clock) {
    Path folder = newFolder();
    try {
      return new DemoService(folder, config(asked, folder, clock), clock);
    } catch (RuntimeException e) {
      delete(folder);
      throw e;
    }
  }

  /** On the equator, where the clocks of the zone are right: dawn is at six on every day. */
  private static Map<String, Double> site(ZoneId zone, Clock clock) {
    int offsetSeconds = zone.getRules().getOffset(clock.instant()).getTotalSeconds();
    double east = Math.max(-180, Math.min(180, offsetSeconds / 240.0));
    return Map.of("latitude", 0.0, "longitude", east);
  }

  private static Config config(Config asked, Path folder, Clock clock) {
    return Config.of(
        Map.of(
            "data", folder.toString(),
            "httpHost", asked.httpHost(),
            "httpPort", asked.httpPort(),
            "mqttHost", asked.mqttHost(),
            "mqttPort", asked.mqttPort(),
            "silentGraceSeconds", SILENT_GRACE_SECONDS,
            "timeZone", asked.timeZone().getId(),
            "site", site(asked.timeZone(), clock)));
  }

  /** An address at which this machine reaches itself. */
  private static String local(String host) {
    if (host.equals("0.0.0.0") || host.equals("::")) {
      return "127.0.0.1";
    }
    return host.contains(":") ? '[' + host + ']' : host;
  }

  private static Path newFolder() {
    try {
      return Files.createTempDirectory("tepidarium-demo-");
    } catch (IOException e) {
      throw new IllegalStateException("cannot make a temporary folder for the demo", e);
    }
  }

  /** Publishes the history, waits until it is durable, and starts the live readings. */
  public Demo.LoadedHistory loadHistory() throws InterruptedException, TimeoutException {
    return demo.loadHistory();
  }

  public int httpPort() {
    return service.httpPort();
  }

  Path folder() {
    return folder;
  }

  /** Stops everything and throws the folder away. */
  @Override
  public void close() {
    try {
      demo.close();
    } finally {
      service.close();
      delete(folder);
    }
  }

  private static void delete(Path folder) {
    try (Stream<Path> inside = Files.walk(folder)) {
      for (Path path : inside.sorted(Comparator.reverseOrder()).toList()) {
        Files.deleteIfExists(path);
      }
    } catch (IOException e) {
      throw new UncheckedIOException("cannot delete the demo's folder " + folder, e);
    }
  }
}
