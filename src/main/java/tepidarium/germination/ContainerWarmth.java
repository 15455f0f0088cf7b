package tepidarium.germination;

import tepidarium.container.ContainerId;
import tepidarium.heat.HeatRule;
import tepidarium.heat.HeatSum;
import tepidarium.heat.Warmth;
import tepidarium.reading.Span;

/** What is known of the warmth of containers; worked out from readings by whoever keeps them. */
public interface ContainerWarmth {
  /** For how long it was how warm in a span; all of it is a gap where nothing was measured. */
  Warmth warmth(ContainerId container, Span span);

  /** The heat of a span by a rule; exact, where {@link #warmth} need not be. */
  default HeatSum heat(ContainerId container, Span span, HeatRule rule) {
    return warmth(container, span).heat(rule);
  }

  /** By how much its sensors may have been off during a span, ±°C, at least 0. */
  double temperatureErrorC(ContainerId container, Span span);

  /** The high limit of its band, °C; what a gap is taken to have been at the most. */
  double highLimitC(ContainerId container);
}
