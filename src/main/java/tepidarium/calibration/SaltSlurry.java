package tepidarium.calibration;

import tepidarium.reading.Checks;

/**
 * Relative humidity of the air over a slurry of salt and water in a closed jar, from 5 to 50 °C.
 * Source: Greenspan, Journal of Research of the National Bureau of Standards 81A (1977) 89-96:
 * cubic polynomials in temperature. Those of magnesium and sodium chloride, and the first terms of
 * potassium chloride, agree with a second copy of the paper; the other terms, the sulphate and the
 * stated uncertainties at 20 to 30 °C are values from memory. Outside 20 to 30 °C twice the
 * uncertainty at the nearer of both is used, because no stated one is recorded here.
 */
public enum SaltSlurry {
  MAGNESIUM_CHLORIDE(new double[] {33.6686, -0.00797397, -0.00108988, 0}, 0.18, 0.16, 0.14),
  SODIUM_CHLORIDE(new double[] {75.5164, 0.0398321, -0.00265459, 2.848e-5}, 0.14, 0.12, 0.11),
  POTASSIUM_CHLORIDE(new double[] {88.6190, -0.193340, 0.000899706, 0}, 0.29, 0.26, 0.25),
  POTASSIUM_SULPHATE(new double[] {98.7792, -0.0590502, 0, 0}, 0.53, 0.45, 0.40);

  public static final double MIN_C = 5;
  public static final double MAX_C = 50;
  private static final double STATED_FROM_C = 20;
  private static final double STATED_TO_C = 30;
  private static final double MIDDLE_C = 25;

  @SuppressWarnings("ImmutableEnumChecker") // never written after construction
  private final double[] coefficients;

  private final double at20;
  private final double at25;
  private final double at30;

  SaltSlurry(double[] coefficients, double at20, double at25, double at30) {
    this.coefficients = coefficients;
    this.at20 = at20;
    this.at25 = at25;
    this.at30 = at30;
  }

  /** Relative humidity, %, at a temperature from 5 to 50 °C. */
  public double humidityPercent(double temperatureC) {
    Checks.within("saltTemperature", temperatureC, MIN_C, MAX_C, "°C");
    double humidity = 0;
    for (int i = coefficients.length - 1; i >= 0; i--) {
      humidity = humidity * temperatureC + coefficients[i];
    }
    return humidity;
  }

  /** The uncertainty stated in the table, ±%; interpolated linearly between its temperatures. */
  public double statedUncertaintyPercent(double temperatureC) {
    Checks.within("saltTemperature", temperatureC, MIN_C, MAX_C, "°C");
    if (temperatureC < STATED_FROM_C || temperatureC > STATED_TO_C) {
      return 2 * (temperatureC < STATED_FROM_C ? at20 : at30);
    }
    double share = (temperatureC - MIDDLE_C) / (STATED_TO_C - MIDDLE_C);
    return at25 + share * (share > 0 ? at30 - at25 : at25 - at20);
  }

  /**
   * The fixed point of a humidity sensor in the jar. The stated uncertainty is the half-width of a
   * rectangular distribution. A sensor that is 1 °C warmer than the slurry reads about 6 % of the
   * humidity too low. Source of the slope of the saturation pressure: FAO Irrigation and Drainage
   * Paper 56, eq. 11.
   *
   * @param differenceUncertaintyC standard uncertainty of the temperature difference between sensor
   *     and slurry, °C
   */
  public FixedPoint fixedPoint(
      double readingPercent,
      double readingUncertaintyPercent,
      double temperatureC,
      double differenceUncertaintyC) {
    double humidity = humidityPercent(temperatureC);
    double relativeSlope = 17.27 * 237.3 / ((temperatureC + 237.3) * (temperatureC + 237.3));
    double salt = FixedPoint.ofLimits(statedUncertaintyPercent(temperatureC));
    double difference = humidity * relativeSlope * differenceUncertaintyC;
    return new FixedPoint(
        readingPercent, readingUncertaintyPercent, humidity, Math.hypot(salt, difference));
  }
}
