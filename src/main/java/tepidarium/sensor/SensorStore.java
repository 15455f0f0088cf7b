package tepidarium.sensor;

import java.util.Collection;
import java.util.Map;
import tepidarium.reading.DeviceStatus;
import tepidarium.reading.SensorId;

/**
 * Stores the details and the newest status of each sensor. Each write is one transaction and is
 * durable when the method returns. A broken store throws an unchecked exception with its cause.
 */
public interface SensorStore {
  Map<SensorId, SensorDetails> details();

  /** Inserts or replaces the details of one sensor. */
  void put(SensorId sensor, SensorDetails details);

  Map<SensorId, DeviceStatus> statuses();

  /** Inserts or replaces the newest status of each of the sensors. */
  void putStatuses(Collection<DeviceStatus> statuses);
}
