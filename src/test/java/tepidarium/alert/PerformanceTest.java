package tepidarium.alert;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static tepidarium.reading.SampleRecords.instant;
import static tepidarium.reading.SampleRecords.span;

import com.fasterxml.jackson.databind.JsonNode;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import tepidarium.CheckCase;
import tepidarium.container.ContainerId;
import tepidarium.reading.Span;

/** Alarm counts of alarms.json, and small ones counted by hand. Minutes count from one start. */
class PerformanceTest {
  private static final ContainerId JAR = new ContainerId("jar");
  private static final ContainerId BAG = new ContainerId("bag");
  private static final double DAY = 24 * 60;

  private static RaisedAlert raised(
      ContainerId container, AlertKind kind, double minute, @Nullable Instant returned) {
    return new RaisedAlert(container, kind, instant(minute), returned);
  }

  private static List<RaisedAlert> cold(double... minutes) {
    return Arrays.stream(minutes)
        .mapToObj(minute -> raised(JAR, AlertKind.COLD, minute, instant(minute + 0.1)))
        .toList();
  }

  static List<CheckCase> rates() {
    return CheckCase.of("alarms.json", "alarm_rate");
  }

  static List<CheckCase> chatter() {
    return CheckCase.of("alarms.json", "chattering");
  }

  @ParameterizedTest
  @MethodSource("rates")
  void ratesAndFloodsAreCountedLikeTheCheckFile(CheckCase check) {
    double[] minutes = check.inputs("alarm_time_min");
    double end = 10.0 * check.expected().path("per_10_min").size();
    Performance told = Performance.of(cold(minutes), span(0, end), instant(end));
    assertEquals(check.expected("max_per_10_min"), told.mostInTenMinutes(), check.says("most"));
    List<Span> floods = new ArrayList<>();
    for (JsonNode flood : check.expected().path("floods")) {
      floods.add(span(flood.path("start_min").asDouble(), flood.path("end_min").asDouble()));
    }
    assertEquals(floods, told.floods(), check.says("floods"));
    assertEquals(minutes.length, told.raised());
  }

  @ParameterizedTest
  @MethodSource("chatter")
  void chatteringIsJudgedLikeTheCheckFile(CheckCase check) {
    List<RaisedAlert> alerts = cold(check.inputs("alarm_time_min"));
    Performance told = Performance.of(alerts, span(0, DAY), instant(DAY));
    boolean expected = check.expected().path("chattering").asBoolean();
    assertEquals(expected, told.groups().get(0).chattering(), check.says("chattering"));
  }

  @Test
  void alertsOfOneKindOfOneContainerAreCountedTogetherMostFrequentFirst() {
    List<RaisedAlert> alerts = new ArrayList<>(cold(0, 600, 1_200));
    alerts.add(raised(BAG, AlertKind.LIGHT, 700, instant(720)));
    Performance told = Performance.of(alerts, span(0, 2 * DAY), instant(2 * DAY));
    assertEquals(4, told.raised());
    assertEquals(2, told.perDay(), 1e-12);
    assertEquals(
        List.of(
            new Performance.Group(JAR, AlertKind.COLD, 3, 1.5, 0.75, false, false, 0),
            new Performance.Group(BAG, AlertKind.LIGHT, 1, 0.5, 0.25, false, false, 0)),
        told.groups());
  }

  @Test
  void threeWithinThreeHoursRepeat() {
    assertTrue(only(cold(0, 90, 180)).repeating());
    assertFalse(only(cold(0, 90, 180.1)).repeating());
    assertFalse(only(cold(0, 1)).repeating());
    assertFalse(only(cold(0, 90, 180)).chattering());
  }

  private static Performance.Group only(List<RaisedAlert> alerts) {
    List<Performance.Group> groups =
        Performance.of(alerts, span(0, 2 * DAY), instant(2 * DAY)).groups();
    assertEquals(1, groups.size());
    return groups.get(0);
  }

  @Test
  void anAlertActiveForMoreThanADayIsStale() {
    RaisedAlert lasting = raised(JAR, AlertKind.SILENT, 0, null);
    RaisedAlert returned = raised(BAG, AlertKind.SILENT, 0, instant(DAY));
    List<RaisedAlert> both = List.of(lasting, returned);
    assertEquals(0, stale(Performance.of(both, span(0, DAY), instant(DAY))));
    assertEquals(1, stale(Performance.of(both, span(0, 2 * DAY), instant(DAY + 1))));
    // RaisedAlert before the span, still counted as stale in it, though not as raised.
    Performance later = Performance.of(both, span(2 * DAY, 3 * DAY), instant(3 * DAY));
    assertEquals(0, later.raised());
    assertEquals(1, stale(later));
  }

  private static int stale(Performance told) {
    return told.groups().stream().mapToInt(Performance.Group::stale).sum();
  }

  @Test
  void aSpanWithoutAlertsOrWithoutLengthIsEmpty() {
    assertEquals(0, Performance.of(List.of(), span(0, DAY), instant(DAY)).perDay());
    Performance none = Performance.of(cold(0), span(0, 0), instant(0));
    assertEquals(0, none.perDay());
    assertEquals(List.of(), none.groups());
  }

  @Test
  void aFloodThatDoesNotEndLastsToTheEndOfTheSpan() {
    double[] minutes = new double[30];
    for (int i = 0; i < minutes.length; i++) {
      minutes[i] = 10 + i * 0.5;
    }
    Performance told = Performance.of(cold(minutes), span(0, 25), instant(25));
    assertEquals(List.of(span(10, 25)), told.floods());
  }
}
