package tepidarium.germination;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.TreeMap;
import java.util.function.DoubleFunction;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import tepidarium.germination.ThermalTime.HeatInterval;
import tepidarium.stats.Censored;
import tepidarium.stats.CheckRows;
import tepidarium.stats.ConfidenceInterval;

class ThermalTimeTest {
  private static final double NEVER = Double.POSITIVE_INFINITY;

  static Stream<JsonNode> regressions() {
    return CheckRows.cases("thermal-time.json", "rate_regression").stream();
  }

  static Stream<JsonNode> predictions() {
    return CheckRows.cases("thermal-time.json", "predict_day_constant_temperature").stream();
  }

  static Stream<JsonNode> reached() {
    return CheckRows.cases("thermal-time.json", "time_to_reach_heat_sum").stream();
  }

  private static double[] numbers(JsonNode array) {
    double[] numbers = new double[array.size()];
    for (int i = 0; i < numbers.length; i++) {
      numbers[i] = array.path(i).asDouble();
    }
    return numbers;
  }

  @ParameterizedTest
  @MethodSource("regressions")
  void theRegressionOfTheRateOnTemperature(JsonNode check) {
    double[] temperatures = numbers(check.at("/input/temp_c"));
    double[] days = numbers(check.at("/input/t50_days"));
    List<RateRegression.Point> points = new ArrayList<>();
    for (int i = 0; i < days.length; i++) {
      points.add(new RateRegression.Point(temperatures[i], days[i]));
    }
    RateRegression found = RateRegression.of(points).orElseThrow();
    JsonNode expected = check.path("expected");
    near(expected.path("base_temp_c"), found.baseC(), 1e-6);
    near(expected.path("thermal_time_to_50pct"), found.theta(), 1e-6);
    near(expected.path("r_squared"), found.rSquared(), 1e-6);
    assertEquals(expected.path("se_base_temp").asDouble(), found.baseError(), 1e-5);
    assertEquals(expected.path("se_thermal_time").asDouble(), found.thetaError(), 1e-4);
    JsonNode fieller = expected.path("base_temp_ci95_fieller");
    if (fieller.isArray()) {
      assertEquals(fieller.path(0).asDouble(), found.baseLimits().low(), 1e-4);
      assertEquals(fieller.path(1).asDouble(), found.baseLimits().high(), 1e-4);
    }
    assertTrue(RateRegression.of(points.subList(0, 3)).isEmpty());
  }

  private static void near(JsonNode expected, double actual, double relative) {
    assertEquals(expected.asDouble(), actual, Math.abs(expected.asDouble()) * relative);
  }

  @Test
  void aWeakSlopeLeavesTheBaseOpen() {
    RateRegression weak =
        RateRegression.of(
                List.of(
                    new RateRegression.Point(24, 10),
                    new RateRegression.Point(25, 8),
                    new RateRegression.Point(26, 11),
                    new RateRegression.Point(27, 8)))
            .orElseThrow();
    assertEquals(Double.NEGATIVE_INFINITY, weak.baseLimits().low());
    assertTrue(weak.baseLimits().contains(weak.baseC()));
    assertTrue(
        RateRegression.of(
                List.of(
                    new RateRegression.Point(24, 5),
                    new RateRegression.Point(25, 6),
                    new RateRegression.Point(26, 7),
                    new RateRegression.Point(27, 8)))
            .isEmpty());
  }

  private static Map<Double, List<Censored>> byTemperature(JsonNode rows) {
    Map<Double, List<Censored>> sowings = new TreeMap<>();
    for (JsonNode row : rows) {
      double right = row.path("right").isNull() ? NEVER : row.path("right").asDouble();
      sowings
          .computeIfAbsent(row.path("temp_c").asDouble(), t -> new ArrayList<>())
          .add(new Censored(row.path("left").asDouble(), right, row.path("count").asInt()));
    }
    return sowings;
  }

