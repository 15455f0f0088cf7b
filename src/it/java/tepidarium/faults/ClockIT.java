package tepidarium.faults;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.Map;
import java.util.StringJoiner;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import tepidarium.it.Grower;
import tepidarium.it.MovableClock;
import tepidarium.it.Ports;
import tepidarium.it.Publisher;
import tepidarium.it.RunningService;

/** The clock of the machine is set back, and passes the days on which clocks are changed. */
class ClockIT {
  private static final ZoneId ZONE = ZoneId.of("Europe/Berlin");
  private static final Duration SOON = Form.SOON;
  private static final Instant START = Instant.parse("2026-03-01T06:00:00Z");

  private static final int HALF_HOUR = 1_800;

  /** The clock goes half an hour at a time; no sensor may seem silent before it has sent. */
  private static final Map<String, ?> SETTINGS =
      Map.of("timeZone", ZONE.getId(), "silentAfterMinutes", 45);

  /** 30 °C above the base of 15 °C. */
  private static final double DEGREES = 15;

  private final MovableClock clock = new MovableClock(START);
  private final int port = Ports.free();
  private Path data;
  private RunningService service;
  private Grower grower;
  private long sent;

  @BeforeEach
  void startAService(@TempDir Path folder) {
    data = folder;
    service = RunningService.start(RunningService.config(data, "embedded", port, SETTINGS), clock);
    grower = new Grower(service.api());
    grower.awaitBroker();
  }

  @AfterEach
  void stopIt() {
    service.close();
  }

  private static Instant minute(double minute) {
    return START.plusMillis(Math.round(minute * 60_000));
  }

  /** The changes of the European Union: Directive 2000/84/EC, articles 2 and 3. */
  @ParameterizedTest
  @CsvSource({"autumn, 2026-10-25, 25", "spring, 2026-03-29, 23"})
  void theDayOnWhichClocksAreChangedHasItsHours(String season, LocalDate day, int hours)
      throws IOException {
    Instant from = day.minusDays(1).atTime(23, 0).atZone(ZONE).toInstant();
    Instant to = day.plusDays(1).atTime(1, 0).atZone(ZONE).toInstant();
    clock.set(from);
    String container = grower.container("Bag", ",\"base\":15");
    grower.place("bag", container, from);
    try (MqttSocket sensor = new MqttSocket(port, "bag", 8_192)) {
      sensor.awaitConnected();
      for (Instant at = from; !at.isAfter(to); at = at.plusSeconds(HALF_HOUR)) {
        clock.set(at);
        byte[] backlog = halfHourUntil(at, from).getBytes(StandardCharsets.UTF_8);
        sensor.publish(1, "tepidarium/bag", backlog, false);
        sensor.flush();
        assertEquals(1, sensor.acknowledged());
        awaitReceived();
      }
    }

    String span = "?from=" + from + "&to=" + to;
    JsonNode heat = service.api().get("/api/containers/" + container + "/heat" + span);
    long whole = Duration.between(from, to).toHours();
    assertEquals(DEGREES * whole, heat.get("degreeHours").doubleValue(), 1e-6);
    JsonNode ofTheDay = null;
    for (JsonNode line : heat.get("byDay")) {
      ofTheDay = line.get("day").textValue().equals(day.toString()) ? line : ofTheDay;
    }
    assertEquals(DEGREES * hours, ofTheDay.get("degreeHours").doubleValue(), 1e-6);
    assertEquals(0, service.api().get("/api/alerts?state=open").size());
    row("clock passes the change in " + season, 0).check();
  }

  /** One every five minutes, stamped with the local time and its offset, as people read it. */
  private String halfHourUntil(Instant at, Instant from) {
    StringJoiner backlog = new StringJoiner(",", "[", "]");
    for (int minutes = at.equals(from) ? 0 : 25; minutes >= 0; minutes -= 5) {
      String local =
          at.minusSeconds(60L * minutes)
              .atZone(ZONE)
              .format(DateTimeFormatter.ISO_OFFSET_DATE_TIME);
      backlog.add("{\"temperature\":30,\"at\":\"" + local + "\"}");
      sent++;
    }
    return backlog.toString();
  }

  private void awaitReceived() {
    await()
        .atMost(SOON)
        .pollInterval(Duration.ofMillis(20))
        .until(() -> Tally.of(grower), tally -> tally.received() == sent && tally.addsUp());
  }

  private Row row(String fault, long repeated) {
    long from = System.nanoTime();
    double seconds = Health.secondsUntilUp(() -> grower, from);
    Tally tally = Tally.of(grower);
    long rows = Stored.in(data).rows();
    assertEquals(repeated, tally.repeated());
    assertEquals(0, tally.rejected());
    return new Row(
        fault, tally, Math.max(0, sent - repeated - rows), Stored.in(data).repeated(), seconds);
  }

