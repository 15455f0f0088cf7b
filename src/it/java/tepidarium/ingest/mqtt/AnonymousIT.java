package tepidarium.ingest.mqtt;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.IOException;
import java.net.InetAddress;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tepidarium.it.Ports;
import tepidarium.it.RawMqtt;

/** Clients of the embedded broker without an account, from an address that counts as elsewhere. */
class AnonymousIT {
  private static final int NOT_AUTHORIZED = 0x87;

  /** Another loopback address stands for another machine, because a test has no second one. */
  private static final String ELSEWHERE = "127.0.0.2";

  @Test
  void aClientFromElsewhereNeedsAnAccount(@TempDir Path folder) throws IOException {
    int port = Ports.free();
    InetAddress elsewhere = InetAddress.getByName(ELSEWHERE);
    BrokerClients clients =
        new BrokerClients(
            name ->
                name.equals("jar-1")
                    ? new BrokerClients.Account(
                        "right"::equals, false, List.of("tepidarium/jar-1/#"), List.of())
                    : null,
            () -> 1,
            address -> !address.equals(elsewhere),
            false);
    BrokerAccounts accounts = OpenAccounts.of(clients, (topic, reason) -> {});
    BrokerLimits limits =
        BrokerLimits.of(1 << 20, 10, Duration.ofDays(1), 16L << 20, topic -> null);
    try (EmbeddedBroker broker =
        EmbeddedBroker.start(new SensorPorts("127.0.0.1", port, null), folder, accounts, limits)) {
      broker.openSensorPort();
      try (RawMqtt stranger = RawMqtt.from(ELSEWHERE, port, 5)) {
        assertEquals(NOT_AUTHORIZED, stranger.connect("jar-1", null, null, null, 0).reason());
      }
      assertEquals(
          new AnonymousRefusals.Summary(1, "jar-1", ELSEWHERE), broker.anonymousRefusals());
      // On this machine, the sensor needs no account; with one, it keeps its client id.
      try (RawMqtt here = RawMqtt.connected(port, 5, "jar-1");
          RawMqtt sensor = RawMqtt.from(ELSEWHERE, port, 5)) {
        assertEquals(0, here.publish("tepidarium/jar-2", "1").reason());
        assertEquals(0, sensor.connect("jar-1", "jar-1", "right", null, 0).reason());
        assertEquals(0, sensor.publish("tepidarium/jar-1", "1").reason());
        assertEquals(NOT_AUTHORIZED, sensor.publish("tepidarium/jar-2", "1").reason());
      }
    }
  }
}
