package tepidarium.alert;

import java.time.Instant;
import java.util.Locale;
import tepidarium.reading.Quantity;
import tepidarium.reading.SensorId;

/**
 * A sensor whose readings cannot be right.
 *
 * @param quantity of which it reports what cannot be right
 * @param since the first reading that shows it
 * @param words a sentence for the grower, without the sensor's name
 */
public record SensorFault(
    SensorId sensor, Quantity quantity, Kind kind, Instant since, String words) {
  /** How a sensor goes wrong. */
  public enum Kind {
    /** A value that no container has, or that a broken sensor is known for. */
    IMPLAUSIBLE,
    /** The very same value for hours while others moved. */
    STUCK,
    /** Steps to and fro that a sealed container cannot make. */
    JUMPING,
    /** Another sensor in the same container says otherwise, beyond what both may be off. */
    DISAGREEING;

    public String key() {
      return name().toLowerCase(Locale.ROOT);
    }
  }
}
