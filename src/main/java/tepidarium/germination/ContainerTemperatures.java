package tepidarium.germination;

import tepidarium.container.ContainerId;
import tepidarium.heat.HeatRule;
import tepidarium.heat.HeatSum;
import tepidarium.heat.TemperatureHistogram;
import tepidarium.reading.Span;

/** Gives the temperatures of containers, as measured by their sensors. */
public interface ContainerTemperatures {
  /** Time spent at each temperature in a span; time without readings counts as a gap. */
  TemperatureHistogram histogram(ContainerId container, Span span);

  /** The heat of a span by a rule. Exact, unlike the heat that {@link #histogram} gives. */
  default HeatSum heat(ContainerId container, Span span, HeatRule rule) {
    return histogram(container, span).heat(rule);
  }

  /** The temperature error of the sensors during a span, ±°C, at least 0. */
  double temperatureErrorC(ContainerId container, Span span);

  /** The high temperature limit of the band, °C: the upper bound for the heat of a gap. */
  double highLimitC(ContainerId container);
}
