package tepidarium.container;

import tepidarium.reading.Checks;
import tepidarium.reading.Quantity;

/**
 * The offsets added to a sensor's raw readings when they are queried, and its remaining temperature
 * error.
 *
 * @param temperatureOffsetC °C, −10 to 10
 * @param humidityOffsetPercent percent relative humidity, −30 to 30
 * @param temperatureErrorC ±°C, 0 to 5
 */
public record Calibration(
    double temperatureOffsetC, double humidityOffsetPercent, double temperatureErrorC) {
  /** An uncalibrated sensor. The makers of DS18B20 and DHT22 state ±0.5 °C (value from memory). */
  public static final Calibration NONE = new Calibration(0, 0, 0.5);

  public Calibration {
    Checks.within("temperatureOffset", temperatureOffsetC, -10, 10, "K");
    Checks.within("humidityOffset", humidityOffsetPercent, -30, 30, "%");
    Checks.within("temperatureError", temperatureErrorC, 0, 5, "K");
  }

  /** The offset for a raw value of the quantity, in its unit. */
  public double offset(Quantity quantity) {
    return switch (quantity) {
      case TEMPERATURE -> temperatureOffsetC;
      case HUMIDITY -> humidityOffsetPercent;
      default -> 0;
    };
  }
}
