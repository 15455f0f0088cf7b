package tepidarium.it;

import java.nio.file.Path;
import org.junit.jupiter.api.Assertions;

/** The brokers that the service works with. */
public enum BrokerKind {
  /** The one inside the service. */
  EMBEDDED,
  /** One of others. */
  MOSQUITTO;

  /** A service with such a broker, and what is needed to end and restart it. */
  public static final class Site implements AutoCloseable {
    private final Path data;
    private final Mosquitto mosquitto;
    private final int embeddedPort = Ports.free();
    private RunningService service;

    Site(Path data, Mosquitto mosquitto) {
      this.data = data;
      this.mosquitto = mosquitto;
    }

    /** Starts the service, on the same data and the same broker's port each time. */
    public void start() {
      Assertions.assertNull(service, "it runs already");
      service =
          mosquitto == null
              ? RunningService.embedded(data, embeddedPort)
              : RunningService.withBroker(data, mosquitto.port());
    }

    /** Stops the service; a broker of others runs on. */
    public void stop() {
      if (service != null) {
        service.close();
        service = null;
      }
    }

    public Grower grower() {
      return new Grower(service.api());
    }

    public int port() {
      return service.mqttPort();
    }

    @Override
    public void close() {
      stop();
      if (mosquitto != null) {
        mosquitto.close();
      }
    }
  }

  /** A running service with such a broker, its files in the folder. */
  public Site site(Path folder) {
    Mosquitto mosquitto = this == MOSQUITTO ? Mosquitto.started(folder.resolve("mosquitto")) : null;
    Site site = new Site(folder.resolve("data"), mosquitto);
    site.start();
    return site;
  }
}
