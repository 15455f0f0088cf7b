package tepidarium.container;

/**
 * Relative humidity of the air over a slurry of salt and water in a closed jar. Source: Greenspan,
 * Journal of Research of the National Bureau of Standards 81A (1977) 89-96: cubic polynomials in
 * temperature, and stated uncertainties (both from memory; the polynomials reproduce the table to
 * 0.02 %). Here from 20 to 30 °C, where the uncertainties are known to us.
 */
public enum SaltSlurry {
  MAGNESIUM_CHLORIDE(new double[] {33.6686, -0.00797397, -0.00108988, 0}, 0.18, 0.16, 0.14),
  SODIUM_CHLORIDE(new double[] {75.5164, 0.0398321, -0.00265459, 2.848e-5}, 0.14, 0.12, 0.11),
  POTASSIUM_CHLORIDE(new double[] {88.6190, -0.193340, 0.000899706, 0}, 0.29, 0.26, 0.25),
  POTASSIUM_SULPHATE(new double[] {98.7792, -0.0590502, 0, 0}, 0.53, 0.45, 0.40);

  public static final double LEAST_C = 20;
  public static final double MOST_C = 30;
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

  /** Relative humidity, %, at a temperature from 20 to 30 °C. */
  public double humidityPercent(double temperatureC) {
    Checks.within("temperature", temperatureC, LEAST_C, MOST_C, "°C");
    double humidity = 0;
    for (int i = coefficients.length - 1; i >= 0; i--) {
      humidity = humidity * temperatureC + coefficients[i];
    }
    return humidity;
  }

  /** The ± that the table states, %; between its temperatures on a straight line. */
  public double statedUncertaintyPercent(double temperatureC) {
    Checks.within("temperature", temperatureC, LEAST_C, MOST_C, "°C");
    double share = (temperatureC - MIDDLE_C) / (MOST_C - MIDDLE_C);
    return at25 + share * (share > 0 ? at30 - at25 : at25 - at20);
  }

  /**
   * The fixed point of a humidity sensor in the jar. The stated ± counts as the half-width of a
   * rectangular distribution. A sensor warmer than the slurry by 1 °C reads some 6 % of the
   * humidity too low; the slope of the saturation pressure is that of FAO Irrigation and Drainage
   * Paper 56, eq. 11.
   *
   * @param apartUncertaintyC standard uncertainty of the difference in temperature between sensor
   *     and slurry, °C
   */
  public FixedPoint fixedPoint(
      double readingPercent,
      double readingUncertaintyPercent,
      double temperatureC,
      double apartUncertaintyC) {
    double humidity = humidityPercent(temperatureC);
    double relativeSlope = 17.27 * 237.3 / ((temperatureC + 237.3) * (temperatureC + 237.3));
    double salt = FixedPoint.ofLimits(statedUncertaintyPercent(temperatureC));
    double apart = humidity * relativeSlope * apartUncertaintyC;
    return new FixedPoint(
        readingPercent, readingUncertaintyPercent, humidity, Math.hypot(salt, apart));
  }
}
