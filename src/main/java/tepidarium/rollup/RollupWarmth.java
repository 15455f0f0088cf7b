package tepidarium.rollup;

import org.jspecify.annotations.Nullable;
import tepidarium.container.Band;
import tepidarium.container.Container;
import tepidarium.container.ContainerId;
import tepidarium.container.Register;
import tepidarium.germination.ContainerWarmth;
import tepidarium.heat.HeatRule;
import tepidarium.heat.HeatSum;
import tepidarium.heat.Warmth;
import tepidarium.history.CalibratedReadings;
import tepidarium.reading.Span;

/** Reads the temperatures of containers from the hourly rollups. Thread-safe. */
public final class RollupWarmth implements ContainerWarmth {
  private final Register register;
  private final CalibratedReadings calibrated;
  private final ContainerHistory history;

  public RollupWarmth(Register register, CalibratedReadings calibrated, ContainerHistory history) {
    this.register = register;
    this.calibrated = calibrated;
    this.history = history;
  }

  @Override
  public Warmth warmth(ContainerId id, Span span) {
    Container container = register.container(id).orElse(null);
    return container == null
        ? Warmth.unknown(span.length().toMillis())
        : history.warmth(container, span);
  }

  @Override
  public HeatSum heat(ContainerId id, Span span, HeatRule rule) {
    Container container = register.container(id).orElse(null);
    return container == null
        ? new HeatSum(0, 0, 0, span.length().toMillis())
        : history.heat(container, span, rule);
  }

  @Override
  public double temperatureErrorC(ContainerId id, Span span) {
    return calibrated.temperatureErrorC(id, span);
  }

  @Override
  public double highLimitC(ContainerId id) {
    @Nullable Container container = register.container(id).orElse(null);
    return (container == null ? Band.DEFAULT : container.band()).temperatureHighC();
  }
}
