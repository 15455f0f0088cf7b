package tepidarium.alert;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import tepidarium.CheckCase;
import tepidarium.heat.Limit;

class ConditionTest {
  private static final Duration NO_GAP = Duration.ofDays(1);
  private static final Instant START = Instant.parse("2026-03-01T00:00:00Z");

  /** One raise or clear, in whole minutes from the start. */
  private record Change(long atMin, String event, long beganMin) {}

  static List<CheckCase> bandAlarms() {
    return CheckCase.of("alarms.json", "band_alarm");
  }

  @ParameterizedTest
  @MethodSource("bandAlarms")
  void theHighLimitRaisesAndClearsAsInTheCheckCases(CheckCase check) {
    Limit high = Limit.high(check.input().path("high").asDouble());
    assertEquals(expected(check, "high"), changes(check, high), () -> check.says("high"));
  }

  @ParameterizedTest
  @MethodSource("bandAlarms")
  void theLowLimitRaisesAndClearsAsInTheCheckCases(CheckCase check) {
    List<Change> changes = changes(check, Limit.low(check.input().path("low").asDouble()));
    if (check.id().equals("band-high-straight-to-low")) {
      // The check case has one alarm with two sides and lets the reading that clears one side not
      // start the other. Cold and hot are two conditions here: cold counts from its first reading.
      assertEquals(List.of(new Change(40, "raise", 30)), changes, () -> check.says("low"));
    } else {
      assertEquals(expected(check, "low"), changes, () -> check.says("low"));
    }
  }

  private static List<Change> expected(CheckCase check, String side) {
    List<Change> changes = new ArrayList<>();
    for (JsonNode event : check.expected().path("events")) {
      if (event.path("side").asText().equals(side)) {
        changes.add(
            new Change(
                event.path("t_min").asLong(),
                event.path("event").asText(),
                event.path("began_min").asLong()));
      }
    }
    return changes;
  }

  private static List<Change> changes(CheckCase check, Limit limit) {
    Rule rule =
        new Rule(
            limit,
            check.input().path("dead_band").asDouble(),
            Duration.ofMinutes(check.input().path("on_delay_min").asLong()),
            Duration.ofMinutes(check.input().path("off_delay_min").asLong()));
    double[] minutes = check.inputs("time_min");
    double[] values = check.inputs("value");
    List<Change> changes = new ArrayList<>();
    Condition condition = Condition.UNKNOWN;
    for (int i = 0; i < minutes.length; i++) {
      Instant at = START.plus(Duration.ofMinutes((long) minutes[i]));
      Condition next = condition.after(rule, NO_GAP, at, values[i]);
      if (next.active() && !condition.active()) {
        changes.add(new Change((long) minutes[i], "raise", minute(next.since())));
      } else if (condition.active() && !next.active()) {
        Instant began = condition.clearSince() == null ? at : condition.clearSince();
        changes.add(new Change((long) minutes[i], "clear", minute(began)));
      }
      condition = next;
    }
    return changes;
  }

  private static long minute(@Nullable Instant instant) {
    return Duration.between(START, Objects.requireNonNull(instant)).toMinutes();
  }

  @Test
  void readingsOnEitherSideOfAGapAreNotOneStretch() {
    Rule rule = AlertKind.COLD.rule(Limit.low(29.5));
    Condition before = Condition.UNKNOWN.after(rule, Duration.ofMinutes(30), START, 25);
    Instant later = START.plus(Duration.ofHours(3));
    Condition after = before.after(rule, Duration.ofMinutes(30), later, 25);
    assertFalse(after.active());
    assertEquals(later, after.since());
    Instant enough = later.plus(Duration.ofMinutes(10));
    assertTrue(after.after(rule, Duration.ofMinutes(30), enough, 25).active());
  }

  @Test
  void decimalLimitsAndDeadbandsAddUpWithoutRoundingError() {
    Rule rule = new Rule(Limit.low(29.8), 0.1, Duration.ZERO, Duration.ZERO);
    assertTrue(rule.clear(29.9));
    assertFalse(rule.clear(29.89));
  }
}
