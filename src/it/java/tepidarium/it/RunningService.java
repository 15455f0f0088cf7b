package tepidarium.it;

import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.ZoneOffset;
import java.util.HashMap;
import java.util.Map;
import tepidarium.app.Config;
import tepidarium.app.Pace;
import tepidarium.app.Service;
import tepidarium.ingest.IntakeCounts;
import tepidarium.series.influx.InfluxAddress;

/** The whole service inside the test's process, on free loopback ports, with real parts. */
public final class RunningService implements AutoCloseable {
  /** Shorter than in use, so that tests wait less for what changes by time alone. */
  private static final Pace PACE = Pace.DEFAULT.withChecks(Duration.ofMillis(200));

  private final Service service;
  private final int mqttPort;
  private final Api api;

  private RunningService(Service service, int mqttPort) {
    this.service = service;
    this.mqttPort = mqttPort;
    this.api = new Api("http://127.0.0.1:" + service.httpPort());
  }

  /** Starts with the embedded broker. */
  public static RunningService embedded(Path data) {
    return embedded(data, Ports.free());
  }

  /** Starts with the embedded broker on a port, such as that of a service which has ended. */
  public static RunningService embedded(Path data, int mqttPort) {
    return start(config(data, "embedded", mqttPort), realClock());
  }

  /** Starts with the embedded broker and the readings in InfluxDB. */
  public static RunningService withInflux(Path data, InfluxAddress influx) {
    return withInflux(data, influx, Ports.free(), 64);
  }

  /** The same with a port of the broker and a limit of the spool. */
  public static RunningService withInflux(
      Path data, InfluxAddress influx, int mqttPort, int spoolMegabytes) {
    Map<String, Object> more = new HashMap<>();
    more.put("influxUrl", influx.url());
    more.put("influxDatabase", influx.database());
    more.put("influxUser", influx.user());
    more.put("influxPassword", influx.password());
    more.put("spoolMaxMegabytes", spoolMegabytes);
    return start(config(data, "embedded", mqttPort, more), realClock());
  }

  /** Starts with a broker that runs already on this machine. */
  public static RunningService withBroker(Path data, int brokerPort) {
    return start(config(data, "tcp://127.0.0.1:" + brokerPort, brokerPort), realClock());
  }

  /** Starts with settings and a clock of the test's own. */
  public static RunningService start(Config config, Clock clock) {
    return start(config, clock, PACE);
  }

  /** The same with other intervals of the regular work. */
  public static RunningService start(Config config, Clock clock, Pace pace) {
    return new RunningService(Service.start(config, clock, pace, false), config.mqttPort());
  }

  private static Clock realClock() {
    return Clock.tickMillis(ZoneOffset.UTC);
  }

  /** The settings of a test: loopback only, days in UTC, no grace for silent sensors. */
  public static Config config(Path data, String broker, int mqttPort) {
    return config(data, broker, mqttPort, Map.of());
  }

  /** The same with further settings, by name, which win. */
  public static Config config(Path data, String broker, int mqttPort, Map<String, ?> more) {
    Map<String, Object> settings = new HashMap<>();
    settings.put("data", data.toString());
    settings.put("httpPort", 0);
    settings.put("broker", broker);
    settings.put("mqttHost", "127.0.0.1");
    settings.put("mqttPort", mqttPort);
    settings.put("silentGraceSeconds", 0);
    // One client of a test may stand for many sensors.
    settings.put("clientMessagesPerSecond", 1_000_000);
    settings.put("clientKilobytesPerSecond", 1_000_000);
    settings.put("timeZone", "UTC");
    settings.putAll(more);
    return Config.of(settings);
  }

  public Api api() {
    return api;
  }

  /** The counts of readings since the start, without a request. */
  public IntakeCounts counts() {
    return service.counts();
  }

  public int mqttPort() {
    return mqttPort;
  }

  public String url() {
    return api.base();
  }

  @Override
  public void close() {
    service.close();
  }
}
