package tepidarium.app;

import java.net.Inet4Address;
import java.net.InetAddress;
import java.net.NetworkInterface;
import java.net.SocketException;
import java.time.Clock;
import java.util.ArrayList;
import java.util.Collections;
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
import tepidarium.reading.SensorId;
import tepidarium.series.StoreException;
import tepidarium.series.UncertainReadings;
import tepidarium.web.system.ServiceFacts;

/** Answers the questions of the pages about the service itself: version, setup, health. */
final class Facts implements ServiceFacts {
  /** Largest number of sensors that a message names. */
  private static final int MOST_NAMED = 5;

  private final Config config;
  private final boolean demo;
  private final Intake intake;
  private final SensorLimit names;
  private final Clock clock;
  private final Stores stores;
  private final DataParts dataParts;
  private volatile @Nullable MqttLink link;
  private volatile Supplier<Map<String, Part>> brokerParts = Map::of;
  private volatile Supplier<Map<String, Part>> more = Map::of;
  private volatile boolean started;

  Facts(
      Config config,
      boolean demo,
      Intake intake,
      SensorLimit names,
      Stores stores,
      DataParts dataParts,
      Clock clock) {
    this.dataParts = dataParts;
    this.names = names;
    this.clock = clock;
    this.stores = stores;
    this.config = config;
    this.demo = demo;
    this.intake = intake;
  }

  /** Adds the health of further parts. Call it before the pages start. */
  void more(Supplier<Map<String, Part>> parts) {
    more = parts;
  }

  /** Adds the link to the broker, and the health of the parts of an embedded broker. */
  void link(MqttLink link, Supplier<Map<String, Part>> broker) {
    this.link = link;
    brokerParts = broker;
  }

  /**
   * Call this once the link is up or its time to come up is over. A link that is down counts as
   * trouble from then on.
   */
  void started() {
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
            ? new Mqtt(true, hosts(), config.mqttPort(), config.rootTopic())
            : external();
    return new Setup(demo, config.timeZone().getId(), config.maxGapMinutes(), mqtt);
  }

  private Mqtt external() {
    java.net.URI uri = java.net.URI.create(config.broker());
    return new Mqtt(false, List.of(uri.getHost()), uri.getPort(), config.rootTopic());
  }

  /** Addresses at which a sensor can reach the embedded broker. */
  private List<String> hosts() {
    if (!config.mqttHost().equals("0.0.0.0") && !config.mqttHost().equals("::")) {
      return List.of(config.mqttHost());
    }
    List<String> hosts = new ArrayList<>();
    try {
      for (NetworkInterface network : Collections.list(NetworkInterface.getNetworkInterfaces())) {
        for (InetAddress address : Collections.list(network.getInetAddresses())) {
          if (address instanceof Inet4Address && !address.isLoopbackAddress()) {
            hosts.add(address.getHostAddress());
          }
        }
      }
    } catch (SocketException e) {
      // No network to name; the loopback address below still works on this machine.
    }
    return hosts.isEmpty() ? List.of("127.0.0.1") : hosts;
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
    String tooMany = names.trouble(clock.instant());
    parts.put("sensors", tooMany == null ? Part.up(names.summary()) : Part.down(tooMany));
    parts.put("records", records());
    if (!dataParts.notes().isEmpty()) {
      parts.put("dataFolder", Part.up(String.join(" ", dataParts.notes())));
    }
    parts.putAll(brokerParts.get());
    parts.putAll(more.get());
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

  /** Tells how many stored readings have an uncertain time, and what the grower can do. */
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
            .limit(MOST_NAMED)
            .collect(Collectors.joining(", "));
    int more = Math.max(0, uncertain.size() - MOST_NAMED);
    return Part.up(
        readings
            + " readings waited in the broker without a time of their own, from "
            + sensors
            + (more > 0 ? " and " + more + " more" : "")
            + ". They are kept, but left out of heat, light, limits and charts, as their time is"
            + " uncertain. Let the sensor send at with each reading");
  }

  private Part records() {
    try {
      stores
          .records()
          .transaction(handle -> handle.createQuery("SELECT 1").mapTo(Integer.class).one());
      return Part.up("answering");
    } catch (StoreException e) {
      return Part.down(String.valueOf(e.getMessage()));
    }
  }

  @Override
  public IntakeCounts counts() {
    return intake.counts();
  }
}
