package tepidarium.stats;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import tepidarium.CheckCase;

class MoistAirTest {
  static Stream<CheckCase> saturation() {
    return CheckCase.of("humidity.json", "sat_vapour_pressure_fao56").stream();
  }

  static Stream<CheckCase> deficits() {
    return CheckCase.of("humidity.json", "vpd_single_reading").stream();
  }

  static Stream<CheckCase> dewPoints() {
    return CheckCase.of("humidity.json", "dew_point_magnus").stream();
  }

  @ParameterizedTest
  @MethodSource("saturation")
  void saturationPressureIsThatOfFao56(CheckCase check) {
    double found = MoistAir.saturationPressureKpa(check.input().path("temp_c").asDouble());
    assertEquals(check.expected("es_kpa"), found, 1e-6, check.says("es_kpa"));
    assertEquals(check.expected("table_3dp"), found, 5e-4, check.says("table_3dp"));
  }

  @ParameterizedTest
  @MethodSource("deficits")
  void deficitIsThatOfFao56(CheckCase check) {
    MoistAir air = air(check);
    assertEquals(check.expected("vpd_kpa"), air.deficitKpa(), 1e-6, check.says("vpd_kpa"));
    assertEquals(air.saturationPressureKpa(), air.vapourPressureKpa() + air.deficitKpa(), 1e-12);
  }

  /** Another formula than ours; the file's tolerance between formulas is 0.06 °C. */
  @ParameterizedTest
  @MethodSource("dewPoints")
  void dewPointIsThatOfTheWmoWithinTheDifferenceOfTheFormulas(CheckCase check) {
    assertEquals(
        check.expected("dew_point_c"),
        air(check).dewPointC().orElseThrow(),
        0.06,
        check.says("dew_point_c"));
  }

  private static MoistAir air(CheckCase check) {
    return new MoistAir(
        check.input().path("temp_c").asDouble(), check.input().path("rh_pct").asDouble());
  }

  @ParameterizedTest
  @CsvSource({"-20, 30", "0, 80", "15, 1", "30, 96", "30, 100", "45, 12.5"})
  void airAtItsDewPointIsSaturated(double temperatureC, double humidity) {
    MoistAir air = new MoistAir(temperatureC, humidity);
    double dewPoint = air.dewPointC().orElseThrow();
    assertEquals(air.vapourPressureKpa(), MoistAir.saturationPressureKpa(dewPoint), 1e-9);
    assertTrue(dewPoint <= temperatureC + 1e-9);
  }

  @Test
  void perfectlyDryAirHasNoDewPoint() {
    assertTrue(new MoistAir(20, 0).dewPointC().isEmpty());
    assertEquals(0, new MoistAir(20, 0).vapourPressureKpa());
  }

  @Test
  void anImpossibleTemperatureOrHumidityIsRefused() {
    assertThrows(IllegalArgumentException.class, () -> new MoistAir(20, 100.1));
    assertThrows(IllegalArgumentException.class, () -> new MoistAir(20, -0.1));
    assertThrows(IllegalArgumentException.class, () -> new MoistAir(20, Double.NaN));
    assertThrows(IllegalArgumentException.class, () -> new MoistAir(Double.NaN, 50));
    assertThrows(IllegalArgumentException.class, () -> new MoistAir(-41, 50));
  }
}
