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
import tepidarium.history.CalibratedReadings;
import tepidarium.reading.Quantity;
import tepidarium.reading.Samples;
import tepidarium.reading.Span;
import tepidarium.reading.TimeWeighted;

/** Loads the data of containers for the heat bench, and the data of place trials. Thread-safe. */
public final class BenchReader {
  private final Register register;
  private final CalibratedReadings calibrated;
  private final ContainerHistory history;

  public BenchReader(Register register, CalibratedReadings calibrated, ContainerHistory history) {
    this.register = register;
    this.calibrated = calibrated;
    this.history = history;
  }

  /** One container over the hours, with heat by the rule that all compared containers share. */
  public BenchPlace place(Container container, LocalHours hours, HeatRule rule) {
    Span span = hours.span();
    return new BenchPlace(
        container.id(),
        container.name(),
        history.heatHours(container, hours, rule),
        recoveries(container.id(), span),
        longest(container, span));
  }

  private List<Recovery> recoveries(ContainerId id, Span span) {
    List<Recovery> recoveries = new ArrayList<>();
    for (Opening opening : register.openings(id, span)) {
      Span around = Recovery.around(opening.span());
      Samples temperature = calibrated.samples(id, Quantity.TEMPERATURE, around);
      Recovery.of(temperature, opening.span(), calibrated.maxGap()).ifPresent(recoveries::add);
    }
    return recoveries;
  }

  private BenchPlace.@Nullable Longest longest(Container container, Span span) {
    return Stream.of(history.band().cold(container, span), history.band().hot(container, span))
        .flatMap(summary -> summary.excursions().stream().map(out -> longest(summary.limit(), out)))
        .max(Comparator.comparingDouble(longest -> longest.excursion().hours()))
        .orElse(null);
  }

  private static BenchPlace.Longest longest(Limit limit, BandHistory.ExcursionDetail out) {
    return new BenchPlace.Longest(limit.side(), out.excursion());
  }

  /**
   * Loads the trial of a place: container temperature against room temperature.
   *
   * @param watts the heater's power, W; null if unknown
   */
  public PlaceTrial trial(Container container, Span span, @Nullable Double watts) {
    Samples inside = calibrated.samples(container.id(), Quantity.TEMPERATURE, span);
    Samples room = calibrated.samples(ContainerId.ROOM, Quantity.TEMPERATURE, span);
    double errorC = errorC(container.id(), span, inside) + errorC(ContainerId.ROOM, span, room);
    PlaceTrial.Question question =
        new PlaceTrial.Question(container.band().temperatureLowC(), watts, errorC);
    return PlaceTrial.of(inside, room, span, calibrated.maxGap(), question);
  }

  private double errorC(ContainerId place, Span span, Samples temperature) {
    double meanC = TimeWeighted.of(temperature, span, calibrated.maxGap()).mean();
    return calibrated.spansOfEqualSensors(place, span).stream()
        .mapToDouble(piece -> calibrated.temperatureErrorC(place, piece, meanC))
        .max()
        .orElse(0);
  }
}
