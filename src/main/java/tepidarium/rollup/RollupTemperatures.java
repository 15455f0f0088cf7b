package tepidarium.rollup;

import org.jspecify.annotations.Nullable;
import tepidarium.container.Band;
import tepidarium.container.Container;
import tepidarium.container.ContainerId;
import tepidarium.container.Register;
import tepidarium.germination.ContainerTemperatures;
import tepidarium.heat.HeatRule;
import tepidarium.heat.HeatSum;
import tepidarium.heat.TemperatureHistogram;
import tepidarium.history.CalibratedReadings;
import tepidarium.reading.Span;

/** Reads the temperatures of containers from the hourly rollups. Thread-safe. */
public final class RollupTemperatures implements ContainerTemperatures {
  private final Register register;
  private final CalibratedReadings calibrated;
  private final ContainerHistory history;

  public RollupTemperatures(
      Register register, CalibratedReadings calibrated, ContainerHistory history) {
    this.register = register;
    this.calibrated = calibrated;
    this.history = history;
  }

  @Override
  public TemperatureHistogram histogram(ContainerId id, Span span) {
    Container container = register.container(id).orElse(null);
    return container == null
        ? TemperatureHistogram.unknown(span.length().toMillis())
        : history.histogram(container, span);
  }

  @Override
  public HeatSum heat(ContainerId id, Span span, HeatRule rule) {
    Container container = register.container(id).orElse(null);
    return container == null
        ? HeatSum.gap(span.length().toMillis())
        : history.heat(container, span, rule);
  }

  @Override
  public double temperatureErrorC(ContainerId id, Span span) {
    double meanC = histogram(id, span).meanC();
    return calibrated.spansOfEqualSensors(id, span).stream()
        .mapToDouble(piece -> calibrated.temperatureErrorC(id, piece, meanC))
        .max()
        .orElse(0);
  }

  @Override
  public double highLimitC(ContainerId id) {
    @Nullable Container container = register.container(id).orElse(null);
    return (container == null ? Band.DEFAULT : container.band()).temperatureHighC();
  }
}
