package tepidarium.calibration;

import tepidarium.reading.Quantity;

/**
 * Properties that are assumed of a cheap sensor until it is calibrated: its step, the error that
 * its maker states, and the uncertainty of its gain. Values from memory of the data sheets of
 * DS18B20, DHT22, SHT3x and BH1750 (by generic chip name); for the other quantities common
 * practice, no source.
 */
public final class TypicalSensor {
  private TypicalSensor() {}

  /**
   * Standard uncertainty of one reading because of the sensor's step: step / √12 (JCGM 100:2008,
   * 4.3.7).
   */
  public static double readingUncertainty(Quantity quantity) {
    return FixedPoint.ofResolution(quantity.noise());
  }

  /**
   * The stated error of an uncalibrated sensor at a reading, ±, in the unit of the quantity:
   * temperature 0.5 °C, humidity 5 %, light 20 % of the reading and 1 lux, battery 0.1 V, carbon
   * dioxide 50 ppm and 5 % of the reading, moisture 10 %.
   */
  public static double statedError(Quantity quantity, double reading) {
    return switch (quantity) {
      case TEMPERATURE -> 0.5;
      case HUMIDITY -> 5;
      case LIGHT -> 1 + 0.2 * Math.abs(reading);
      case BATTERY -> 0.1;
      case CARBON_DIOXIDE -> 50 + 0.05 * Math.abs(reading);
      case MEDIUM_MOISTURE -> 10;
    };
  }

  /**
   * Standard uncertainty of the gain while only the offset is calibrated. Temperature: the maker
   * states 0.5 °C over 95 °C, taken as rectangular: 0.5 / √3 / 95 = 0.003. Humidity: 5 % over 100
   * %: 0.03. Light: 20 %: 0.12. Carbon dioxide 0.03, battery 0.01 and moisture 0.06 are common
   * practice, no source.
   */
  static double gainUncertainty(Quantity quantity) {
    return switch (quantity) {
      case TEMPERATURE -> 0.003;
      case LIGHT -> 0.12;
      case HUMIDITY, CARBON_DIOXIDE -> 0.03;
      case BATTERY -> 0.01;
      case MEDIUM_MOISTURE -> 0.06;
    };
  }

  /**
   * The greatest gain that a working sensor needs; the least one is its reciprocal. Common
   * practice, no source.
   */
  static double greatestGain(Quantity quantity) {
    return switch (quantity) {
      case TEMPERATURE, BATTERY -> 1.1;
      case HUMIDITY, CARBON_DIOXIDE -> 1.5;
      case LIGHT -> 2;
      case MEDIUM_MOISTURE -> 5;
    };
  }
}
