package tepidarium.app.demo;

/**
 * What a sensor at one place would feel.
 *
 * @param temperatureC °C
 * @param humidityPercent percent relative humidity
 * @param illuminanceLux lux
 */
record Climate(Signal temperatureC, Signal humidityPercent, Signal illuminanceLux) {}
