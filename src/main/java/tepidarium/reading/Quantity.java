package tepidarium.reading;

import java.util.Locale;
import java.util.Optional;

/**
 * A measured quantity with its unit and its plausible range. Values outside the range are refused.
 * The ranges are the widest measuring ranges of common sensors (data sheets of DS18B20, SHT3x and
 * BH1750, by generic chip name) plus a margin; for the battery, common practice, no source.
 */
public enum Quantity {
  /** Degrees Celsius. */
  TEMPERATURE("°C", -55, 125),
  /** Percent relative humidity; capacitive sensors may read a little over 100 when wet. */
  HUMIDITY("%", 0, 110),
  /** Lux. */
  LIGHT("lux", 0, 200_000),
  /** Volts. */
  BATTERY("V", 0, 60);

  private final String unit;
  private final double low;
  private final double high;

  Quantity(String unit, double low, double high) {
    this.unit = unit;
    this.low = low;
    this.high = high;
  }

  public String unit() {
    return unit;
  }

  /** The name used in topics and JSON, for example {@code temperature}. */
  public String key() {
    return name().toLowerCase(Locale.ROOT);
  }

  public static Optional<Quantity> ofKey(String key) {
    for (Quantity quantity : values()) {
      if (quantity.key().equals(key)) {
        return Optional.of(quantity);
      }
    }
    return Optional.empty();
  }

  /** Whether the value is finite and inside the range that a sensor can report. */
  public boolean plausible(double value) {
    return value >= low && value <= high;
  }

  /** The plausible range as text for messages. */
  public String range() {
    return String.format(Locale.ROOT, "%.0f to %.0f %s", low, high, unit);
  }
}
