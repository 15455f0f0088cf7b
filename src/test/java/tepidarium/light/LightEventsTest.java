package tepidarium.light;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static tepidarium.reading.SampleRecords.HALF_HOUR;
import static tepidarium.reading.SampleRecords.instant;
import static tepidarium.reading.SampleRecords.minutes;
import static tepidarium.reading.SampleRecords.span;

import com.fasterxml.jackson.databind.JsonNode;
import java.time.Duration;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import tepidarium.CheckCase;
import tepidarium.reading.SampleRecords;
import tepidarium.reading.Samples;

/** Hand arithmetic, and those cases of alarms.json that do not need a least length. */
class LightEventsTest {
  /** For doses a person can check by hand, lux·h. */
  private static final double BY_HAND = 1e-9;

  private static final Duration JOIN = Duration.ofMinutes(2);

  @Test
  void aDarkRecordHasNoEvent() {
    assertEquals(List.of(), of(Samples.EMPTY));
    assertEquals(List.of(), of(minutes(0, 0, 10, 0.8, 20, 0)));
  }

  @Test
  void aReadingExactlyOnTheLimitIsDark() {
    assertEquals(List.of(), of(minutes(0, 1, 10, 1, 20, 1)));
    LightEvent event = only(minutes(0, 1, 10, 5, 20, 1, 30, 1));
    assertEquals(instant(10), event.start());
    assertEquals(instant(20), event.end());
  }

  @Test
  void anEventRunsFromTheFirstLitReadingToTheFirstDarkOneThatStaysDark() {
    LightEvent event = only(minutes(0, 0, 5, 140, 10, 220, 15, 0, 20, 0));
    // 5 min · (140 + 220) / 2 + 5 min · 220 / 2, in lux·min.
    LightEvent expected =
        new LightEvent(instant(5), instant(15), instant(15), 220, event.doseLuxHours());
    assertEquals(expected, event);
    assertEquals((5 * 180 + 5 * 110) / 60.0, event.doseLuxHours(), BY_HAND);
  }

  @Test
  void darkForLessThanTheJoinTimeDoesNotEndAnEvent() {
    // Dark at minute 2 and at 3 min 59 s, lit again at 4.
    LightEvent event = only(minutes(0, 9, 1, 9, 2, 0, 4 - 1 / 60.0, 0, 4, 9, 5, 0, 7, 0));
    assertEquals(instant(0), event.start());
    assertEquals(instant(5), event.end());
  }

  @Test
  void darkForExactlyTheJoinTimeEndsAnEvent() {
    List<LightEvent> events = of(minutes(0, 9, 1, 9, 2, 0, 4, 0, 5, 7, 6, 0, 8, 0));
    assertEquals(2, events.size());
    assertEquals(instant(2), events.get(0).end());
    assertEquals(instant(5), events.get(1).start());
    assertEquals(7, events.get(1).peakLux());
  }

  @Test
  void oneDarkReadingBetweenTwoLitOnesDoesNotShowThatItStayedDark() {
    assertEquals(instant(0), only(minutes(0, 9, 10, 0, 20, 9, 30, 0, 40, 0)).start());
  }

  @Test
  void theDoseEndsWhereTheEventEnds() {
    // The dark readings after the end are not quite dark; they do not count.
    LightEvent event = only(minutes(0, 60, 1, 0, 2, 0.9, 30, 0.9));
    assertEquals(instant(1), event.end());
    assertEquals(0.5, event.doseLuxHours(), BY_HAND);
  }

  @Test
  void aGapLeavesTheEndUnknown() {
    List<LightEvent> events = of(minutes(0, 0, 10, 60, 20, 60, 51, 60, 60, 0, 90, 0));
    assertEquals(2, events.size());
    LightEvent before = events.get(0);
    assertNull(before.end());
    assertEquals(instant(20), before.lastSeen());
    assertEquals(10, before.doseLuxHours(), BY_HAND);
    LightEvent after = events.get(1);
    assertEquals(instant(51), after.start());
    assertEquals(instant(60), after.end());
  }

  @Test
  void aStepAsLongAsTheMaximumGapIsNoGap() {
    assertEquals(instant(60), only(minutes(0, 9, 30, 9, 60, 0, 90, 0)).end());
  }

  @Test
  void aGapBeforeTheJoinTimeIsOverLeavesTheEndUnknown() {
    LightEvent event = only(minutes(0, 60, 1, 0, 60, 0));
    assertNull(event.end());
    assertEquals(instant(1), event.lastSeen());
  }

  @Test
  void anEventStillGoingOnHasNoEnd() {
    LightEvent event = only(minutes(0, 0, 10, 30, 20, 50));
    assertEquals(instant(10), event.start());
    assertNull(event.end());
    assertEquals(instant(20), event.lastSeen());
    assertEquals(50, event.peakLux());
  }

  @Test
  void aSingleLitReadingIsAnUnfinishedEventWithoutDose() {
    LightEvent expected = new LightEvent(instant(7), null, instant(7), 30, 0);
    assertEquals(List.of(expected), of(minutes(7, 30)));
  }

  static List<CheckCase> leaks() {
    return CheckCase.of("alarms.json", "light_leak_events").stream()
        .filter(check -> check.input().path("minimum_length_min").asInt() == 0)
        .toList();
  }

  /**
   * The cases end an event at its last lit reading; here it ends at the first dark one, or unseen.
   * So only number, start and peak are compared.
   */
  @ParameterizedTest
  @MethodSource("leaks")
  void theLeaksOfTheCheckFileHaveTheSameStartAndPeak(CheckCase check) {
    Samples light = SampleRecords.of(check.inputs("time_min"), check.inputs("lux"), 60_000);
    double limit = check.input().path("threshold_lux").asDouble();
    Duration join = Duration.ofMinutes(check.input().path("merge_gap_min").asInt());
    List<LightEvent> events = LightEvents.of(light, limit, HALF_HOUR, join);
    JsonNode expected = check.expected().path("events");
    assertEquals(expected.size(), events.size(), check.says("events"));
    for (int i = 0; i < expected.size(); i++) {
      JsonNode event = expected.get(i);
      assertEquals(instant(event.path("first_min").asDouble()), events.get(i).start());
      assertEquals(event.path("peak_lux").asDouble(), events.get(i).peakLux());
    }
  }

  @Test
  void theDoseOfASpanIsTheTrapezoidAndGapsAddNothing() {
    Samples light = minutes(0, 0, 30, 60, 60, 60, 120, 60, 150, 0);
    LightDose dose = LightDose.of(light, span(0, 180), HALF_HOUR);
    assertEquals(15 + 30 + 15, dose.luxHours(), BY_HAND);
    assertEquals(90 * 60_000, dose.coveredMs());
    assertEquals(90 * 60_000, dose.gapMs());
  }

  private static List<LightEvent> of(Samples light) {
    return LightEvents.of(light, 1, HALF_HOUR, JOIN);
  }

  private static LightEvent only(Samples light) {
    List<LightEvent> events = of(light);
    assertEquals(1, events.size(), events.toString());
    return events.get(0);
  }
}
