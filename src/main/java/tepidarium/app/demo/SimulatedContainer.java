package tepidarium.app.demo;

import java.util.List;
import tepidarium.container.ContainerKind;

/** An invented container, with its checks and the sensors in it. */
record SimulatedContainer(
    String name,
    ContainerKind kind,
    String heatSource,
    List<ContainerCheck> checks,
    List<SimulatedSensor> nodes) {
  SimulatedContainer {
    checks = List.copyOf(checks);
    nodes = List.copyOf(nodes);
  }
}