  private static DoubleFunction<List<HeatInterval>> heat(Map<Double, List<Censored>> sowings) {
    return base -> {
      List<HeatInterval> all = new ArrayList<>();
      sowings.forEach(
          (t, rows) -> rows.forEach(row -> all.add(HeatInterval.atConstant(row, t, base))));
      return all;
    };
  }

  @Test
  void baseAndHeatAgreeWithAReferenceProgram() {
    JsonNode check = CheckRows.cases("thermal-time.json", "thermal_time_interval_ml").get(0);
    DoubleFunction<List<HeatInterval>> heat = heat(byTemperature(check.at("/input/rows")));
    BaseTemperature found = BaseTemperature.of(heat, 0, 15, false);
    JsonNode expected = check.path("expected");
    ThermalTime best = found.best();
    assertTrue(found.identified(), String.valueOf(found.reason()));
    assertEquals(expected.path("base_temp_c").asDouble(), best.baseC(), 0.005);
    near(expected.path("thermal_time_to_50pct"), best.medianHeat(), 1e-3);
    near(expected.path("sigma_log10"), best.sigmaLog10(), 1e-3);
    assertEquals(expected.path("loglik").asDouble(), best.logLikelihood(), 1e-3);
    double error = expected.path("se_base_temp").asDouble();
    ConfidenceInterval limits = found.limits();
    assertEquals(2 * 1.959964 * error, limits.high() - limits.low(), 0.05 * 4 * error);
    // With a final fraction free the counts, of which nearly all germinated, say much the same.
    BaseTemperature free = BaseTemperature.of(heat, 0, 15, true);
    assertEquals(best.baseC(), free.best().baseC(), 0.3);
    assertTrue(free.best().finalFraction() > 0.98);
  }

  @ParameterizedTest
  @MethodSource("predictions")
  void theDayAtAConstantTemperature(JsonNode check) {
    JsonNode input = check.path("input");
    ThermalTime model =
        new ThermalTime(
            input.path("base_temp_c").asDouble(),
            input.path("theta50").asDouble(),
            input.path("sigma_log10").asDouble() * Math.log(10),
            1,
            false,
            false,
            0);
    OptionalDouble day =
        model.timeFor(input.path("fraction").asDouble(), input.path("temp_c").asDouble());
    JsonNode expected = check.at("/expected/day");
    if (expected.isNull()) {
      assertTrue(day.isEmpty());
    } else {
      near(expected, day.orElseThrow(), 1e-6);
    }
  }

  @ParameterizedTest
  @MethodSource("reached")
  void whenAHeatSumIsReached(JsonNode check) {
    OptionalDouble hours =
        HeatReached.at(
            numbers(check.at("/input/time_h")),
            numbers(check.at("/input/temp_c")),
            check.at("/input/base_c").asDouble(),
            check.at("/input/target_degree_hours").asDouble());
    JsonNode expected = check.at("/expected/time_h");
    if (expected.isNull()) {
      assertTrue(hours.isEmpty());
    } else {
      assertEquals(expected.asDouble(), hours.orElseThrow(), 1e-6);
    }
  }

  /**
   * Ritz, Pipper and Streibig, European Journal of Agronomy 45 (2013) 1-6. Wheat gains nothing more
   * above about 16 °C in these dishes, so heat is counted with a ceiling, which is chosen by the
   * likelihood too; the dish at 40 °C is past the heat that wheat bears. Published range of the
   * base of wheat, 0 to 4 °C: value from memory.
   */
  @Test
  void wheatHasABaseTemperatureInThePublishedRange() {
    Map<String, List<Censored>> dishes = CheckRows.twoCrops();
    BaseTemperature best = null;
    double bestCeiling = 0;
    for (double ceiling : new double[] {16, 22, 28, 34}) {
      Map<Double, List<Censored>> sowings = new TreeMap<>();
      for (int t : new int[] {10, 16, 22, 28, 34}) {
        sowings
            .computeIfAbsent(Math.min(t, ceiling), any -> new ArrayList<>())
            .addAll(dishes.get("wheat " + t));
      }
      BaseTemperature found = BaseTemperature.of(heat(sowings), -10, 9.5, true);
      if (found.identified()
          && (best == null || found.best().logLikelihood() > best.best().logLikelihood())) {
        best = found;
        bestCeiling = ceiling;
      }
    }
    assertEquals(16, bestCeiling);
    assertTrue(best.best().baseC() >= 0 && best.best().baseC() <= 4, "base " + best);
    assertTrue(best.limits().contains(best.best().baseC()));
  }

