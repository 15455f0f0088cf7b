package tepidarium.it;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Messages of sensors that we did not write, through a broker into the record. */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
abstract class MqttContract {
  private static final Duration SOON = Duration.ofSeconds(15);

  private final BrokerKind kind;

  /** Two hours ago, in whole minutes. */
  private final Instant start = Instant.now().truncatedTo(ChronoUnit.MINUTES).minusSeconds(7_200);

  private BrokerKind.Site site;
  private Grower grower;
  private Publisher publisher;
  private String sensor;
  private String topic;
  private String container;
  private int tests;

  MqttContract(BrokerKind kind) {
    this.kind = kind;
  }

  @BeforeAll
  void startTheService(@TempDir Path folder) {
    site = kind.site(folder);
    look();
  }

  private void look() {
    grower = site.grower();
    publisher = Publisher.to(site.port());
    grower.awaitBroker();
  }

  @BeforeEach
  void placeAFreshSensor() {
    sensor = "sensor-" + ++tests;
    topic = "tepidarium/" + sensor;
    container = grower.container("Bag " + tests);
    grower.place(sensor, container, Instant.parse("2020-01-01T00:00:00Z"));
  }

  @AfterEach
  void everythingReceivedIsAccountedFor() {
    await()
        .atMost(SOON)
        .untilAsserted(
            () ->
                assertEquals(
                    grower.count("received"),
                    grower.count("stored") + grower.count("repeated") + grower.count("rejected")));
    await().atMost(SOON).until(() -> grower.count("waiting") == 0);
  }

  @AfterAll
  void stopTheService() {
    site.close();
  }

  private Map<Instant, Double> values(String quantity) {
    return grower.values(container, quantity, start.minusSeconds(600), start.plusSeconds(10_800));
  }

  private void awaitValues(String quantity, Map<Instant, Double> expected) {
    await().atMost(SOON).untilAsserted(() -> assertEquals(expected, values(quantity)));
  }

  private void awaitReject(String words) {
    awaitReject(topic, words);
  }

  private void awaitReject(String of, String words) {
    await()
        .atMost(SOON)
        .untilAsserted(
            () -> {
              List<String> reasons = grower.rejects(of);
              assertTrue(
                  reasons.stream().anyMatch(reason -> reason.contains(words)),
                  () -> words + " is not in " + reasons);
            });
  }

  private Instant minute(int minute) {
    return start.plusSeconds(60L * minute);
  }

  private String reading(double temperature, int minute) {
    return "{\"temperature\":" + temperature + ",\"at\":\"" + minute(minute) + "\"}";
  }

  @Test
  void anObjectArrivesWithAllItsQuantities() {
    publisher.send(
        topic,
        "{\"temperature\":30.2,\"humidity\":96.1,\"light\":0,\"battery\":3.91,\"at\":\""
            + start
            + "\"}");

    awaitValues("temperature", Map.of(start, 30.2));
    awaitValues("humidity", Map.of(start, 96.1));
    awaitValues("light", Map.of(start, 0.0));
    awaitValues("battery", Map.of(start, 3.91));
  }

  @Test
  void aBacklogArrivesWhole() {
    publisher.send(topic, "[" + reading(30, 0) + "," + reading(31, 1) + "," + reading(32, 2) + "]");

    awaitValues("temperature", Map.of(minute(0), 30.0, minute(1), 31.0, minute(2), 32.0));
  }

  @Test
  void singleNumbersArriveUnderTheirQuantity() {
    publisher.version5().send(topic + "/temperature", "30.5");
    publisher.qos(0).send(topic + "/humidity", " 95 ");

    await()
        .atMost(SOON)
        .untilAsserted(
            () -> {
              assertEquals(List.of(30.5), List.copyOf(values("temperature").values()));
              assertEquals(List.of(95.0), List.copyOf(values("humidity").values()));
            });
  }

  @Test
  void numbersMayBeTextAndTimesMayBeEpochs() {
    long seconds = start.getEpochSecond();
    publisher.send(topic, "{\"temperature\":\"30.5\",\"at\":\"" + seconds + "\"}");
    publisher.send(topic, "{\"temperature\":31,\"at\":" + (seconds + 60) + "}");
    publisher.send(topic, "{\"temperature\":32,\"at\":" + (seconds + 120) * 1000 + "}");

    awaitValues("temperature", Map.of(minute(0), 30.5, minute(1), 31.0, minute(2), 32.0));
  }

  @Test
  void anAgeCountsBackFromTheArrival() {
    Instant before = Instant.now();
    publisher.send(topic, "{\"temperature\":30.5,\"age\":3600}");

    await().atMost(SOON).until(() -> values("temperature").size() == 1);
    Instant at = values("temperature").keySet().iterator().next();
    Duration late = Duration.between(before.minusSeconds(3_600), at);
    assertTrue(!late.minusMillis(-1).isNegative() && late.compareTo(SOON) < 0, late::toString);
  }

