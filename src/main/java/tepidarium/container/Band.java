package tepidarium.container;

import tepidarium.reading.InvalidInput;

/**
 * The warm-dark band: the limits a container should stay in.
 *
 * @param temperatureLowC °C
 * @param temperatureHighC °C
 * @param lightHighLux lux
 * @param humidityLowPercent percent relative humidity
 * @throws InvalidInput naming the limit that makes no sense
 */
public record Band(
    double temperatureLowC,
    double temperatureHighC,
    double lightHighLux,
    double humidityLowPercent) {
  /**
   * Warm enough for fresh tropical tree seed (30 °C or a little above), dark and moist. Common
   * practice, no source; a light limit just above the dark count of a common light sensor.
   */
  public static final Band DEFAULT = new Band(29.5, 34, 1, 80);

  public Band {
    Checks.within("band.temperature.low", temperatureLowC, -20, 80, "°C");
    Checks.within("band.temperature.high", temperatureHighC, -20, 80, "°C");
    Checks.within("band.light.high", lightHighLux, 0, 100_000, "lux");
    Checks.within("band.humidity.low", humidityLowPercent, 0, 100, "%");
    if (temperatureHighC <= temperatureLowC) {
      throw new InvalidInput(
          "band.temperature.high "
              + temperatureHighC
              + " °C must lie above band.temperature.low "
              + temperatureLowC
              + " °C");
    }
  }
}
