package tepidarium.heat;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static tepidarium.reading.SampleRecords.HALF_HOUR;
import static tepidarium.reading.SampleRecords.minutes;
import static tepidarium.reading.SampleRecords.span;
import static tepidarium.reading.SampleRecords.whole;

import com.fasterxml.jackson.databind.JsonNode;
import java.time.Duration;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;
import tepidarium.CheckCase;
import tepidarium.reading.SampleRecords;
import tepidarium.reading.Samples;

/** The cases come from degree-hours.json, each with its own source; the rest is hand arithmetic. */
class DegreeHoursTest {
  private static final double HOUR_MS = 3_600_000;
  private static final Duration NO_GAP = Duration.ofDays(365);

  /** For sums a person can check by hand, °C·h. */
  private static final double BY_HAND = 1e-9;

  static List<CheckCase> linear() {
    return CheckCase.of("degree-hours.json", "degree_hours_linear");
  }

  static List<CheckCase> withGaps() {
    return CheckCase.of("degree-hours.json", "degree_hours_with_gaps");
  }

  @ParameterizedTest
  @MethodSource("linear")
  void straightLinesGiveTheExactIntegral(CheckCase check) {
    HeatSum sum = sum(check, rule(check), NO_GAP);
    expect(check, "degree_hours", sum.degreeHours());
    expect(check, "degree_days", sum.degreeHours() / 24);
    expect(check, "hours_above_base", sum.hoursAboveBase());
    differs(check, "wrong_if_samples_clipped_first", "degree_hours", sum.degreeHours());
    differs(check, "value_if_last_reading_held", "degree_hours", sum.degreeHours());
    if (check.expected().has("hours_above_cap")) {
      HeatRule aboveCap = new HeatRule(check.input().path("cap_c").asDouble(), null);
      expect(check, "hours_above_cap", sum(check, aboveCap, NO_GAP).hoursAboveBase());
    }
  }

