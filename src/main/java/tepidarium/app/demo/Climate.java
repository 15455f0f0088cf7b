package tepidarium.app.demo;

/**
 * The climate at the place of a sensor, as functions of time.
 *
 * @param temperatureC °C
 * @param humidityPercent percent relative humidity
 * @param illuminanceLux lux
 */
record Climate(Signal temperatureC, Signal humidityPercent, Signal illuminanceLux) {}