  @Test
  void aRepeatedMessageIsCountedAndAnotherValueIsKeptBesideTheFirst() {
    long stored = grower.settledCount("stored");
    long repeated = grower.settledCount("repeated");
    publisher.send(topic, reading(30, 0));
    // A reading can be queried a moment before it is counted.
    await().atMost(SOON).until(() -> grower.count("stored") == stored + 1);

    publisher.send(topic, reading(30, 0));
    publisher.send(topic, reading(31, 0));

    await().atMost(SOON).until(() -> grower.count("stored") == stored + 2);
    await().atMost(SOON).until(() -> grower.count("repeated") == repeated + 1);
    assertEquals(
        Map.of(start, 30.0, start.plusMillis(1), 31.0),
        grower.values(container, "temperature", start, start.plusSeconds(1)));
  }

  @Test
  void readingsOutOfOrderLandInTheirPlace() {
    publisher.lines(topic, List.of(reading(33, 3), reading(31, 1), reading(32, 2), reading(30, 0)));

    awaitValues(
        "temperature", Map.of(minute(0), 30.0, minute(1), 31.0, minute(2), 32.0, minute(3), 33.0));
  }

  @Test
  void twoMessagesOfOneInstantMakeOneReading() {
    publisher.send(topic, reading(30, 0));
    publisher.send(topic, "{\"humidity\":96,\"at\":\"" + start + "\"}");

    awaitValues("humidity", Map.of(start, 96.0));
    awaitValues("temperature", Map.of(start, 30.0));
  }

  @Test
  void aRetainedMessageIsStoredOnlyWithATime() {
    publisher.retained().send(topic, "{\"humidity\":96}");
    publisher.retained().send(topic + "/light", "0");
    String other = sensor + "-timed";
    publisher.retained().send("tepidarium/" + other, reading(30, 0));
    await().atMost(SOON).until(() -> values("light").size() == 1);
    site.stop();

    site.start();
    look();

    awaitReject("a retained message without at");
    awaitReject(topic + "/light", "a retained message without at");
    await().atMost(SOON).until(() -> grower.count("repeated") >= 1);
    assertEquals(1, values("humidity").size());
    assertEquals(List.of(), grower.rejects("tepidarium/" + other));
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '`',
      value = {
        "{\"temperature\":30                | the text ends too early",
        "{\"temperature\" 30}               | broken JSON",
        "{\"temperature\":30}{\"light\":0}  | more text follows the JSON value",
        "\"warm\"                           | a text instead of an object",
        "[]                                 | an empty array",
        "{\"colour\":30}                    | no value for any quantity; found colour",
        "{\"temperature\":true}             | temperature true is not a number",
        "{\"temperature\":{\"value\":30}}   | temperature {…} is not a number",
        "{\"temperature\":NaN}              | temperature \"NaN\" is not a number",
        "{\"temperature\":-127}             | temperature -127.0 is outside",
        "{\"humidity\":1e300}               | humidity 1.0E300 is outside",
        "{\"temperature\":30,\"at\":12}     | clock says 1970-01-01T00:00:12Z",
        "{\"temperature\":30,\"at\":\"now\"} | at \"now\" is not a time",
        "{\"temperature\":30,\"age\":-5}    | age -5 is negative",
        "[{\"light\":1},{\"light\":2}]      | neither at nor age",
        "` `                                | the payload has only blanks",
      })
  void anUnreadableMessageIsLoggedAndReceivingContinues(String payload, String words) {
    publisher.send(topic, payload);

    awaitReject(words);
    theFlowGoesOn();
  }

  private void theFlowGoesOn() {
    publisher.send(topic, reading(30, 0));
    await().atMost(SOON).untilAsserted(() -> assertEquals(30.0, values("temperature").get(start)));
  }

  @Test
  void aTimeInTheFutureIsLoggedAndReplacedByTheArrival() {
    Instant nextYear = Instant.now().plus(365, ChronoUnit.DAYS);
    publisher.send(topic, "{\"temperature\":31,\"at\":\"" + nextYear + "\"}");

    awaitReject("clock says " + nextYear.toString().substring(0, 4));
    assertEquals(List.of(31.0), List.copyOf(values("temperature").values()));
    theFlowGoesOn();
  }

  @ParameterizedTest
  @ValueSource(strings = {"/colour", "/temperature/inside", "!"})
  void anUnknownTopicIsLoggedAndReceivingContinues(String rest) {
    publisher.send(topic + rest, "5");

    awaitReject(topic + rest, "is not the topic of a sensor");
    theFlowGoesOn();
  }

  @Test
  void aTooLargeMessageIsRejectedAndReceivingContinues() {
    byte[] payload = new byte[7 << 20];
    Arrays.fill(payload, (byte) '[');
    publisher.send(topic, payload);

    awaitReject("payload of 7340032 bytes is over the limit");
    theFlowGoesOn();
  }

  @Test
  void bytesThatAreNoTextAreLoggedAndReceivingContinues() {
    byte[] payload = "{\"temperature\":3?}".getBytes(StandardCharsets.US_ASCII);
    payload[15] = (byte) 0xC3;
    publisher.send(topic, payload);

    awaitReject("not UTF-8 from byte 16 on");
    theFlowGoesOn();
  }
}
