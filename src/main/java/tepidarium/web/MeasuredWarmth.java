package tepidarium.web;

import org.jspecify.annotations.Nullable;
import tepidarium.container.Band;
import tepidarium.container.Container;
import tepidarium.container.ContainerId;
import tepidarium.container.Register;
import tepidarium.germination.ContainerWarmth;
import tepidarium.heat.HeatRule;
import tepidarium.heat.HeatSum;
import tepidarium.heat.Warmth;
import tepidarium.history.History;
import tepidarium.rollup.ContainerHistory;
import tepidarium.reading.Span;

/** Reads the warmth of containers from their readings. */
final class MeasuredWarmth implements ContainerWarmth {
  private final Register register;
  private final History history;
  private final ContainerHistory containerHistory;

  MeasuredWarmth(Register register, History history, ContainerHistory containerHistory) {
    this.register = register;
    this.history = history;
    this.containerHistory = containerHistory;
  }

  @Override
  public Warmth warmth(ContainerId id, Span span) {
    Container container = register.container(id).orElse(null);
    return container == null
        ? Warmth.unknown(span.length().toMillis())
        : containerHistory.warmth(container, span);
  }

  @Override
  public HeatSum heat(ContainerId id, Span span, HeatRule rule) {
    Container container = register.container(id).orElse(null);
    return container == null
        ? new HeatSum(0, 0, 0, span.length().toMillis())
        : containerHistory.heat(container, span, rule);
  }

  @Override
  public double temperatureErrorC(ContainerId id, Span span) {
    return history.temperatureErrorC(id, span);
  }

  @Override
  public double highLimitC(ContainerId id) {
    @Nullable Container container = register.container(id).orElse(null);
    return (container == null ? Band.DEFAULT : container.band()).temperatureHighC();
  }
}
