package tepidarium.container;

import tepidarium.reading.Checks;
import tepidarium.reading.InputRule;
import tepidarium.reading.InvalidInput;

/**
 * The limits of temperature, light and humidity within which a container should stay, called the
 * warm-dark band.
 *
 * @param temperatureLowC °C
 * @param temperatureHighC °C
 * @param lightHighLux lux
 * @param humidityLowPercent percent relative humidity
 * @throws InvalidInput if a limit is out of range or the limits contradict each other; names the
 *     limit
 */
public record Band(
    double temperatureLowC,
    double temperatureHighC,
    double lightHighLux,
    double humidityLowPercent) {
  /**
   * Limits for fresh tropical tree seed: 30 °C or slightly above, dark and moist (common practice,
   * no source). The light limit is just above the dark reading of a common light sensor.
   */
  public static final Band DEFAULT = new Band(29.5, 34, 1, 80);

  public Band {
    Checks.within("band.temperature.low", temperatureLowC, -20, 80, "°C");
    Checks.within("band.temperature.high", temperatureHighC, -20, 80, "°C");
    Checks.within("band.light.high", lightHighLux, 0, 100_000, "lux");
    Checks.within("band.humidity.low", humidityLowPercent, 0, 100, "%");
    if (temperatureHighC <= temperatureLowC) {
      throw new InvalidInput(
          "band.temperature.high",
          temperatureHighC + " °C must lie above band.temperature.low " + temperatureLowC + " °C",
          InputRule.HIGHER.with(temperatureHighC, temperatureLowC, "band.temperature.low", "°C"));
    }
  }
}