  @Test
  void oneTemperatureDoesNotIdentifyTheBase() {
    List<Censored> rows = CheckRows.twoCrops().get("wheat 22");
    BaseTemperature found = BaseTemperature.of(heat(Map.of(22.0, rows)), 0, 15, true);
    assertFalse(found.identified());
    assertEquals(NoBase.EVERY_BASE, found.reason());
    double clock = 6 - 2 * ThermalTime.fit(rows, true).orElseThrow().estimate().logLikelihood();
    double heat =
        ThermalTime.at(5, heat(Map.of(22.0, rows)).apply(5), true).orElseThrow().aic(false);
    assertEquals(clock, heat, 1e-6);
    assertEquals(BaseTemperature.Verdict.CANNOT_BE_TOLD, BaseTemperature.compare(heat, clock));
  }

  @Test
  void heatIsChosenWhenItDeterminesGermination() {
    JsonNode check = CheckRows.cases("thermal-time.json", "thermal_time_interval_ml").get(0);
    Map<Double, List<Censored>> sowings = byTemperature(check.at("/input/rows"));
    List<Censored> all = sowings.values().stream().flatMap(List::stream).toList();
    double clock = 4 - 2 * ThermalTime.fit(all, false).orElseThrow().estimate().logLikelihood();
    double heat = BaseTemperature.of(heat(sowings), 0, 15, false).best().aic(true);
    assertEquals(BaseTemperature.Verdict.HEAT, BaseTemperature.compare(heat, clock));
    assertEquals(BaseTemperature.Verdict.CLOCK, BaseTemperature.compare(clock, heat));
  }

  /** Sensors that may be off by 0.5 °C either way move the base by about as much. */
  @Test
  void uncertainHeatLeavesTheBaseLessCertain() {
    JsonNode check = CheckRows.cases("thermal-time.json", "thermal_time_interval_ml").get(0);
    Map<Double, List<Censored>> sowings = byTemperature(check.at("/input/rows"));
    BaseTemperature exact = BaseTemperature.of(heat(sowings), 0, 15, false);
    BaseTemperature unsure =
        BaseTemperature.ofUncertain(
            heat(warmer(sowings, -0.5)), heat(sowings), heat(warmer(sowings, 0.5)), 0, 15, false);
    assertEquals(exact.best(), unsure.best());
    assertEquals(exact.limits().low() - 0.5, unsure.limits().low(), 0.01);
    assertEquals(exact.limits().high() + 0.5, unsure.limits().high(), 0.01);
  }

  private static Map<Double, List<Censored>> warmer(
      Map<Double, List<Censored>> sowings, double byC) {
    Map<Double, List<Censored>> moved = new TreeMap<>();
    sowings.forEach((t, rows) -> moved.put(t + byC, rows));
    return moved;
  }

  @Test
  void germinationWithoutHeatExcludesABase() {
    List<HeatInterval> cold = List.of(new HeatInterval(0, 0, 3), new HeatInterval(10, 20, 4));
    assertTrue(ThermalTime.at(20, cold, true).isEmpty());
    List<Censored> rows = CheckRows.twoCrops().get("wheat 10");
    BaseTemperature none = BaseTemperature.of(heat(Map.of(10.0, rows)), 10, 15, true);
    assertFalse(none.identified());
    assertEquals(NoBase.UNIDENTIFIED, none.reason());
  }
}
