package tepidarium.heat;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import tepidarium.CheckCase;

/**
 * Heat from a day's lowest and highest temperature, against the cases of degree-hours.json (their
 * sources beside them) and against the wave integrated numerically.
 */
class SingleSineTest {
  static List<CheckCase> cases() {
    return CheckCase.of("degree-hours.json", "degree_days_single_sine");
  }

  @ParameterizedTest
  @MethodSource("cases")
  void theCheckCasesAgree(CheckCase check) {
    var input = check.input();
    Double ceiling = input.path("upper_c").isNumber() ? input.path("upper_c").asDouble() : null;
    double told =
        SingleSine.degreeDays(
            input.path("min_c").asDouble(),
            input.path("max_c").asDouble(),
            new HeatRule(input.path("lower_c").asDouble(), ceiling));
    assertEquals(check.expected("degree_days"), told, check.tolerance(), check.why());
  }

  /** Allen, Environmental Entomology 5 (1976) 388-396, horizontal cut-off; computed from it. */
  @ParameterizedTest
  @CsvSource({
    "10, 30, 12, , 8.271197",
    "5, 25, 12, , 4.827443",
    "15, 35, 12, , 13.000000",
    "8, 20, 10, , 4.352643",
    "4, 11, 12, , 0",
    "10, 40, 12, 30, 10.678211",
    "22, 34, 15, 32, 12.647357"
  })
  void publishedFormulaAgrees(double min, double max, double base, Double ceiling, double days) {
    assertEquals(days, SingleSine.degreeDays(min, max, new HeatRule(base, ceiling)), 1e-6);
  }

  /** 12 cases for each way in which base and ceiling can lie to the wave, and on its ends. */
  @Test
  void theResultIsTheIntegralOfTheClippedWave() {
    Random random = new Random(20260301);
    int[] met = new int[6];
    for (int i = 0; i < 2_000; i++) {
      double base = 5 + random.nextInt(20);
      double ceiling = base + 1 + random.nextInt(15);
      double min = random.nextInt(40) + (random.nextInt(4) == 0 ? 0 : random.nextDouble());
      double max = min + random.nextInt(20) + (random.nextInt(4) == 0 ? 0 : random.nextDouble());
      met[position(min, max, base, ceiling)]++;
      HeatRule rule = new HeatRule(base, ceiling);
      assertEquals(integrated(min, max, rule), SingleSine.degreeDays(min, max, rule), 1e-9);
    }
    for (int count : met) {
      assertTrue(count >= 12, Arrays.toString(met));
    }
  }

  private static int position(double min, double max, double base, double ceiling) {
    if (max <= base) {
      return 0;
    }
    if (min >= ceiling) {
      return 1;
    }
    if (min >= base) {
      return max <= ceiling ? 2 : 3;
    }
    return max <= ceiling ? 4 : 5;
  }

  /** The half wave that only rises, cut where bisection finds it to cross base and ceiling. */
  private static double integrated(double min, double max, HeatRule rule) {
    DoubleUnaryOperator wave = x -> (min + max) / 2 + (max - min) / 2 * Math.sin(x);
    double ceiling = rule.ceilingC();
    double low = crossing(wave, rule.baseC());
    double high = crossing(wave, ceiling);
    DoubleUnaryOperator gain = x -> wave.applyAsDouble(x) - rule.baseC();
    double above = simpson(gain, low, high) + (Math.PI / 2 - high) * (ceiling - rule.baseC());
    return above / Math.PI;
  }

  private static double crossing(DoubleUnaryOperator wave, double threshold) {
    double low = -Math.PI / 2;
    double high = Math.PI / 2;
    for (int i = 0; i < 100; i++) {
      double middle = (low + high) / 2;
      if (wave.applyAsDouble(middle) < threshold) {
        low = middle;
      } else {
        high = middle;
      }
    }
    return high;
  }

  private static double simpson(DoubleUnaryOperator f, double from, double to) {
    int steps = 400;
    double step = (to - from) / steps;
    double sum = f.applyAsDouble(from) + f.applyAsDouble(to);
    for (int i = 1; i < steps; i++) {
      sum += (i % 2 == 0 ? 2 : 4) * f.applyAsDouble(from + i * step);
    }
    return sum * step / 3;
  }

  @Test
  void anInvalidDayIsRefused() {
    HeatRule rule = new HeatRule(15, null);
    assertThrows(IllegalArgumentException.class, () -> SingleSine.degreeDays(20, 19, rule));
    assertThrows(IllegalArgumentException.class, () -> SingleSine.degreeDays(Double.NaN, 19, rule));
  }
}
