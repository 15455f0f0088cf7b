package tepidarium.live;

import tepidarium.alert.Alert;
import tepidarium.container.ContainerId;
import tepidarium.reading.SensorId;

/** Receives changes on the watch thread. Implementations must not block. */
public interface LiveListener {
  void containerChanged(ContainerId container);

  void sensorHeard(SensorId sensor);

  void alertChanged(Alert alert);
}
