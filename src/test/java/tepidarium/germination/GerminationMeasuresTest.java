package tepidarium.germination;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import tepidarium.stats.Censored;
import tepidarium.stats.CheckRows;

class GerminationMeasuresTest {
  static Stream<JsonNode> tables() {
    return CheckRows.cases("germination-measures.json", "count_table_measures").stream();
  }

  private static GerminationMeasures measures(int sown, double[] days, int[] counts) {
    List<Censored> rows = new ArrayList<>();
    double before = 0;
    for (int i = 0; i < days.length; i++) {
      rows.add(new Censored(before, days[i], counts[i]));
      before = days[i];
    }
    return new GerminationMeasures(sown, rows);
  }

  @ParameterizedTest
  @MethodSource("tables")
  void everyMeasureIsThatOfTheTable(JsonNode check) {
    int checks = check.at("/input/check_day").size();
    double[] days = new double[checks];
    int[] counts = new int[checks];
    for (int i = 0; i < checks; i++) {
      days[i] = check.at("/input/check_day").path(i).asDouble();
      counts[i] = check.at("/input/newly_germinated").path(i).asInt();
    }
    GerminationMeasures m = measures(check.at("/input/sown").asInt(), days, counts);
    Map<String, OptionalDouble> found = new TreeMap<>();
    found.put("germinated", OptionalDouble.of(m.germinated()));
    found.put("final_fraction", OptionalDouble.of(m.finalFraction()));
    found.put("mean_germination_time", m.meanTime());
    found.put("mean_germination_rate", m.meanRate());
    found.put("variance_germination_time", m.variance());
    found.put("sd_germination_time", root(m.variance()));
    found.put("cv_percent", m.variationPercent());
    found.put("coefficient_uniformity", m.uniformity());
    found.put("t50_coolbear_1984", m.halfTimeCoolbear());
    found.put("t50_farooq_2005", m.halfTimeFarooq());
    found.put("t50_of_sown", m.halfTimeOfSown());
    found.put("uncertainty_bits", m.uncertaintyBits());
    found.put("synchrony_z", m.synchrony());
    found.put("germination_speed_index_maguire", OptionalDouble.of(m.speed()));
    found.put("germination_rate_index_percent_per_day", OptionalDouble.of(m.rateIndexPercent()));
    found.put("peak_value", OptionalDouble.of(m.peakValue()));
    found.put("peak_day", m.peakTime());
    found.put("mean_daily_germination", OptionalDouble.of(m.meanDailyPercent()));
    found.put("germination_value_czabator", OptionalDouble.of(m.germinationValue()));
    found.put("first_check_with_germination", m.firstTime());
    found.put("last_check_with_germination", m.lastTime());
    found.put("timson_sum_of_cumulative_percent", OptionalDouble.of(m.timsonPercent()));
    found.put("mean_germination_time_midpoints", m.meanTimeOfMiddles());
    check
        .path("expected")
        .properties()
        .forEach(
            entry -> {
              String name = entry.getKey();
              OptionalDouble value = found.get(name);
              if (entry.getValue().isNull()) {
                assertTrue(value.isEmpty(), name);
              } else {
                double expected = entry.getValue().asDouble();
                assertEquals(expected, value.orElseThrow(), 1e-6 * Math.max(1, expected), name);
              }
            });
  }

  private static OptionalDouble root(OptionalDouble variance) {
    return variance.isEmpty() ? variance : OptionalDouble.of(Math.sqrt(variance.getAsDouble()));
  }

  /** Formulas as in Ranal and Santana, Revista Brasileira de Botânica 29 (2006) 1-11. */
  @Test
  void fortySeedsOfTenDays() {
    GerminationMeasures m =
        measures(
            40,
            new double[] {1, 2, 3, 4, 5, 6, 7, 8, 9, 10},
            new int[] {0, 0, 4, 17, 10, 7, 1, 0, 1, 0});
    assertEquals(4.7, m.meanTime().orElseThrow(), 1e-6);
    assertEquals(1.446154, m.variance().orElseThrow(), 1e-6);
    assertEquals(25.586, m.variationPercent().orElseThrow(), 1e-3);
    assertEquals(0.212766, m.meanRate().orElseThrow(), 1e-6);
    assertEquals(3.970588, m.halfTimeCoolbear().orElseThrow(), 1e-6);
    assertEquals(3.941176, m.halfTimeFarooq().orElseThrow(), 1e-6);
    assertEquals(9.003968, m.speed(), 1e-6);
    assertEquals(2.062987, m.uncertaintyBits().orElseThrow(), 1e-6);
    assertEquals(0.266667, m.synchrony().orElseThrow(), 1e-6);
    assertEquals(3.7, m.earliestMeanTime().orElseThrow(), 1e-6);
    assertEquals(40, m.sown());
  }

  @Test
  void impossibleRowsAreRefused() {
    assertThrows(
        IllegalArgumentException.class, () -> measures(3, new double[] {7}, new int[] {4}));
    assertThrows(
        IllegalArgumentException.class,
        () -> new GerminationMeasures(3, List.of(new Censored(7, 14, 1), new Censored(0, 7, 1))));
    assertEquals(0, measures(3, new double[0], new int[0]).peakValue());
  }
}
