package tepidarium.alert;

/**
 * The trend of a temperature when a forecast was made. Stored with a forecast alert.
 *
 * @param value the temperature now, °C
 * @param perHour its change, °C an hour
 * @param steady the temperature that it approaches, °C
 */
public record Trend(double value, double perHour, double steady) {
  public static Trend of(Forecast forecast) {
    return new Trend(
        tenths(forecast.valueC()), tenths(forecast.perHourC()), tenths(forecast.steadyC()));
  }

  /** Rounds to one decimal, about the resolution of a common sensor. */
  private static double tenths(double value) {
    return Math.round(value * 10) / 10.0;
  }

  /** The trend as the reason of an alert. */
  AlertReason reason() {
    return AlertReason.Code.TREND.with(value, perHour, steady);
  }
}
