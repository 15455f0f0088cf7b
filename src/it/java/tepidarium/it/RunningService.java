package tepidarium.it;

import java.nio.file.Path;
import java.time.Clock;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Map;
import tepidarium.app.Config;
import tepidarium.app.Service;
import tepidarium.ingest.MappingRule;
import tepidarium.series.influx.InfluxAddress;

/** The whole service inside the test's process, on free loopback ports, with real parts. */
public final class RunningService implements AutoCloseable {
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
    return start(config(data, "embedded", Ports.free(), List.of()), realClock());
  }

  /** Starts with the embedded broker and the readings in InfluxDB. */
  public static RunningService withInflux(Path data, InfluxAddress influx) {
    Config config = config(data, "embedded", Ports.free(), List.of());
    return start(
        new Config(
            config.data(),
            config.httpHost(),
            config.httpPort(),
            config.broker(),
            config.brokerUser(),
            config.brokerPassword(),
            config.mqttHost(),
            config.mqttPort(),
            config.accounts(),
            config.rootTopic(),
            config.mappings(),
            config.maxPayloadBytes(),
            config.maxGapMinutes(),
            config.silentAfterMinutes(),
            config.silentGraceSeconds(),
            config.timeZone(),
            new Config.Keeping(influx, 64, null),
            null,
            null),
        realClock());
  }

  /** Starts with a broker that runs already on this machine. */
  public static RunningService withBroker(Path data, int brokerPort) {
    return start(config(data, "tcp://127.0.0.1:" + brokerPort, brokerPort, List.of()), realClock());
  }

  /** Starts with settings and a clock of the test's own. */
  public static RunningService start(Config config, Clock clock) {
    return new RunningService(Service.start(config, clock, false), config.mqttPort());
  }

  private static Clock realClock() {
    return Clock.tickMillis(ZoneOffset.UTC);
  }

  /** The settings of a test: loopback only, days in UTC, no grace for silent sensors. */
  public static Config config(Path data, String broker, int mqttPort, List<MappingRule> mappings) {
    return new Config(
        data,
        "127.0.0.1",
        0,
        broker,
        null,
        null,
        "127.0.0.1",
        mqttPort,
        Map.of(),
        "tepidarium",
        mappings,
        4 << 20,
        30,
        30,
        0,
        ZoneId.of("UTC"));
  }

  public Api api() {
    return api;
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
