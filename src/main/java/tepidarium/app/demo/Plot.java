package tepidarium.app.demo;

import java.util.List;
import tepidarium.container.ContainerKind;

/** An invented container, with its checks and the sensors in it. */
record Plot(
    String name, ContainerKind kind, String heatSource, List<Check> checks, List<Node> nodes) {
  Plot {
    checks = List.copyOf(checks);
    nodes = List.copyOf(nodes);
  }
}
