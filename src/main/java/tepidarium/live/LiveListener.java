package tepidarium.live;

import tepidarium.alert.Alert;
import tepidarium.container.ContainerId;
import tepidarium.reading.SensorId;

/** Told what changed, on the watching thread; must not wait. */
public interface LiveListener {
  void containerChanged(ContainerId container);

  void sensorHeard(SensorId sensor);

  void alertChanged(Alert alert);
}
