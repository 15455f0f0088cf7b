package tepidarium.fault;

import java.time.Instant;
import org.jspecify.annotations.Nullable;
import tepidarium.reading.Quantity;
import tepidarium.reading.SensorId;

/**
 * One faulty value or time that was noticed when a message arrived. It cannot be found again later,
 * because the value is not stored as a reading.
 *
 * @param quantity null where the fault concerns the sensor's clock
 * @param at when the reading was measured
 * @param value the value, in the unit of the quantity; minutes for a wrong clock
 */
public record ArrivalFault(
    SensorId sensor, @Nullable Quantity quantity, FaultKind kind, Instant at, double value) {

  /** A value that was refused because it is outside its range. */
  public static ArrivalFault ofValue(SensorId sensor, Quantity quantity, Instant at, double value) {
    FaultKind kind = ErrorCodes.of(quantity, value).orElse(FaultKind.OUT_OF_RANGE);
    return new ArrivalFault(sensor, quantity, kind, at, value);
  }

  /**
   * A time that was refused or that is far from the arrival.
   *
   * @param behindMinutes by how many minutes the sensor's clock is behind; negative if it is ahead
   */
  public static ArrivalFault ofClock(SensorId sensor, Instant at, double behindMinutes) {
    return new ArrivalFault(sensor, null, FaultKind.WRONG_CLOCK, at, behindMinutes);
  }

  /** The same as a stretch of one reading. */
  public Fault asStretch() {
    return new Fault(sensor, quantity, kind, at, at, 1, value, value, null);
  }
}
