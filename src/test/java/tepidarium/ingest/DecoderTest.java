package tepidarium.ingest;

import static org.junit.jupiter.api.Assertions.assertAll;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static tepidarium.ingest.Messages.ARRIVAL;
import static tepidarium.ingest.Messages.BAG;
import static tepidarium.ingest.Messages.decode;
import static tepidarium.ingest.Messages.decoder;
import static tepidarium.ingest.Messages.message;
import static tepidarium.ingest.Messages.reason;
import static tepidarium.ingest.Messages.temperature;

import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import tepidarium.reading.DeviceStatus;
import tepidarium.reading.Readings;

class DecoderTest {
  @Test
  void anObjectGivesAReadingWithAllItsQuantities() {
    String payload =
        "{\"temperature\":30.2,\"humidity\":96.1,\"light\":0,\"battery\":3.91,"
            + "\"at\":\"2026-03-01T05:59:00Z\"}";

    Instant at = Instant.parse("2026-03-01T05:59:00Z");
    assertEquals(
        new Decoded(List.of(Readings.ofAir(BAG, at, 30.2, 96.1, 0.0, 3.91)), List.of()),
        decode(payload));
  }

  @Test
  void signalAndFirmwareAreReadBesideTheReadings() {
    String own = ",\"rssi\":\"-61.4\",\"firmware\":\" node 1.4.2 \"}";
    Decoded decoded = decode("{\"temperature\":30.2" + own);
    DeviceStatus status = new DeviceStatus(BAG, Messages.ARRIVAL, -61, "node 1.4.2");
    assertEquals(
        new Decoded(List.of(temperature(30.2)), List.of(), 0, null, status, List.of()), decoded);

    String older =
        "{\"temperature\":30,\"at\":\"2026-03-01T05:00:00Z\",\"rssi\":-80,\"firmware\":7}";
    String newer = "{\"temperature\":30,\"at\":\"2026-03-01T05:10:00Z\",\"rssi\":-70}";
    assertEquals(
        new DeviceStatus(BAG, Instant.parse("2026-03-01T05:10:00Z"), -70, "7"),
        decode("[" + newer + "," + older + "]").status());
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "\"rssi\":31",
        "\"rssi\":\"good\"",
        "\"rssi\":[-61]",
        "\"firmware\":\" \"",
        "\"firmware\":{\"version\":1}",
        "\"firmware\":\"1\\u00002\"",
        "\"firmware\":\"aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa\""
      })
  void anUnreadableStatusDoesNotHarmTheReading(String field) {
    Decoded decoded = decode("{\"temperature\":30.2," + field + "}");
    assertEquals(new Decoded(List.of(temperature(30.2)), List.of()), decoded);
  }

  @Test
  void numericStringsNullsAndUnknownFieldsAreNoFault() {
    Decoded decoded =
        decode("{\"temperature\":\" 30.2 \",\"humidity\":null,\"wakes\":61,\"net\":{\"ip\":[1]}}");

    assertEquals(new Decoded(List.of(temperature(30.2)), List.of()), decoded);
  }

  @ParameterizedTest
  @CsvSource({"'', 600", "' ', 600", "5, 300", "2.5, 150", "0, 0", "240, 14400"})
  void aButtonSaysForHowLongItsContainerIsOpen(String payload, long seconds) {
    String topic = "tepidarium/opening/jar-1";
    ButtonPress press = new ButtonPress(topic, "jar-1", Duration.ofSeconds(seconds), ARRIVAL);
    assertEquals(
        new Decoded(List.of(), List.of(), 0, press, null, List.of()),
        Messages.decode(message(topic, payload)));
  }

  @ParameterizedTest
  @ValueSource(strings = {"-1", "241", "NaN", "soon", "{\"minutes\":5}"})
  void anInvalidButtonMessageIsRejected(String payload) {
    Decoded decoded = Messages.decode(message("tepidarium/opening/jar-1", payload));
    assertTrue(reason(decoded).contains("send minutes from 0"), reason(decoded));
    assertNull(decoded.press());
  }

  @Test
  void aRetainedButtonMessageIsRejected() {
    Decoded decoded = Messages.decode(message("tepidarium/opening/jar-1", new byte[] {'5'}, true));
    assertTrue(reason(decoded).contains("without the retain flag"), reason(decoded));
    assertNull(decoded.press());
  }

  @Test
  void openingIsNotAllowedAsASensorName() {
    Decoded decoded = Messages.decode(message("tepidarium/opening", "{\"temperature\":30}"));
    assertTrue(reason(decoded).contains("alert, notice or opening"), reason(decoded));
  }

  @Test
  void anArrayIsABacklog() {
    Decoded decoded =
        decode("[{\"temperature\":30,\"at\":1772344800},{\"temperature\":31,\"age\":60}]");

    assertEquals(
        List.of(
            temperature(Instant.ofEpochSecond(1772344800), 30),
            temperature(ARRIVAL.minusSeconds(60), 31)),
        decoded.readings());
    assertTrue(decoded.rejects().isEmpty());
  }

  @Test
  void repeatedInstantsOfABacklogAreAllKept() {
    String entry = "{\"temperature\":30,\"at\":1772344800}";

    assertEquals(2, decode("[" + entry + "," + entry + "]").readings().size());
  }

  @Test
  void aBadBacklogEntryIsReportedAndTheOthersAreStored() {
    Decoded decoded = decode("[{\"temperature\":30,\"age\":1},7,{\"temperature\":31,\"age\":0}]");

    assertEquals(2, decoded.readings().size());
    assertTrue(reason(decoded).startsWith("entry 2 of 3: a number instead of an object"));
    assertEquals("7", decoded.rejects().get(0).payload());
  }

  @Test
  void aBadQuantityIsRejectedAndTheOthersAreStored() {
    Decoded decoded = decode("{\"temperature\":-127,\"humidity\":96,\"light\":NaN}");

    assertEquals(List.of(Readings.ofAir(BAG, ARRIVAL, null, 96.0, null, null)), decoded.readings());
    assertEquals(
        "temperature -127.0 is outside -55 to 125 °C: check the sensor, its wiring and its unit",
        decoded.rejects().get(0).reason());
    assertTrue(decoded.rejects().get(1).reason().contains("light \"NaN\" is not a number"));
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "\"nan\"",
        "\"NaN\"",
        "\"Infinity\"",
        "true",
        "false",
        "{}",
        "[30.2]",
        "\"\"",
        "\"30,2\"",
        "\"0x1p3\"",
        "\"30.2d\"",
        "\"warm\"",
        "\"--1\"",
        "\".\"",
        "NaN"
      })
  void aValueThatIsNoNumberIsRejectedWithItsQuantityAndRange(String value) {
    Decoded decoded = decode("{\"temperature\":" + value + "}");

    assertTrue(decoded.readings().isEmpty());
    String reason = reason(decoded);
    assertTrue(reason.startsWith("temperature "), reason);
    assertTrue(reason.contains("is not a number"), reason);
    assertTrue(reason.contains("-55 to 125 °C"), reason);
  }

  @ParameterizedTest
  @CsvSource({
    "temperature, -55.01, -55 to 125",
    "temperature, 125.01, -55 to 125",
    "temperature, 1e999, -55 to 125",
    "temperature, 1e99999999999, -55 to 125",
    "temperature, -Infinity, -55 to 125",
    "temperature, \"1e999\", -55 to 125",
    "humidity, 110.1, 0 to 110",
    "light, -0.1, 0 to 200000",
    "battery, 3910, 0 to 60"
  })
  void valuesThatNoSensorCanReportAreRejected(String quantity, String value, String range) {
    String reason = reason(decode("{\"" + quantity + "\":" + value + "}"));

    assertTrue(reason.startsWith(quantity + " "), reason);
    assertTrue(reason.contains("is outside " + range), reason);
  }

  @Test
  void theStartValueOfAProbeIsStoredBecauseItMayBeReal() {
    assertEquals(List.of(temperature(85)), decode("{\"temperature\":85.0}").readings());
  }

  @Test
  void anObjectWithoutQuantityNamesTheFieldsItHas() {
    assertTrue(reason(decode("{\"temp\":30,\"rssi\":-61}")).contains("found temp, rssi"));
    assertTrue(reason(decode("{}")).contains("found nothing"));
    assertTrue(reason(decode("{\"temperature\":null}")).contains("found temperature"));
  }

  @Test
  void manyOrLongFieldNamesAreCut() {
    StringBuilder fields = new StringBuilder("\"" + "n".repeat(100) + "\":0");
    for (int i = 0; i < 30; i++) {
      fields.append(",\"f").append(i).append("\":0");
    }

    String reason = reason(decode("{" + fields + "}"));
    assertTrue(reason.contains("n".repeat(30) + "…, f0"), reason);
    assertTrue(reason.contains("and 21 more: send an object"), reason);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "{\"temperature\":30.2 | line 1, column",
        "{\"temperature\":30.2, | ends too early",
        "{temperature:30.2} | broken JSON at line 1, column 2",
        "{\"temperature\":nan} | broken JSON at line 1",
        "{\"temperature\":30.2}x | more text follows the JSON value at line 1, column 21",
        "{\"temperature\":30.2}{\"temperature\":30.3} | more text follows the JSON value",
        "{\"temperature\":30.2,\"temperature\":30.3} | occurs twice",
        "{\"x\":1,\"net\":{\"a\":1,\"a\":2},\"temperature\":30.2} | occurs twice",
        "30.2 | a number instead of an object",
        "\"30.2\" | a text instead of an object",
        "null | null instead of an object",
        "[] | empty array",
        "hello | broken JSON at line 1"
      })
  void aMessageThatIsNoReadingIsRejectedInPlainWords(String payload, String expected) {
    Decoded decoded = decode(payload);

    assertTrue(decoded.readings().isEmpty());
    String reason = reason(decoded);
    assertTrue(reason.contains(expected), reason);
    assertFalse(reason.contains("Source") || reason.contains("StreamRead"), reason);
    assertTrue(reason.contains(": "), "a remedy is missing: " + reason);
  }

  @Test
  void hugeNumbersAndDeepNestingAreRejected() {
    String digits = "9".repeat(10_000);
    String deep = "[".repeat(5_000);

    assertAll(
        () -> assertTrue(reason(decode("{\"temperature\":" + digits + "}")).contains("400 digits")),
        () ->
            assertTrue(
                reason(decode("{\"temperature\":" + digits.substring(0, 399) + "}"))
                    .contains("temperature Infinity is outside")),
        () ->
            assertTrue(
                reason(decode("{\"temperature\":\"" + digits + "\"}")).contains("not a number")),
        () ->
            assertTrue(
                reason(decode("{\"" + "n".repeat(60_000) + "\":1}")).contains("far too long")),
        () -> assertTrue(reason(decode(deep)).contains("nested more than 32 deep")),
        () ->
            assertTrue(
                reason(decode("{\"x\":" + deep + "}")).contains("nested more than 32 deep")));
  }

  @Test
  void aPayloadThatIsNotUtf8IsRejectedWithThePlaceOfTheBadByte() {
    byte[] payload = "{\"temperature\":30}".getBytes(StandardCharsets.ISO_8859_1);
    payload[3] = (byte) 0xFC;

    Decoded decoded = Messages.decode(message("tepidarium/bag-1", payload, false));

    assertTrue(reason(decoded).contains("not UTF-8 from byte 4"));
    assertEquals("{\"t\uFFFDmperature\":30}", decoded.rejects().get(0).payload());
  }

  @Test
  void aByteOrderMarkAndAReplacementCharacterAreNoFault() {
    assertEquals(1, decode("\uFEFF{\"temperature\":30}").readings().size());
    assertEquals(1, decode("{\"temperature\":30,\"place\":\"\uFFFD\"}").readings().size());
  }

  @Test
  void anEmptyPayloadIsRejected() {
    assertTrue(reason(decode("")).startsWith("empty payload"));
    assertTrue(reason(decode(" \n")).startsWith("the payload has only blanks"));
  }

  @Test
  void aPayloadOverTheLimitIsRejectedWithSizeAndLimit() {
    Decoder small = new Decoder("tepidarium", List.of(), 18);

    assertEquals(
        1,
        Messages.decode(small, message("tepidarium/a", "{\"temperature\":30}")).readings().size());
    String reason =
        reason(Messages.decode(small, message("tepidarium/a", "{\"temperature\":30.}")));
    assertTrue(reason.contains("19 bytes") && reason.contains("limit of 18"), reason);
  }

  @ParameterizedTest
  @CsvSource({"temperature,30.2", "humidity,96", "light,0", "battery,3.91", "light,1e3"})
  void aTopicOfOneQuantityCarriesAPlainNumber(String quantity, String number) {
    Decoded decoded = Messages.decode(message("tepidarium/bag-1/" + quantity, number));
    Decoded quoted = Messages.decode(message("tepidarium/bag-1/" + quantity, '"' + number + '"'));

    assertEquals(decode("{\"" + quantity + "\":" + number + "}"), decoded);
    assertEquals(decoded, quoted);
  }

  @ParameterizedTest
  @ValueSource(strings = {"warm", "nan", "{\"temperature\":30}", "30 °C", "\"", "true"})
  void aTopicOfOneQuantityWithAnythingElseIsRejected(String payload) {
    String reason = reason(Messages.decode(message("tepidarium/bag-1/temperature", payload)));

    assertTrue(reason.startsWith("temperature ") && reason.contains("is not a number"), reason);
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "tepidarium/status",
        "tepidarium/status/tepidarium-1a2b",
        "tepidarium/alert/bag/too-cold",
        "tepidarium/alert/"
      })
  void theServicesOwnTopicsAreIgnored(String topic) {
    assertEquals(new Decoded(List.of(), List.of()), Messages.decode(message(topic, "online")));
    assertEquals(new Decoded(List.of(), List.of()), Messages.decode(message(topic, "")));
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "tepidarium",
        "tepidarium/",
        "tepidarium/bag 1",
        "tepidarium/Gewächshaus",
        "tepidarium/bag-1/pressure",
        "tepidarium/bag-1/Temperature",
        "tepidarium/bag-1/temperature/raw",
        "tepidarium//temperature",
        "tepidarium/alert",
        "tepidarium/status/temperature"
      })
  void otherTopicsBelowTheRootAreRejectedWithTheFormExpected(String topic) {
    String reason = reason(Messages.decode(message(topic, "{\"temperature\":30}")));

    assertTrue(reason.contains('"' + topic + '"'), reason);
    assertTrue(reason.contains("tepidarium/<sensor>/<quantity>"), reason);
  }

  @ParameterizedTest
  @ValueSource(strings = {"garden/bag-1/state", "tepidariumX/bag-1", "", "Tepidarium/bag-1"})
  void topicsOutsideTheRootAreRejected(String topic) {
    String reason = reason(Messages.decode(message(topic, "{\"temperature\":30}")));

    assertTrue(reason.contains("is not below tepidarium/"), reason);
  }

  @Test
  void namesOfUpToSixtyFourCharactersAreRead() {
    String longest = "n".repeat(64);

    assertEquals(
        1, Messages.decode(message("tepidarium/" + longest, "{\"light\":0}")).readings().size());
    assertEquals(1, Messages.decode(message("tepidarium/" + longest + "n", "{}")).rejects().size());
  }

  @Test
  void theRootMayHaveSeveralLevels() {
    Decoder decoder = new Decoder("home/seeds", List.of(), 1000);

    assertEquals(List.of("home/seeds/#"), decoder.topicFilters());
    assertEquals(
        List.of(temperature(30)),
        Messages.decode(decoder, message("home/seeds/bag-1/temperature", "30")).readings());
  }

  @ParameterizedTest
  @ValueSource(strings = {"", "/a", "a/", "a/+", "#", "$SYS", "a\0"})
  void aRootThatIsNoPlainTopicIsRefused(String root) {
    Exception e =
        assertThrows(IllegalArgumentException.class, () -> new Decoder(root, List.of(), 1000));

    assertTrue(String.valueOf(e.getMessage()).contains("plain topic"));
  }

  @Test
  void aLimitBelowOneByteIsRefused() {
    assertThrows(IllegalArgumentException.class, () -> new Decoder("a", List.of(), 0));
  }

  @Test
  void theRejectsOfOneMessageAreBounded() {
    Decoded twenty = decode("[" + "0,".repeat(19) + "0]");
    Decoded many = decode("[" + "0,".repeat(999) + "0]");

    assertEquals(20, twenty.rejects().size());
    assertTrue(twenty.rejects().get(19).reason().startsWith("entry 20 of 20"));
    assertEquals(20, many.rejects().size());
    assertEquals("and 981 more rejects of this message", many.rejects().get(19).reason());
  }

  @Test
  void rejectsAreShortAndPrintable() {
    String payload = "\u0007\u202E" + "🌱".repeat(300);
    Reject reject = Messages.decode(message("t\n".repeat(300), payload)).rejects().get(0);

    assertEquals(200, reject.topic().length());
    assertTrue(reject.topic().startsWith("t\uFFFDt\uFFFD"));
    assertEquals("\uFFFD\uFFFD" + "🌱".repeat(99), reject.payload());
    assertEquals(ARRIVAL, reject.at());
  }

  @Test
  void aLongBacklogComesInPartsAndWhole() throws InterruptedException {
    int count = 44_000;
    StringBuilder json = new StringBuilder("[");
    for (int i = 0; i < count; i++) {
      json.append(i == 0 ? "" : ",").append("{\"temperature\":").append(i % 90);
      json.append(",\"at\":").append(1_700_000_000L + i).append('}');
    }
    Decoder large = new Decoder("tepidarium", List.of(), 4 << 20);
    List<Integer> sizes = new ArrayList<>();
    large.decode(
        message("tepidarium/bag-1", json.append(']').toString()),
        (part, last) -> {
          sizes.add(part.readings().size());
          assertEquals(sizes.size() == 44, last);
        });

    assertEquals(Collections.nCopies(44, 1_000), sizes);
  }

  @Test
  void aHundredThousandEmptyEntriesAreCountedButNotKept() {
    int count = 100_000;
    String payload = "[" + "{},".repeat(count - 1) + "{}]";
    Decoder large = new Decoder("tepidarium", List.of(), 4 << 20);

    Decoded decoded = Messages.decode(large, message("tepidarium/bag-1", payload));

    assertEquals(count, decoded.refused());
    assertEquals(20, decoded.rejects().size());
    assertEquals("and 99981 more rejects of this message", decoded.rejects().get(19).reason());
  }

  @Test
  void anObjectOfVeryManyFieldsIsRejected() {
    StringBuilder fields = new StringBuilder("\"temperature\":30");
    for (int i = 1; i < 1_000; i++) {
      fields.append(",\"f").append(i).append("\":0");
    }

    assertEquals(1, decode("{" + fields + "}").readings().size());
    String reason = reason(decode("{" + fields + ",\"one-more\":0}"));
    assertTrue(reason.startsWith("an object with more than 1000 fields at line 1"), reason);
  }

  @Test
  void anErrorInABacklogIsShownAsItWasSent() {
    Decoded decoded =
        decode("\uFEFF[ {\"p\":\"Büro 🌱\"},\"a \\\"text\\\"\" , [1,[2]],{ \"light\" : [3] }]");

    assertEquals(
        List.of("{\"p\":\"Büro 🌱\"}", "\"a \\\"text\\\"\"", "[1,[2]]", "{ \"light\" : [3] }"),
        decoded.rejects().stream().map(Reject::payload).toList());
  }

  @ParameterizedTest
  @ValueSource(strings = {"\0{\"light\":0}", "{\0\"\0l", "\0\0\0{"})
  void zeroBytesAreBrokenJson(String payload) {
    assertTrue(reason(decode(payload)).startsWith("broken JSON, it begins with a zero byte"));
  }

  /**
   * A refused value is not only a line of the reject log: the sensor's page shows it as a fault.
   */
  @Test
  void refusedValuesAreFaultsOfTheirSensor() throws InterruptedException {
    assertEquals(
        List.of("temperature NOT_CONNECTED -127.0", "humidity RAW_LIMIT 119.0"),
        faults("{\"temperature\":-127,\"humidity\":119,\"light\":3}"));
    assertEquals(
        List.of("temperature RAW_LIMIT 130.0", "temperature OUT_OF_RANGE 140.0"),
        faults("[{\"temperature\":130,\"age\":60},{\"temperature\":140,\"age\":0}]"));
    assertEquals(List.of(), faults("{\"temperature\":\"warm\"}"));
    assertEquals(
        List.of("clock WRONG_CLOCK -60.0"),
        faults("{\"temperature\":30,\"at\":\"" + ARRIVAL.plusSeconds(3600) + "\"}"));
  }

  private static List<String> faults(String payload) throws InterruptedException {
    List<String> faults = new ArrayList<>();
    Messages.decoder()
        .decode(
            message("tepidarium/" + BAG, payload),
            (part, last) ->
                part.faults()
                    .forEach(
                        fault ->
                            faults.add(
                                (fault.quantity() == null ? "clock" : fault.quantity().key())
                                    + " "
                                    + fault.kind()
                                    + " "
                                    + fault.value())));
    return faults;
  }
}
