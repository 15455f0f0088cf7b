package tepidarium.ingest;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static tepidarium.ingest.Messages.ARRIVAL;
import static tepidarium.ingest.Messages.decode;
import static tepidarium.ingest.Messages.decodeRetained;
import static tepidarium.ingest.Messages.decoder;
import static tepidarium.ingest.Messages.message;
import static tepidarium.ingest.Messages.reason;
import static tepidarium.ingest.Messages.temperature;

import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import tepidarium.reading.Arrival;

class DecoderTimeTest {
  private static final String BACKLOG = "[{\"temperature\":30,%s},{\"temperature\":31,\"age\":5}]";

  private static String stamped(String field) {
    return "{\"temperature\":30," + field + "}";
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "\"2026-03-01T05:00:00Z\" | 2026-03-01T05:00:00Z",
        "\"2026-03-01t05:00:00.123456z\" | 2026-03-01T05:00:00.123Z",
        "\"2026-03-01 05:00Z\" | 2026-03-01T05:00:00Z",
        "\"2026-03-01T06:30:00+01:30\" | 2026-03-01T05:00:00Z",
        "\"2026-03-01T06:30:00+0130\" | 2026-03-01T05:00:00Z",
        "\"2026-02-28T21:00:00-08\" | 2026-03-01T05:00:00Z",
        "\" 2026-03-01T05:00:00Z \" | 2026-03-01T05:00:00Z",
        "1772341200 | 2026-03-01T05:00:00Z",
        "\"1772341200\" | 2026-03-01T05:00:00Z",
        "1772341200.25 | 2026-03-01T05:00:00.250Z",
        "\"1772341200.901\" | 2026-03-01T05:00:00.901Z",
        "1.7723412e9 | 2026-03-01T05:00:00Z",
        "1772341200250 | 2026-03-01T05:00:00.250Z",
        "\"1772341200250\" | 2026-03-01T05:00:00.250Z",
        "1262304000 | 2010-01-01T00:00:00Z",
        "1262304000000 | 2010-01-01T00:00:00Z",
        "\"2010-01-01T00:00:00Z\" | 2010-01-01T00:00:00Z",
        "\"2026-03-01T06:05:00.250Z\" | 2026-03-01T06:05:00.250Z"
      })
  void saneTimesAreKept(String at, Instant expected) {
    Decoded decoded = decode(stamped("\"at\":" + at));

    assertEquals(new Decoded(List.of(temperature(expected, 30)), List.of()), decoded);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "0 | clock says 1970-01-01T00:00:00Z;",
        "1262303999 | clock says 2009-12-31T23:59:59Z",
        "1262303999999 | clock says 2009-12-31T23:59:59.999Z",
        "99999999999 | clock says 5138-11-16T09:46:39Z",
        "100000000000 | clock says 1973-03-03T09:46:40Z",
        "\"2026-03-01T06:05:00.251Z\" | clock says 2026-03-01T06:05:00.251Z",
        "\"1970-01-01T00:03:11Z\" | clock says 1970-01-01T00:03:11Z",
        "\"+999999999-12-31T23:59:59Z\" | clock says +999999999-12-31T23:59:59Z",
        "\"-999999999-01-01T00:00:00Z\" | clock says -999999999-01-01T00:00:00Z",
        "-1 | clock says 1969-12-31T23:59:59Z",
        "1e300 | at 1.0E300 is not a time",
        "1772341200000000000 | at 1772341200000000000 is not a time",
        "\"yesterday\" | at \"yesterday\" is not a time",
        "\"\" | at \"\" is not a time",
        "\"2026-03-01T05:00:00\" | at \"2026-03-01T05:00:00\" is not a time",
        "\"2026-02-30T05:00:00Z\" | at \"2026-02-30T05:00:00Z\" is not a time",
        "\"2026-03-01T05:00:00ZZ\" | is not a time",
        "true | at true is not a time",
        "{} | at {…} is not a time",
        "NaN | is not a time"
      })
  void aTimeThatCannotBeUsedGivesWayToArrivalButOnlyForASingleReading(String at, String problem) {
    String field = "\"at\":" + at;
    for (String payload : List.of(stamped(field), '[' + stamped(field) + ']')) {
      Decoded single = decode(payload);
      assertEquals(List.of(temperature(30)), single.readings());
      assertTrue(reason(single).contains(problem), reason(single));
      assertTrue(
          reason(single)
              .endsWith("; stored with the time of arrival: set the sensor's clock or send age"));
    }

    Decoded entry = decode(BACKLOG.formatted(field));
    assertEquals(List.of(temperature(ARRIVAL.minusSeconds(5), 31)), entry.readings());
    assertTrue(reason(entry).startsWith("entry 1 of 2: "), reason(entry));
    assertTrue(
        reason(entry).contains("true time of an entry in a backlog is unknown"), reason(entry));

    Decoded retained = decodeRetained(stamped(field));
    assertTrue(retained.readings().isEmpty());
    assertTrue(reason(retained).contains("retain"), reason(retained));
  }

  @ParameterizedTest
  @CsvSource({"0,0", "90,90000", "\"90\",90000", "0.5,500", "510040800.25,510040800250"})
  void anAgeCountsBackFromArrival(String age, long expectedMs) {
    assertEquals(
        List.of(temperature(ARRIVAL.minusMillis(expectedMs), 30)),
        decode(stamped("\"age\":" + age)).readings());
  }

  @ParameterizedTest
  @CsvSource({
    "-1,negative",
    "-0.001,negative",
    "510040801,before 2010",
    "1e30,before 2010",
    "Infinity,before 2010"
  })
  void anAgeThatCannotBeTrueRejectsTheReading(String age, String problem) {
    Decoded single = decode(stamped("\"age\":" + age));
    assertTrue(single.readings().isEmpty());
    assertTrue(reason(single).contains(problem), reason(single));

    assertTrue(reason(decode(BACKLOG.formatted("\"age\":" + age))).contains(problem));
  }

  @Test
  void aSingleReadingWithAnUnreadableAgeHasTheTimeOfItsArrival() {
    Decoded decoded = decode(stamped("\"age\":\"old\""));

    assertEquals(List.of(temperature(30)), decoded.readings());
    assertTrue(reason(decoded).contains("age \"old\" is not a number of seconds; stored"));
    assertTrue(
        reason(decode(BACKLOG.formatted("\"age\":true"))).contains("entry 1 of 2: age true"));
  }

  @Test
  void anAgeCountsOnlyWithoutATime() {
    assertEquals(
        List.of(temperature(Instant.ofEpochSecond(1772341200), 30)),
        decode(stamped("\"at\":1772341200,\"age\":7")).readings());
    assertEquals(
        List.of(temperature(ARRIVAL.minusSeconds(7), 30)),
        decode(stamped("\"at\":null,\"age\":7")).readings());
  }

  @Test
  void aSingleEntryWithoutTimeHasTheTimeOfItsArrival() {
    assertEquals(
        new Decoded(List.of(temperature(30)), List.of()), decode("[{\"temperature\":30}]"));
  }

  @Test
  void backlogEntriesWithoutTimeAreRejected() {
    Decoded decoded = decode("[{\"temperature\":30},{\"temperature\":31,\"at\":1772341200}]");

    assertEquals(1, decoded.readings().size());
    assertTrue(reason(decoded).startsWith("entry 1 of 2: neither at nor age"), reason(decoded));
  }

  @Test
  void aRetainedReadingNeedsItsOwnTime() {
    assertEquals(1, decodeRetained(stamped("\"at\":1772341200")).readings().size());
    assertTrue(reason(decodeRetained("{\"temperature\":30}")).contains("without at"));
    assertTrue(reason(decodeRetained(stamped("\"age\":5"))).contains("age only"));
    assertTrue(reason(decodeRetained("[{\"temperature\":30,\"age\":5}]")).contains("entry 1 of 1"));
  }

  @Test
  void aRetainedPlainNumberIsRejected() {
    byte[] number = "30".getBytes(StandardCharsets.UTF_8);
    Decoded decoded = Messages.decode(message("tepidarium/bag-1/temperature", number, true));

    assertTrue(decoded.readings().isEmpty());
    assertTrue(reason(decoded).contains("retained message without at"), reason(decoded));
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "2009-12-31T23:59:59Z",
        "1970-01-01T00:00:00Z",
        "-1000000000-01-01T00:00:00Z",
        "+1000000000-12-31T23:59:59.999999999Z"
      })
  void theServiceNeedsItsOwnClock(Instant arrival) {
    byte[] payload = stamped("\"at\":1772341200").getBytes(StandardCharsets.UTF_8);
    Decoded decoded =
        Messages.decode(new Message("tepidarium/a", payload, MessageDelivery.LIVE, arrival));

    assertTrue(decoded.readings().isEmpty());
    assertTrue(reason(decoded).contains("the clock of this service is wrong (" + arrival));
  }

  private static @Nullable Arrival arrival(MessageDelivery delivery, String payload) {
    Message message =
        new Message(
            "tepidarium/bag-1", payload.getBytes(StandardCharsets.UTF_8), delivery, ARRIVAL);
    return Messages.decodeWithArrivals(decoder(), message).readings().get(0).arrival();
  }

  @Test
  void aReadingWithoutATimeKeepsHowItArrived() {
    MessageDelivery waited = new MessageDelivery(7, false, true, true);
    Arrival expected = new Arrival(7, true, true);

    assertEquals(expected, arrival(waited, "{\"temperature\":30}"));
    assertEquals(expected, arrival(waited, stamped("\"age\":5")));
    assertEquals(expected, arrival(waited, stamped("\"at\":12")));
    assertEquals(null, arrival(waited, stamped("\"at\":1772341200")));
    assertEquals(
        new Arrival(0, false, false), arrival(MessageDelivery.LIVE, "{\"temperature\":30}"));
  }

  @Test
  void aDelayedButtonMessageIsRejected() {
    Message message =
        new Message(
            "tepidarium/opening/jar-1",
            new byte[] {'5'},
            new MessageDelivery(7, false, false, true),
            ARRIVAL);
    Decoded decoded = Messages.decode(message);

    assertEquals(null, decoded.press());
    assertTrue(reason(decoded).contains("waited in the broker"), reason(decoded));
  }
}
