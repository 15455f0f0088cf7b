package tepidarium.ingest;

import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.List;
import tepidarium.reading.Reading;
import tepidarium.reading.SensorId;

/** Messages to decode, all of one arrival, and what they should give. */
final class Messages {
  static final Instant ARRIVAL = Instant.parse("2026-03-01T06:00:00.250Z");
  static final SensorId BAG = new SensorId("bag-1");

  private Messages() {}

  static Decoder decoder(MappingRule... rules) {
    return new Decoder("tepidarium", List.of(rules), 65_536);
  }

  static Message message(String topic, String payload) {
    return message(topic, payload.getBytes(StandardCharsets.UTF_8), false);
  }

  static Message message(String topic, byte[] payload, boolean retained) {
    return new Message(topic, payload, retained, ARRIVAL);
  }

  static Decoded decode(String payload) {
    return decoder().decode(message("tepidarium/bag-1", payload));
  }

  static Decoded decodeRetained(String payload) {
    byte[] bytes = payload.getBytes(StandardCharsets.UTF_8);
    return decoder().decode(message("tepidarium/bag-1", bytes, true));
  }

  static Reading temperature(double celsius) {
    return temperature(ARRIVAL, celsius);
  }

  static Reading temperature(Instant at, double celsius) {
    return new Reading(BAG, at, celsius, null, null, null);
  }

  /** The reason of the only reject. */
  static String reason(Decoded decoded) {
    if (decoded.rejects().size() != 1) {
      throw new AssertionError("one reject expected: " + decoded);
    }
    return decoded.rejects().get(0).reason();
  }
}
