package tepidarium.live;

import java.time.Clock;
import java.time.Instant;
import tepidarium.alert.RemainingError;
import tepidarium.container.ContainerId;
import tepidarium.container.Placement;
import tepidarium.container.Register;
import tepidarium.container.SensorCorrection;
import tepidarium.reading.Quantity;

/** The largest remaining error of the sensors that are placed in a container now. Thread-safe. */
public record CalibrationErrors(Register register, Clock clock) implements RemainingError {
  @Override
  public double of(ContainerId container, Quantity quantity, double value) {
    Instant now = clock.instant();
    double largest = 0;
    for (Placement placement : register.placementsIn(container)) {
      SensorCorrection correction = register.correction(placement.sensor());
      if (correction.dated().containsKey(quantity) && placement.holdsAt(now)) {
        largest = Math.max(largest, correction.error(quantity, now, value));
      }
    }
    return largest;
  }
}