  @ParameterizedTest
  @MethodSource("withGaps")
  void aLongStepAddsNoHeatAndIsReported(CheckCase check) {
    double maxGapH = check.input().path("max_gap_h").asDouble();
    HeatSum sum = sum(check, rule(check), Duration.ofMillis(Math.round(maxGapH * HOUR_MS)));
    String covered = "degree_hours_over_covered_time";
    expect(check, covered, sum.degreeHours());
    expect(check, "covered_h", sum.coveredHours());
    expect(check, "uncovered_h", sum.gapHours());
    differs(check, "if_interpolated_across_gaps", covered, sum.degreeHours());
    expect(check, "if_interpolated_across_gaps", sum(check, rule(check), NO_GAP).degreeHours());
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "wrong_if_samples_clipped_first",
        "value_if_last_reading_held",
        "if_interpolated_across_gaps"
      })
  void eachWrongMethodFailsAtLeastOneCase(String wrong) {
    boolean apart =
        linear().stream().anyMatch(check -> tellsApart(check, wrong, "degree_hours"))
            || withGaps().stream()
                .anyMatch(check -> tellsApart(check, wrong, "degree_hours_over_covered_time"));
    assertTrue(apart, wrong);
  }

  static List<CheckCase> singleSine() {
    return CheckCase.of("degree-hours.json", "degree_days_single_sine");
  }

  @ParameterizedTest
  @MethodSource("singleSine")
  void aSampledSineConvergesToTheSingleSineFormula(CheckCase check) {
    double low = check.input().path("min_c").asDouble();
    double high = check.input().path("max_c").asDouble();
    HeatRule rule = rule(check.input(), "lower_c", "upper_c");
    for (int readingsADay : new int[] {24, 144, 1440, 86_400}) {
      double days =
          DegreeHours.of(sine(low, high, readingsADay), span(0, 1440), rule, NO_GAP).degreeHours()
              / 24;
      double allowed = chordError((high - low) / 2, readingsADay) + check.tolerance();
      assertEquals(check.expected("degree_days"), days, allowed, check.says("degree_days"));
    }
  }

  /**
   * A chord of a sine lies at most amplitude · step² / 8 away from it; no clipping adds to that.
   */
  private static double chordError(double amplitude, int readingsADay) {
    double step = 2 * Math.PI / readingsADay;
    return amplitude * step * step / 8;
  }

  private static Samples sine(double low, double high, int readingsADay) {
    Samples.Builder builder = new Samples.Builder(readingsADay + 1);
    for (int i = 0; i <= readingsADay; i++) {
      double turn = 2 * Math.PI * i / readingsADay;
      builder.add(
          SampleRecords.minute(1440.0 * i / readingsADay),
          (low + high) / 2 + (high - low) / 2 * Math.sin(turn));
    }
    return builder.build();
  }

  @Test
  void withoutReadingsTheWholeSpanIsAGap() {
    HeatSum sum = DegreeHours.of(Samples.EMPTY, span(0, 120), new HeatRule(15, null), HALF_HOUR);
    assertEquals(HeatSum.gap(7_200_000), sum);
  }

  @Test
  void anEmptySpanHasNothing() {
    Samples warm = minutes(0, 30, 30, 30);
    HeatRule rule = new HeatRule(15, null);
    assertEquals(HeatSum.ZERO, DegreeHours.of(warm, span(10, 10), rule, HALF_HOUR));
  }

  @Test
  void aSpanInsideOneStepTakesItsPartOfTheLine() {
    // From 20 to 26 °C in half an hour: minutes 10 to 20 run from 22 to 24 °C, mean 23.
    HeatSum sum =
        DegreeHours.of(minutes(0, 20, 30, 26), span(10, 20), new HeatRule(15, null), HALF_HOUR);
    assertEquals(8.0 / 6, sum.degreeHours(), BY_HAND);
    assertEquals(600_000, sum.coveredMs());
  }

  @Test
  void theCeilingBoundsWhatAGapCouldHaveAdded() {
    // One hour at 25 °C, then two hours of silence.
    Samples warm = minutes(0, 25, 30, 25, 60, 25);
    HeatRule rule = new HeatRule(15, 32.0);
    HeatSum sum = DegreeHours.of(warm, span(0, 180), rule, HALF_HOUR);
    assertEquals(10, sum.degreeHours(), BY_HAND);
    assertEquals(10, sum.lower(), BY_HAND);
    assertEquals(10 + 2 * 17, sum.upper(rule, 34), BY_HAND);
    assertEquals(10 + 2 * 17, sum.upper(rule, 30), BY_HAND);
  }

  @Test
  void withoutACeilingTheBandsHighLimitBoundsTheGap() {
    Samples warm = minutes(0, 25, 30, 25, 60, 25);
    HeatRule rule = new HeatRule(15, null);
    HeatSum sum = DegreeHours.of(warm, span(0, 180), rule, HALF_HOUR);
    assertEquals(10, sum.lower(), BY_HAND);
    assertEquals(10 + 2 * 19, sum.upper(rule, 34), BY_HAND);
  }

  @Test
  void aHighLimitBelowTheBaseAddsNothingToTheUpperBound() {
    HeatRule rule = new HeatRule(15, null);
    HeatSum silent = DegreeHours.of(Samples.EMPTY, span(0, 60), rule, HALF_HOUR);
    assertEquals(0, silent.upper(rule, 12), BY_HAND);
  }

  @Test
  void hoursAboveTheBaseEndWhereTheLineCrossesIt() {
    // An hour at 25 °C and an hour at 10 °C with a fall of half an hour that crosses 15 °C after
    // 20 minutes: 80 minutes above.
    Samples record = minutes(0, 25, 30, 25, 60, 25, 90, 10, 120, 10);
    HeatSum sum = DegreeHours.of(record, whole(record), new HeatRule(15, null), HALF_HOUR);
    assertEquals(80.0 / 60, sum.hoursAboveBase(), BY_HAND);
  }

  @Test
  void aSensorThatReadsHighByTheStatedErrorIsOffByTheStatedError() {
    Samples record = minutes(0, 12, 20, 18, 40, 33, 60, 27, 80, 14);
    HeatRule rule = new HeatRule(15, 30.0);
    HeatSum sum = DegreeHours.of(record, whole(record), rule, HALF_HOUR);
    HeatSum off = DegreeHours.of(record.plus(0.5), whole(record), rule, HALF_HOUR);
    double changed = off.degreeHours() - sum.degreeHours();
    TemperatureHistogram told = TemperatureHistogram.of(record.plus(0.5), whole(record), HALF_HOUR);
    assertEquals(changed, told.sensorError(rule, 0.5).less(), BY_HAND);
  }

  @ParameterizedTest
  @ValueSource(doubles = {15, 14.9, Double.NaN, Double.POSITIVE_INFINITY})
  void aCeilingThatDoesNotLieAboveTheBaseIsRefused(double ceiling) {
    assertThrows(IllegalArgumentException.class, () -> new HeatRule(15, ceiling));
  }

  @Test
  void aBaseThatIsNoNumberIsRefused() {
    assertThrows(IllegalArgumentException.class, () -> new HeatRule(Double.NaN, null));
  }

  private static HeatSum sum(CheckCase check, HeatRule rule, Duration maxGap) {
    Samples record = SampleRecords.of(check.inputs("time_h"), check.inputs("temp_c"), HOUR_MS);
    return DegreeHours.of(record, whole(record), rule, maxGap);
  }

  private static HeatRule rule(CheckCase check) {
    return rule(check.input(), "base_c", "cap_c");
  }

  private static HeatRule rule(JsonNode input, String base, String ceiling) {
    Double capped = input.path(ceiling).isNumber() ? input.path(ceiling).asDouble() : null;
    return new HeatRule(input.path(base).asDouble(), capped);
  }

  private static void expect(CheckCase check, String name, double actual) {
    assertEquals(check.expected(name), actual, check.tolerance(), check.says(name));
  }

  private static void differs(CheckCase check, String wrong, String right, double actual) {
    if (tellsApart(check, wrong, right)) {
      double distance = Math.abs(actual - check.expected(wrong));
      assertTrue(distance > check.tolerance(), check.says("answered as " + wrong));
    }
  }

  private static boolean tellsApart(CheckCase check, String wrong, String right) {
    return check.expected().has(wrong)
        && Math.abs(check.expected(wrong) - check.expected(right)) > check.tolerance();
  }
}
