package tepidarium.ingest;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static tepidarium.ingest.Messages.ARRIVAL;
import static tepidarium.ingest.Messages.BAG;

import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Collectors;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.ForAll;
import net.jqwik.api.From;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.Size;
import org.jspecify.annotations.Nullable;
import tepidarium.reading.Quantity;
import tepidarium.reading.Reading;
import tepidarium.reading.Readings;
import tepidarium.reading.SensorId;

class DecoderProperties {
  private static final Decoder DECODER =
      Messages.decoder(
          new MappingRule(
              "garden/{sensor}/state",
              new MappedValue("/values/0/temp", "°F"),
              new MappedValue("/hum", "fraction"),
              null,
              new MappedValue("/bat", "mV"),
              null,
              null,
              "/time"),
          new MappingRule(
              "+/{sensor}/#", null, null, new MappedValue("", null), null, null, null, null));

  /** Messages that are good as they stand, one of each form. */
  private static final List<String[]> GOOD =
      List.of(
          new String[] {
            "tepidarium/bag-1",
            "{\"temperature\":30.2,\"humidity\":\"96.1\",\"light\":0,\"battery\":3.91,"
                + "\"at\":\"2026-03-01T06:00:00Z\",\"rssi\":-61}"
          },
          new String[] {
            "tepidarium/bag-1",
            "[{\"temperature\":30.2,\"at\":1772341200},{\"humidity\":96,\"age\":\"61.5\"}]"
          },
          new String[] {"tepidarium/bag-1/humidity", "96.1"},
          new String[] {
            "garden/bag-1/state",
            "{\"values\":[{\"temp\":86}],\"hum\":0.961,\"bat\":3910,\"time\":1772341200250}"
          },
          new String[] {"attic/bag-1/a/b", "12.5"});

  @Property
  void anyBytesOnAnyTopicAreReadOrRejected(
      @ForAll("topics") String topic, @ForAll byte[] payload, @ForAll boolean retained) {
    checkSound(topic, payload, retained, ARRIVAL);
  }

  @Property
  void anyTextOnAnyTopicIsReadOrRejected(
      @ForAll("topics") String topic,
      @ForAll("jsonLike") String payload,
      @ForAll boolean retained) {
    checkSound(topic, payload.getBytes(StandardCharsets.UTF_8), retained, ARRIVAL);
  }

  @Property
  void goodMessagesWithFlippedBitsAreReadOrRejected(
      @ForAll @IntRange(max = 4) int form,
      @ForAll @Size(min = 1, max = 4) List<@IntRange(max = 2000) Integer> bits) {
    byte[] payload = GOOD.get(form)[1].getBytes(StandardCharsets.UTF_8);
    for (int bit : bits) {
      payload[bit / 8 % payload.length] ^= (byte) (1 << bit % 8);
    }
    checkSound(GOOD.get(form)[0], payload, false, ARRIVAL);
  }

  @Property
  void truncatedMessagesAreReadOrRejected(
      @ForAll @IntRange(max = 4) int form, @ForAll @IntRange(max = 150) int length) {
    String payload = GOOD.get(form)[1];
    String cut = payload.substring(0, Math.min(length, payload.length()));
    checkSound(GOOD.get(form)[0], cut.getBytes(StandardCharsets.UTF_8), false, ARRIVAL);
  }

  @Property
  void anyArrivalIsJudgedOrRejected(
      @ForAll Instant arrival, @ForAll @IntRange(max = 4) int form, @ForAll boolean retained) {
    byte[] payload = GOOD.get(form)[1].getBytes(StandardCharsets.UTF_8);
    checkSound(GOOD.get(form)[0], payload, retained, arrival);
  }

  private static void checkSound(String topic, byte[] payload, boolean retained, Instant arrival) {
    Decoded decoded =
        Messages.decode(
            DECODER,
            new Message(
                topic,
                payload,
                retained ? MessageDelivery.RETAINED : MessageDelivery.LIVE,
                arrival));

    boolean own =
        topic.equals("tepidarium/status")
            || topic.startsWith("tepidarium/alert/")
            || topic.matches("tepidarium/status/(?!temperature$|light$).*");
    assertEquals(own, decoded.readings().isEmpty() && decoded.rejects().isEmpty());
    for (Reading reading : decoded.readings()) {
      assertTrue(!reading.at().isBefore(Instant.parse("2010-01-01T00:00:00Z")));
      assertTrue(!reading.at().isAfter(arrival.plusSeconds(300)));
    }
    assertTrue(decoded.rejects().size() <= 20);
    for (Reject reject : decoded.rejects()) {
      assertTrue(reject.topic().length() <= 200 && reject.payload().length() <= 200);
      assertTrue(!reject.reason().isBlank() && reject.reason().length() <= 500);
      String shown = reject.topic() + reject.reason() + reject.payload();
      assertTrue(shown.chars().noneMatch(Character::isISOControl), shown);
    }
  }

