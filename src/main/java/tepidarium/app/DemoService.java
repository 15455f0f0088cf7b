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

/**
 * Runs the service on a temporary folder, with simulated sensors. Deletes the folder at the end.
 */
public final class DemoService implements AutoCloseable {
  /** Short, so that the silent sensor raises its alert soon after the start. */
  private static final int SILENT_GRACE_SECONDS = 20;

  private static final int MAX_MESSAGES_PER_SECOND = 10_000;
  private static final int MAX_KILOBYTES_PER_SECOND = 10_000;

  private final Path folder;
  private final Service service;
  private final Demo demo;

  private DemoService(Path folder, Config config, Clock clock) {
    this.folder = folder;
    this.service = Service.start(config, clock, true);
    try {
      URI api = URI.create("http://" + localHost(config.httpHost()) + ':' + service.httpPort());
      URI broker = URI.create("tcp://" + localHost(config.mqttHost()) + ':' + config.mqttPort());
      this.demo =
          new Demo(new Demo.Addresses(api, broker, config.rootTopic(), config.timeZone()), clock);
    } catch (RuntimeException e) {
      service.close();
      throw e;
    }
  }

  /**
   * Starts the service and the simulated sensors; there are no readings yet.
   *
   * @param settings addresses, ports and time zone; the demo sets all other settings itself
   * @throws IllegalStateException when a part cannot start; the message names it and the remedy
   */
  public static DemoService start(Config settings, Clock clock) {
    Path folder = newFolder();
    try {
      return new DemoService(folder, config(settings, folder, clock), clock);
    } catch (RuntimeException e) {
      delete(folder);
      throw e;
    }
  }

  /**
   * Returns a site on the equator at the longitude of the time zone, where the sun rises at about
   * 06:00 each day.
   */
  private static Map<String, Double> site(ZoneId zone, Clock clock) {
    int offsetSeconds = zone.getRules().getOffset(clock.instant()).getTotalSeconds();
    double east = Math.max(-180, Math.min(180, offsetSeconds / 240.0));
    return Map.of("latitude", 0.0, "longitude", east);
  }

  private static Config config(Config settings, Path folder, Clock clock) {
    return Config.of(
        Map.ofEntries(
            Map.entry("data", folder.toString()),
            Map.entry("login", "never"),
            Map.entry("httpHost", settings.httpHost()),
            Map.entry("httpPort", settings.httpPort()),
            Map.entry("mqttHost", settings.mqttHost()),
            Map.entry("mqttPort", settings.mqttPort()),
            // One client sends four weeks of readings of all sensors at once.
            Map.entry("clientMessagesPerSecond", MAX_MESSAGES_PER_SECOND),
            Map.entry("clientKilobytesPerSecond", MAX_KILOBYTES_PER_SECOND),
            Map.entry("silentGraceSeconds", SILENT_GRACE_SECONDS),
            Map.entry("timeZone", settings.timeZone().getId()),
            Map.entry("site", site(settings.timeZone(), clock))));
  }

  /** Returns an address at which this machine can reach its own server. */
  private static String localHost(String host) {
    if (host.equals("0.0.0.0") || host.equals("::")) {
      return "127.0.0.1";
    }
    return host.contains(":") ? '[' + host + ']' : host;
  }

  private static Path newFolder() {
    try {
      return Files.createTempDirectory("tepidarium-demo-");
    } catch (IOException e) {
      throw new IllegalStateException("cannot create a temporary folder for the demo", e);
    }
  }

  /** Publishes the history, waits until it is stored, and starts the live readings. */
  public Demo.LoadedHistory loadHistory() throws InterruptedException, TimeoutException {
    return demo.loadHistory();
  }

  public int httpPort() {
    return service.httpPort();
  }

  Path folder() {
    return folder;
  }

  /** Stops the sensors and the service, and deletes the folder. */
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
