package tepidarium.reading;

import java.util.Locale;
import java.util.Optional;

/**
 * A measured quantity with its unit and its plausible range. Values outside the range are refused.
 * The ranges are the widest measuring ranges of common sensors (data sheets of DS18B20, SHT3x and
 * BH1750, by generic chip name) plus a margin; for the battery, common practice, no source. Columns
 * in SQL and fields in InfluxDB have the name of their quantity. The hourly rollups number the
 * quantities in this order, so a new one goes to the end.
 */
public enum Quantity {
  /** Degrees Celsius. */
  TEMPERATURE("temperature", "°C", -55, 125, 0.1),
  /** Percent relative humidity; capacitive sensors may read a little over 100 when wet. */
  HUMIDITY("humidity", "%", 0, 110, 0.5),
  /** Lux. */
  LIGHT("light", "lux", 0, 200_000, 0.5),
  /** Volts. */
  BATTERY("battery", "V", 0, 60, 0.025),
  /** Carbon dioxide in the air, parts per million by volume; 1,000,000 is the pure gas. */
  CARBON_DIOXIDE("co2", "ppm", 0, 1_000_000, 25),
  /**
   * Water in the medium that the seeds lie in, percent by volume. Probes read a little over 100
   * where they are not calibrated.
   */
  MEDIUM_MOISTURE("mediumMoisture", "%", 0, 110, 0.5);

  private final String key;
  private final String unit;
  private final double low;
  private final double high;
  private final double noise;

  Quantity(String key, String unit, double low, double high, double noise) {
    this.key = key;
    this.unit = unit;
    this.low = low;
    this.high = high;
    this.noise = noise;
  }

  public String unit() {
    return unit;
  }

  /** The name used in topics, JSON and columns, for example {@code temperature}. */
  public String key() {
    return key;
  }

  /**
   * The noise of a common sensor at a constant value, in the unit of the quantity; common practice,
   * no source.
   */
  public double noise() {
    return noise;
  }

  public static Optional<Quantity> ofKey(String key) {
    for (Quantity quantity : values()) {
      if (quantity.key.equals(key)) {
        return Optional.of(quantity);
      }
    }
    return Optional.empty();
  }

  /** Whether the value is finite and inside the range that a sensor can report. */
  public boolean plausible(double value) {
    return value >= low && value <= high;
  }

  /** The smallest plausible value. */
  public double low() {
    return low;
  }

  /** The greatest plausible value. */
  public double high() {
    return high;
  }

  /** The plausible range as text for messages. */
  public String range() {
    return String.format(Locale.ROOT, "%.0f to %.0f %s", low, high, unit);
  }
}
