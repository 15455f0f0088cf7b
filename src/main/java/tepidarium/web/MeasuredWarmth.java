package tepidarium.web;

import java.util.HashMap;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import tepidarium.container.Band;
import tepidarium.container.Container;
import tepidarium.container.ContainerId;
import tepidarium.container.Register;
import tepidarium.germination.ContainerWarmth;
import tepidarium.heat.DegreeHours;
import tepidarium.heat.HeatRule;
import tepidarium.heat.HeatSum;
import tepidarium.history.History;
import tepidarium.ledger.Chronicle;
import tepidarium.reading.Quantity;
import tepidarium.reading.Samples;
import tepidarium.reading.Span;

/**
 * The warmth of containers from their readings. Made for one request: the readings of a container
 * are read once, whatever the bases are that heat is asked for.
 */
final class MeasuredWarmth implements ContainerWarmth {
  private final Register register;
  private final History history;
  private final Chronicle chronicle;
  private final Map<ContainerId, Read> reads = new HashMap<>();

  private record Read(Span span, Samples temperature) {
    boolean holds(Span other) {
      return !other.from().isBefore(span.from()) && !other.to().isAfter(span.to());
    }
  }

  MeasuredWarmth(Register register, History history, Chronicle chronicle) {
    this.register = register;
    this.history = history;
    this.chronicle = chronicle;
  }

  @Override
  public HeatSum heat(ContainerId id, Span span, HeatRule rule) {
    Container container = register.container(id).orElse(null);
    if (container == null) {
      return new HeatSum(0, 0, 0, span.length().toMillis());
    }
    HeatRule own = new HeatRule(container.settings().baseC(), container.settings().ceilingC());
    return rule.equals(own)
        ? chronicle.heat(container, span, rule)
        : DegreeHours.of(temperature(id, span), span, rule, history.maxGap());
  }

  private Samples temperature(ContainerId id, Span span) {
    Read read = reads.get(id);
    if (read == null || !read.holds(span)) {
      Span wide = read == null ? span : union(read.span(), span);
      read = new Read(wide, history.samples(id, Quantity.TEMPERATURE, wide));
      reads.put(id, read);
    }
    return read.temperature();
  }

  private static Span union(Span a, Span b) {
    return new Span(
        a.from().isBefore(b.from()) ? a.from() : b.from(),
        a.to().isAfter(b.to()) ? a.to() : b.to());
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
