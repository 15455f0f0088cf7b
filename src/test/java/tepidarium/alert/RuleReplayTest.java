package tepidarium.alert;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static tepidarium.reading.SampleRecords.HALF_HOUR;
import static tepidarium.reading.SampleRecords.instant;
import static tepidarium.reading.SampleRecords.minute;

import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;
import tepidarium.heat.Limit;
import tepidarium.reading.Samples;

/** Ten hours of a square wave: twenty minutes outside, twenty minutes inside. */
class RuleReplayTest {
  private static final Duration TEN = Duration.ofMinutes(10);
  private static final Rule COLD = new Rule(Limit.low(29.5), 0.3, TEN, TEN);

  private static Samples record(DoubleUnaryOperator value) {
    Samples.Builder builder = new Samples.Builder(601);
    for (int at = 0; at <= 600; at++) {
      builder.add(minute(at), value.applyAsDouble(at));
    }
    return builder.build();
  }

  private static Samples wave(double outside, double inside) {
    return record(at -> (int) (at / 20) % 2 == 0 ? outside : inside);
  }

  @Test
  void theRuleIsCountedAsItWouldHaveRaised() {
    List<Instant> raised = RuleReplay.raised(wave(29.3, 29.85), COLD, HALF_HOUR);
    assertEquals(15, raised.size());
    assertEquals(instant(10), raised.get(0));
    assertEquals(instant(50), raised.get(1));
    assertEquals(List.of(), RuleReplay.raised(record(at -> 31), COLD, HALF_HOUR));
    assertEquals(List.of(), RuleReplay.raised(Samples.EMPTY, COLD, HALF_HOUR));
  }

  @Test
  void aNarrowWaveNeedsALargerDeadband() {
    RuleReplay.Suggestion advice = advice(wave(29.3, 29.85), COLD).orElseThrow();
    Rule larger = new Rule(Limit.low(29.5), 0.45, TEN, TEN);
    assertEquals(new RuleReplay.Suggestion(larger, RuleReplay.Setting.DEADBAND, 15, 1), advice);
  }

  @Test
  void aWideWaveNeedsALongerOffDelay() {
    RuleReplay.Suggestion advice = advice(wave(28, 33), COLD).orElseThrow();
    assertEquals(RuleReplay.Setting.OFF_DELAY, advice.changed());
    assertEquals(Duration.ofMinutes(20), advice.rule().offDelay());
    assertEquals(1, advice.after());
  }

  /** Short flashes 45 minutes apart: no off-delay on the ladder bridges them. */
  @Test
  void shortFlashesNeedALongerOnDelayAndTheDeadbandStaysAboveDark() {
    Rule light = new Rule(Limit.high(1), 0, Duration.ofMinutes(1), Duration.ofMinutes(2));
    Samples flashes = record(at -> (at >= 300 && at < 340) || (at % 45 < 3 && at < 300) ? 50 : 0);
    RuleReplay.Suggestion advice = RuleReplay.advice(flashes, light, HALF_HOUR, 1.5).orElseThrow();
    assertEquals(RuleReplay.Setting.ON_DELAY, advice.changed());
    assertEquals(0, advice.rule().deadband());
    assertEquals(1, advice.after());
  }

  @Test
  void aRuleThatDoesNotRepeatItselfNeedsNoAdvice() {
    assertEquals(Optional.empty(), advice(record(at -> at < 300 ? 28 : 31), COLD));
  }

  @Test
  void theAdvisedRuleRaisesNoRepeatingAlerts() {
    for (double inside = 29.8; inside < 36; inside += 0.7) {
      Samples wave = wave(28.7, inside);
      RuleReplay.Suggestion advice = advice(wave, COLD).orElseThrow();
      List<Instant> then = RuleReplay.raised(wave, advice.rule(), HALF_HOUR);
      assertFalse(Performance.repeating(then));
      assertEquals(advice.after(), then.size());
      assertEquals(advice.before(), RuleReplay.raised(wave, COLD, HALF_HOUR).size());
    }
  }

  private static Optional<RuleReplay.Suggestion> advice(Samples samples, Rule rule) {
    return RuleReplay.advice(samples, rule, HALF_HOUR, 0.2);
  }
}
