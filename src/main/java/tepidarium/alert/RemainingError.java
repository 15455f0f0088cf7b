package tepidarium.alert;

import tepidarium.container.ContainerId;
import tepidarium.reading.Quantity;

/** The error that remains in the values of a container after its sensors were calibrated. */
@FunctionalInterface
public interface RemainingError {
  /** No sensor is calibrated by points. */
  RemainingError NONE = (container, quantity, value) -> 0;

  /**
   * The error at a value.
   *
   * @return ±, about 95 %, in the unit of the quantity; 0 if no sensor of the container is
   *     calibrated by points for it
   */
  double of(ContainerId container, Quantity quantity, double value);
}
