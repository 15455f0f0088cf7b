package tepidarium.alert;

import java.time.Instant;
import java.util.Locale;
import tepidarium.reading.Quantity;
import tepidarium.reading.SensorId;

/**
 * A sign of a sensor fault in recent readings, from which an alert is raised.
 *
 * @param quantity the quantity with wrong values
 * @param since the first reading that shows the fault
 * @param reason what the readings show
 */
public record SensorSign(
    SensorId sensor, Quantity quantity, Kind kind, Instant since, AlertReason reason) {
  /** The kind of fault. */
  public enum Kind {
    /** A value that is impossible in a container, or typical of a broken sensor. */
    IMPLAUSIBLE,
    /** A constant value for hours while other sensors changed. */
    STUCK,
    /** Jumps that are impossible in a sealed container. */
    JUMPING,
    /** Disagreement with another sensor in the same container by more than the errors of both. */
    DISAGREEING;

    public String key() {
      return name().toLowerCase(Locale.ROOT);
    }
  }
}