  private String alerts(String container, String kind) {
    StringJoiner found = new StringJoiner(",");
    for (JsonNode alert : service.api().get("/api/alerts?state=active")) {
      if (alert.get("container").textValue().equals(container)
          && alert.get("kind").textValue().equals(kind)) {
        found.add(kind);
      }
    }
    return found.toString();
  }

  private String limit(String container, String kind) {
    return service.api().get("/api/containers/" + container).get("limits").get(kind).textValue();
  }

  private interface Report {
    void at(double minute, double temperature);
  }

  private void stamped(double minute, double temperature) {
    clock.set(minute(minute));
    String at = ",\"at\":\"" + minute(minute) + "\"}";
    Publisher.to(port).send("tepidarium/bag", "{\"temperature\":" + temperature + at);
    sent++;
    awaitReceived();
  }

  private void unstamped(double minute, double temperature) {
    clock.set(minute(minute));
    Publisher.to(port).send("tepidarium/bag/temperature", String.valueOf(temperature));
    sent++;
    awaitReceived();
  }

  @Test
  void aSensorWhoseClockGoesBackTooRepeatsItself() {
    sentAtOnce(0, 200);
    String container = placed();
    stamped(199.5, 30);

    clock.set(minute(140));
    awaitForgotten(container);
    sentAtOnce(140, 165);

    alertsAgain(container, this::stamped, 165.5);
    row("clock set back an hour, sensor with a clock", 25).check();
  }

  @Test
  void aSensorWithoutAClockGoesOn() {
    unstamped(100, 30);
    String container = placed();
    for (int minute = 100; minute < 115; minute++) {
      unstamped(minute + 0.25, 30);
    }

    clock.set(minute(55));
    awaitForgotten(container);

    alertsAgain(container, this::unstamped, 55.75);
    row("clock set back an hour, sensor without one", 0).check();
  }

  private String placed() {
    String container = grower.container("Bag");
    grower.place("bag", container, START);
    return container;
  }

  /** A reading for each minute, in one message; the clock stands at the last. */
  private void sentAtOnce(int fromMinute, int toMinute) {
    StringJoiner backlog = new StringJoiner(",", "[", "]");
    for (int minute = fromMinute; minute < toMinute; minute++) {
      backlog.add("{\"temperature\":30,\"at\":\"" + minute(minute) + "\"}");
      sent++;
    }
    clock.set(minute(Math.max(toMinute - 1, fromMinute)));
    Publisher.to(port).send("tepidarium/bag", backlog.toString());
    awaitReceived();
  }

  /** What was seen at a time that has not come yet counts no more, and nobody is alarmed. */
  private void awaitForgotten(String container) {
    await().atMost(SOON).until(() -> limit(container, "hot").equals("unknown"));
    assertEquals(0, service.api().get("/api/alerts?state=open").size());
  }

  /** Heat and silence are noticed in their time, long before the clock is where it was. */
  private void alertsAgain(String container, Report report, double fromMinute) {
    for (double minute = fromMinute; minute < fromMinute + 14; minute++) {
      report.at(minute, 40);
    }
    await().atMost(SOON).until(() -> alerts(container, "hot").equals("hot"));
    assertEquals("", alerts(container, "silent"));

    clock.set(minute(fromMinute + 13 + 46));
    await().atMost(SOON).until(() -> alerts(container, "silent").equals("silent"));
    assertTrue(grower.part("readings").startsWith("up"));
  }

  @Test
  void aStartFarAheadIsAClockProblemUntilAReadingAgrees() {
    stamped(0, 30);
    service.close();
    Instant ahead = START.plus(Duration.ofDays(400));
    clock.set(ahead);
    service =
        RunningService.start(
            RunningService.config(data, "embedded", port, Map.of("keepRawDays", 30)), clock);
    grower = new Grower(service.api());
    grower.awaitBroker();
    await().atMost(SOON).until(() -> grower.part("clock").contains("400.0 days ahead of"));
    assertTrue(grower.part("clock").startsWith("down: "), grower.part("clock"));
    assertTrue(grower.part("clock").contains("--trust-clock"));
    assertTrue(grower.part("retention").startsWith("up: "));

    Publisher.to(port).send("tepidarium/bag/temperature", "30");
    Publisher.to(port).send("tepidarium/bag", "{\"temperature\":30,\"at\":\"" + ahead + "\"}");
    await().atMost(SOON).until(() -> grower.part("clock").startsWith("up: "));
    assertEquals(2, Stored.in(data).rows());
  }
}
