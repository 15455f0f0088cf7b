package tepidarium.ingest;

import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import tepidarium.reading.Reading;
import tepidarium.reading.Readings;
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
    return new Message(
        topic, payload, retained ? MessageDelivery.RETAINED : MessageDelivery.LIVE, ARRIVAL);
  }

  /** All parts of the message in one, without how its readings came. */
  static Decoded decode(Decoder decoder, Message message) {
    return decodeWithArrivals(decoder, message).with(r -> r.movedTo(r.at(), null));
  }

  /** All parts of the message in one. */
  static Decoded decodeWithArrivals(Decoder decoder, Message message) {
    List<Decoded> parts = new ArrayList<>();
    List<Boolean> lasts = new ArrayList<>();
    try {
      decoder.decode(
          message,
          (part, last) -> {
            parts.add(part);
            lasts.add(last);
          });
    } catch (InterruptedException e) {
      throw new AssertionError(e);
    }
    if (lasts.indexOf(true) != lasts.size() - 1) {
      throw new AssertionError("exactly the last part must be called the last: " + lasts);
    }
    Decoded last = parts.get(parts.size() - 1);
    List<Reading> readings = parts.stream().flatMap(part -> part.readings().stream()).toList();
    return new Decoded(
        readings, last.rejects(), last.refused(), last.press(), last.status(), List.of());
  }

  static Decoded decode(Message message) {
    return decode(decoder(), message);
  }

  static Decoded decode(String payload) {
    return decode(message("tepidarium/bag-1", payload));
  }

  static Decoded decodeRetained(String payload) {
    byte[] bytes = payload.getBytes(StandardCharsets.UTF_8);
    return decode(message("tepidarium/bag-1", bytes, true));
  }

  static Reading temperature(double celsius) {
    return temperature(ARRIVAL, celsius);
  }

  static Reading temperature(Instant at, double celsius) {
    return Readings.ofAir(BAG, at, celsius, null, null, null);
  }

  /** The reason of the only reject. */
  static String reason(Decoded decoded) {
    if (decoded.rejects().size() != 1) {
      throw new AssertionError("one reject expected: " + decoded);
    }
    return decoded.rejects().get(0).reason();
  }
}
