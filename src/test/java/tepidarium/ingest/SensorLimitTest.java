package tepidarium.ingest;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import org.junit.jupiter.api.Test;
import tepidarium.fault.ArrivalFault;
import tepidarium.reading.DeviceStatus;
import tepidarium.reading.Quantity;
import tepidarium.reading.Reading;
import tepidarium.reading.SensorId;

class SensorLimitTest {
  private static final Instant START = Messages.ARRIVAL;

  private final Decoder decoder = new Decoder("tepidarium", List.of(), 1_000);
  private final SensorLimit limit = new SensorLimit(3, 2);

  private Decoded send(String sensor, Duration later) {
    byte[] payload = "{\"temperature\":30}".getBytes(StandardCharsets.UTF_8);
    Message message =
        new Message("tepidarium/" + sensor, payload, MessageDelivery.LIVE, START.plus(later));
    return limit.limited(Messages.decode(decoder, message), message);
  }

  private boolean accepts(String sensor, Duration later) {
    Decoded decoded = send(sensor, later);
    assertEquals(1, decoded.readings().size() + decoded.rejects().size());
    return decoded.rejects().isEmpty();
  }

  @Test
  void aboveTheLimitOnlyAFewNewNamesPerHourAreAccepted() {
    for (int i = 1; i <= 5; i++) {
      assertTrue(accepts("a" + i, Duration.ZERO), "a" + i);
    }
    Decoded sixth = send("a6", Duration.ofMinutes(1));
    assertEquals(
        "\"a6\" is a new sensor name, but 5 names are known and 2 were new this hour: remove"
            + " counters and times from names, place the sensor in a container, or raise"
            + " maxSensors or newSensorsPerHour in the settings",
        sixth.rejects().get(0).reason());
    assertEquals("{\"temperature\":30}", sixth.rejects().get(0).payload());
    assertTrue(accepts("a1", Duration.ofMinutes(1)), "a known name");
    assertTrue(accepts("a6", Duration.ofHours(1)), "an hour later");
    assertTrue(accepts("a7", Duration.ofHours(1)));
    assertTrue(!accepts("a8", Duration.ofHours(1)));
  }

  @Test
  void everyReadingOfARefusedNameIsCounted() {
    for (int i = 1; i <= 5; i++) {
      send("a" + i, Duration.ZERO);
    }
    Reading reading = Messages.temperature(30);
    DeviceStatus status = new DeviceStatus(reading.sensor(), START, -61, null);
    Decoded three =
        new Decoded(List.of(reading, reading, reading), List.of(), 0, null, status, List.of());
    Decoded limited = limit.limited(three, Messages.message("tepidarium/bag-1", "[]"));
    assertNull(limited.status());
    assertEquals(3, limited.refused());
    assertEquals(1, limited.rejects().size());
    assertTrue(limited.readings().isEmpty());
  }

  @Test
  void knownAndPlacedSensorsAreAlwaysAccepted() {
    limit.know(
        List.of(new SensorId("k1"), new SensorId("k2"), new SensorId("k3"), new SensorId("k4")),
        sensor -> sensor.name().startsWith("placed"));
    assertTrue(accepts("k4", Duration.ZERO));
    assertTrue(accepts("a1", Duration.ZERO));
    assertTrue(accepts("a2", Duration.ZERO));
    assertTrue(!accepts("a3", Duration.ZERO));
    assertTrue(accepts("placed-1", Duration.ZERO));
    assertTrue(accepts("placed-2", Duration.ZERO));
  }

  /** A placed sensor may send nothing but error values. */
  @Test
  void faultsOfKnownAndPlacedSensorsAreKept() {
    limit.know(List.of(new SensorId("known")), sensor -> sensor.name().startsWith("placed"));
    for (String name : List.of("known", "placed-1", "other")) {
      SensorId sensor = new SensorId(name);
      ArrivalFault fault = ArrivalFault.ofValue(sensor, Quantity.TEMPERATURE, START, -127);
      Decoded decoded = new Decoded(List.of(), List.of(), 1, null, null, List.of(fault));
      List<ArrivalFault> kept =
          limit.limited(decoded, Messages.message("tepidarium/" + name, "[]")).faults();
      assertEquals(name.equals("other") ? List.of() : List.of(fault), kept, name);
    }
  }

  @Test
  void rejectedNamesAreReportedForAnHour() {
    assertNull(limit.trouble(START));
    for (int i = 1; i <= 7; i++) {
      send("a" + i, Duration.ZERO);
    }
    String trouble = limit.trouble(START.plus(Duration.ofMinutes(59)));
    assertNotNull(trouble);
    assertTrue(
        trouble.startsWith(
            "2 messages with new sensor names were rejected, the last one from \"a7\"; 5 sensor"
                + " names are known."),
        trouble);
    assertNull(limit.trouble(START.plus(Duration.ofMinutes(60))));
  }
}
