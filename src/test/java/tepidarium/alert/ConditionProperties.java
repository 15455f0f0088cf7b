package tepidarium.alert;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.Size;
import tepidarium.heat.Limit;

class ConditionProperties {
  private static final Duration GAP = Duration.ofMinutes(30);
  private static final Rule RULE =
      new Rule(Limit.low(29.5), 0.3, Duration.ofMinutes(10), Duration.ofMinutes(10));
  private static final Instant START = Instant.parse("2026-03-01T00:00:00Z");

  private static List<Condition> follow(List<Double> values, int stepSeconds) {
    List<Condition> conditions = new ArrayList<>();
    Condition condition = Condition.UNKNOWN;
    for (int i = 0; i < values.size(); i++) {
      Instant at = START.plusSeconds((long) i * stepSeconds);
      condition = condition.after(RULE, GAP, at, values.get(i));
      conditions.add(condition);
    }
    return conditions;
  }

  @Property
  void twoChangesAreNeverCloserThanTheDelay(
      @ForAll @Size(max = 200) List<@DoubleRange(min = 28.5, max = 30.5) Double> values,
      @ForAll @IntRange(min = 1, max = 600) int stepSeconds) {
    Instant last = null;
    boolean active = false;
    for (Condition condition : follow(values, stepSeconds)) {
      if (condition.active() != active) {
        Instant now = Objects.requireNonNull(condition.lastAt());
        assertTrue(
            last == null || Duration.between(last, now).compareTo(Duration.ofMinutes(10)) >= 0);
        last = now;
        active = condition.active();
      }
    }
  }

  @Property
  void valuesInsideTheDeadbandNeverReturnAnActiveCondition(
      @ForAll @Size(min = 1, max = 100) List<@DoubleRange(min = 29.0, max = 29.79) Double> jitter) {
    List<Double> values = new ArrayList<>(List.of(25.0, 25.0, 25.0));
    values.addAll(jitter);
    List<Condition> conditions = follow(values, 300);
    assertTrue(conditions.get(2).active());
    assertTrue(conditions.get(conditions.size() - 1).active());
  }

  @Property
  void anActiveConditionWasOutsideForTheDelay(
      @ForAll @Size(max = 200) List<@DoubleRange(min = 28.5, max = 30.5) Double> values,
      @ForAll @IntRange(min = 1, max = 2_400) int stepSeconds) {
    boolean active = false;
    for (Condition condition : follow(values, stepSeconds)) {
      if (condition.active() && !active) {
        Instant since = Objects.requireNonNull(condition.since());
        Instant now = Objects.requireNonNull(condition.lastAt());
        long steps = Duration.between(since, now).toSeconds() / stepSeconds;
        int end = (int) (Duration.between(START, now).toSeconds() / stepSeconds);
        assertTrue(Duration.between(since, now).compareTo(Duration.ofMinutes(10)) >= 0);
        for (long i = end - steps; i <= end; i++) {
          assertTrue(values.get((int) i) < 29.5);
        }
      }
      active = condition.active();
    }
  }

  @Property
  void followingInTwoPartsIsFollowingAtOnce(
      @ForAll @Size(min = 2, max = 100) List<@DoubleRange(min = 28.5, max = 30.5) Double> values) {
    List<Condition> whole = follow(values, 120);
    int half = values.size() / 2;
    Condition condition = follow(values.subList(0, half), 120).get(half - 1);
    for (int i = half; i < values.size(); i++) {
      condition = condition.after(RULE, GAP, START.plusSeconds(i * 120L), values.get(i));
    }
    assertEquals(whole.get(whole.size() - 1), condition);
  }
}
