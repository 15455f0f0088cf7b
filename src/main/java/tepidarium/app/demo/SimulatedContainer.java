package tepidarium.app.demo;

import java.util.List;
import tepidarium.container.ContainerKind;

/** A simulated container, with its checks and the sensors in it. */
record SimulatedContainer(
    String name,
    ContainerKind kind,
    String heatSource,
    String room,
    List<ContainerCheck> checks,
    List<SimulatedSensor> sensors) {
  SimulatedContainer {
    checks = List.copyOf(checks);
    sensors = List.copyOf(sensors);
  }
}
