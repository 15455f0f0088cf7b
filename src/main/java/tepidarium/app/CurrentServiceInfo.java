package tepidarium.app;

import java.time.Clock;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Supplier;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import tepidarium.ingest.Intake;
import tepidarium.ingest.IntakeCounts;
import tepidarium.ingest.SensorLimit;
import tepidarium.ingest.mqtt.MqttLink;
import tepidarium.postgres.PostgresAddress;
import tepidarium.reading.SensorId;
import tepidarium.series.StoreException;
import tepidarium.series.UncertainReadings;
import tepidarium.web.system.ServiceInfo;

/** Provides the pages with information about the service itself: version, setup and health. */
final class CurrentServiceInfo implements ServiceInfo {
  /** Maximum number of sensor names in a message. */
  private static final int MAX_NAMED_SENSORS = 5;

  private final Config config;
  private final boolean demo;
  private final Intake intake;
  private final SensorLimit sensorLimit;
  private final Clock clock;
  private final SensorLogins logins;
  private final Stores stores;
  private final DataParts dataParts;
  private final DiskUse diskUse;
  private volatile @Nullable MqttLink link;
  private volatile Supplier<Map<String, Part>> brokerHealth = Map::of;
  private volatile Supplier<Map<String, Part>> furtherHealth = Map::of;
  private volatile boolean started;

  CurrentServiceInfo(
      Config config,
      boolean demo,
      Intake intake,
      SensorLimit sensorLimit,
      SensorLogins logins,
      Stores stores,
      DataParts dataParts,
      DiskUse diskUse,
      Clock clock) {
    this.diskUse = diskUse;
    this.logins = logins;
    this.dataParts = dataParts;
    this.sensorLimit = sensorLimit;
    this.clock = clock;
    this.stores = stores;
    this.config = config;
    this.demo = demo;
    this.intake = intake;
  }

  /** Adds the health of further parts. Call this before the pages start. */
  void addHealth(Supplier<Map<String, Part>> health) {
    furtherHealth = health;
  }

  /** Sets the link to the broker and the source of the health of an embedded broker. */
  void setLink(MqttLink link, Supplier<Map<String, Part>> broker) {
    this.link = link;
    brokerHealth = broker;
  }

  /**
   * Marks the service as started. From then on, a link without a connection counts as down instead
   * of starting.
   */
  void markStarted() {
    started = true;
  }

  @Override
  public String version() {
    return ProductVersion.get();
  }

  @Override
  public Setup setup() {
    Mqtt mqtt =
        config.embedded()
            ? new Mqtt(
                true,
                LocalHosts.of(config.mqttHost()),
                config.mqttPort(),
                config.rootTopic(),
                logins.anonymous())
            : external();
    return new Setup(demo, config.timeZone().getId(), config.maxGapMinutes(), mqtt);
  }

  private Mqtt external() {
    java.net.URI uri = java.net.URI.create(config.broker());
    return new Mqtt(false, List.of(uri.getHost()), uri.getPort(), config.rootTopic(), null);
  }

  @Override
  public Map<String, Part> parts() {
    Map<String, Part> parts = new LinkedHashMap<>();
    parts.put("broker", broker());
    MqttLink current = link;
    String trouble =
        intake.trouble() == null && current != null ? current.whyNotStored() : intake.trouble();
    parts.put("readings", trouble == null ? stores.storage().part() : Part.down(trouble));
    String imbalance = intake.counts().imbalance();
    if (imbalance != null) {
      parts.put("counts", Part.down(imbalance));
    }
    parts.put("times", times());
    String tooMany = sensorLimit.trouble(clock.instant());
    parts.put("sensors", tooMany == null ? Part.up(sensorLimit.summary()) : Part.down(tooMany));
    parts.put("records", records());
    if (!dataParts.notes().isEmpty()) {
      parts.put("dataFolder", Part.up(String.join(" ", dataParts.notes())));
    }
    parts.putAll(brokerHealth.get());
    parts.putAll(furtherHealth.get());
    return parts;
  }

  private Part broker() {
    MqttLink current = link;
    if (current != null && current.isUp()) {
      return Part.up(current.state());
    }
    String detail = current == null ? "the broker is starting" : current.state();
    return started ? Part.down(detail) : Part.starting(detail);
  }

  /** Describes how many stored readings have an uncertain time, and what the user can do. */
  private Part times() {
    Map<SensorId, UncertainReadings> uncertain = stores.storage().source().uncertain();
    if (uncertain.isEmpty()) {
      return Part.up("every reading has a known time");
    }
    long readings = uncertain.values().stream().mapToLong(UncertainReadings::count).sum();
    String sensors =
        uncertain.keySet().stream()
            .map(SensorId::name)
            .sorted()
            .limit(MAX_NAMED_SENSORS)
            .collect(Collectors.joining(", "));
    int more = Math.max(0, uncertain.size() - MAX_NAMED_SENSORS);
    return Part.up(
        readings
            + " readings waited in the broker without a time of their own, from "
            + sensors
            + (more > 0 ? " and " + more + " more" : "")
            + ". They are stored, but not used for heat, light, limits and charts, because their"
            + " time is uncertain. Make the sensor send the field at with each reading");
  }

  private Part records() {
    try {
      stores
          .records()
          .transaction(handle -> handle.createQuery("SELECT 1").mapTo(Integer.class).one());
      PostgresAddress postgres = config.keeping().records();
      return Part.up(postgres == null ? "answering" : "answering from the database " + postgres);
    } catch (StoreException e) {
      return Part.down(String.valueOf(e.getMessage()));
    }
  }

  @Override
  public IntakeCounts counts() {
    return intake.counts();
  }

  @Override
  public Disk disk() {
    return diskUse.disk();
  }

  @Override
  public @Nullable String fatalProblem() {
    return intake.hasEnded() ? intake.trouble() : null;
  }
}
