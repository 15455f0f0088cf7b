package tepidarium.rollup;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import tepidarium.container.Container;
import tepidarium.container.ContainerId;
import tepidarium.container.Opening;
import tepidarium.container.Register;
import tepidarium.heat.BenchPlace;
import tepidarium.heat.HeatRule;
import tepidarium.heat.Limit;
import tepidarium.heat.LocalHours;
import tepidarium.heat.PlaceTrial;
import tepidarium.heat.Recovery;
import tepidarium.history.History;
import tepidarium.reading.Quantity;
import tepidarium.reading.Samples;
import tepidarium.reading.Span;

/** Lays containers out for the heat bench, and reads trials. Safe for use by several threads. */
public final class BenchReader {
  private final Register register;
  private final History history;
  private final ContainerHistory containerHistory;

  public BenchReader(Register register, History history, ContainerHistory containerHistory) {
    this.register = register;
    this.history = history;
    this.containerHistory = containerHistory;
  }

  /** A container over the hours, its heat by a rule that is the same for all compared. */
  public BenchPlace place(Container container, LocalHours hours, HeatRule rule) {
    Span span = hours.span();
    return new BenchPlace(
        container.id(),
        container.name(),
        containerHistory.heatHours(container, hours, rule),
        recoveries(container.id(), span),
        longest(container, span));
  }

  private List<Recovery> recoveries(ContainerId id, Span span) {
    List<Recovery> recoveries = new ArrayList<>();
    for (Opening opening : register.openings(id, span)) {
      Span around = Recovery.around(opening.span());
      Samples temperature = history.samples(id, Quantity.TEMPERATURE, around);
      Recovery.of(temperature, opening.span(), history.maxGap()).ifPresent(recoveries::add);
    }
    return recoveries;
  }

  private BenchPlace.@Nullable Longest longest(Container container, Span span) {
    return Stream.of(containerHistory.cold(container, span), containerHistory.hot(container, span))
        .flatMap(told -> told.excursions().stream().map(out -> longest(told.limit(), out)))
        .max(Comparator.comparingDouble(longest -> longest.excursion().hours()))
        .orElse(null);
  }

  private static BenchPlace.Longest longest(Limit limit, ContainerHistory.Out out) {
    return new BenchPlace.Longest(limit.side(), out.excursion());
  }

  /**
   * A trial of a place against the room sensor.
   *
   * @param watts the heater's power, W; null where it is not known
   */
  public PlaceTrial trial(Container container, Span span, @Nullable Double watts) {
    Samples inside = history.samples(container.id(), Quantity.TEMPERATURE, span);
    Samples room = history.samples(ContainerId.ROOM, Quantity.TEMPERATURE, span);
    double errorC =
        history.temperatureErrorC(container.id(), span)
            + history.temperatureErrorC(ContainerId.ROOM, span);
    PlaceTrial.Question question =
        new PlaceTrial.Question(container.band().temperatureLowC(), watts, errorC);
    return PlaceTrial.of(inside, room, span, history.maxGap(), question);
  }
}