  @Provide
  Arbitrary<String> topics() {
    Arbitrary<String> levels =
        Arbitraries.of(
                "tepidarium",
                "status",
                "alert",
                "bag-1",
                "temperature",
                "light",
                "garden",
                "state",
                "",
                "$SYS",
                "+",
                "#",
                "Büro",
                "x y")
            .list()
            .ofMaxSize(5)
            .map(list -> String.join("/", list));
    Arbitrary<String> good = Arbitraries.of(GOOD).map(message -> message[0]);
    return Arbitraries.oneOf(levels, good, good, Arbitraries.strings());
  }

  @Provide
  Arbitrary<String> jsonLike() {
    return Arbitraries.of(
            "{",
            "}",
            "[",
            "]",
            ",",
            ":",
            "\"",
            "\"temperature\":",
            "\"humidity\":",
            "\"light\":",
            "\"at\":",
            "\"age\":",
            "\"x\":",
            "30.2",
            "-1",
            "1e999",
            "\"30\"",
            "null",
            "true",
            "NaN",
            "1772341200",
            "\"2026-03-01T06:00:00Z\"",
            "0",
            " ",
            "\\u0000",
            "\u0000",
            "[{",
            "}]")
        .list()
        .ofMaxSize(24)
        .map(parts -> String.join("", parts));
  }

  @Property
  void namesAreValidExactlyWhenTheSensorAcceptsThem(@ForAll String name) {
    Optional<SensorId> exact = SensorNames.exact(name);
    if (exact.isEmpty()) {
      assertThrows(IllegalArgumentException.class, () -> new SensorId(name));
    } else {
      assertEquals(exact, SensorNames.adapted(name));
    }
    assertEquals(name.isEmpty(), SensorNames.adapted(name).isEmpty());
  }

  @Property
  void aReadingWrittenAsJsonComesBackEqual(
      @ForAll("readings") Reading reading,
      @ForAll("stamps") Function<Instant, String> stamp,
      @ForAll boolean asText) {
    Decoded decoded = Messages.decode(json(reading, stamp, asText));

    assertEquals(new Decoded(List.of(reading), List.of()), decoded);
  }

  @Property
  void aBacklogComesBackEqualAndInOrder(
      @ForAll @Size(min = 1, max = 30) List<@From("readings") Reading> readings,
      @ForAll("stamps") Function<Instant, String> stamp) {
    String json =
        readings.stream()
            .map(reading -> json(reading, stamp, false))
            .collect(Collectors.joining(",\n", "[", "]"));

    assertEquals(new Decoded(readings, List.of()), Messages.decode(json));
  }

  private static String json(Reading reading, Function<Instant, String> stamp, boolean asText) {
    List<String> fields = new ArrayList<>();
    for (Quantity quantity : Quantity.values()) {
      Double value = reading.value(quantity);
      if (value != null) {
        fields.add('"' + quantity.key() + "\":" + (asText ? "\"" + value + '"' : "" + value));
      }
    }
    fields.add(stamp.apply(reading.at()));
    return "{" + String.join(",", fields) + "}";
  }

  @Provide
  Arbitrary<Function<Instant, String>> stamps() {
    return Arbitraries.of(
        at -> "\"at\":\"" + at + '"',
        at -> "\"at\":\"" + at.atOffset(ZoneOffset.ofHoursMinutes(5, 45)) + '"',
        at -> "\"at\":\"" + at.atOffset(ZoneOffset.ofHours(-8)) + '"',
        at -> "\"at\":" + at.toEpochMilli(),
        at -> "\"at\":\"" + at.toEpochMilli() + '"',
        at -> "\"at\":" + seconds(at.toEpochMilli()),
        at -> "\"at\":\"" + seconds(at.toEpochMilli()) + '"',
        at -> "\"age\":" + seconds(Math.max(0, ARRIVAL.toEpochMilli() - at.toEpochMilli())));
  }

  private static String seconds(long millis) {
    return BigDecimal.valueOf(millis, 3).toPlainString();
  }

  @Provide
  Arbitrary<Reading> readings() {
    long first = Reading.EARLIEST.toEpochMilli();
    Arbitrary<Instant> instants =
        Arbitraries.longs().between(first, ARRIVAL.toEpochMilli()).map(Instant::ofEpochMilli);
    return Combinators.combine(
            instants, values(-55, 125), values(0, 110), values(0, 200_000), values(0, 60))
        .as(DecoderProperties::reading);
  }

  private static Arbitrary<@Nullable Double> values(double low, double high) {
    return Arbitraries.doubles().between(low, high).ofScale(9).injectNull(0.3);
  }

  private static Reading reading(
      Instant at,
      @Nullable Double temperature,
      @Nullable Double humidity,
      @Nullable Double light,
      @Nullable Double battery) {
    boolean none = temperature == null && humidity == null && light == null && battery == null;
    return Readings.ofAir(
        BAG, at, none ? Double.valueOf(0) : temperature, humidity, light, battery);
  }
}
