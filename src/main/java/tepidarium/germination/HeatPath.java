package tepidarium.germination;

import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.NavigableMap;
import java.util.OptionalDouble;
import java.util.TreeMap;
import java.util.function.BinaryOperator;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import tepidarium.container.ContainerId;
import tepidarium.heat.HeatRule;
import tepidarium.heat.HeatSum;
import tepidarium.heat.SensorError;
import tepidarium.heat.TemperatureHistogram;
import tepidarium.reading.Span;

/**
 * Calculates the heat of seeds along their paths through containers. Used for one request by one
 * thread. Caches figures of containers, because the checks of a sowing share most of their time.
 */
public final class HeatPath {
  private final ContainerTemperatures temperatures;
  private final @Nullable HeatRule own;
  private final UntilCache<TemperatureHistogram> histograms;
  private final UntilCache<HeatSum> sums;
  private final Map<Piece, Double> errors = new HashMap<>();

  private record Piece(ContainerId container, Span span) {}

  /**
   * Caches figures of spans that begin at the same instant. A longer span extends the longest
   * shorter one.
   */
  private static final class UntilCache<T> {
    private record Start(ContainerId container, Instant from) {}

    private final Map<Start, NavigableMap<Instant, T>> figures = new HashMap<>();
    private final BinaryOperator<T> add;

    UntilCache(BinaryOperator<T> add) {
      this.add = add;
    }

    T of(ContainerId container, Span span, Function<Span, T> read) {
      NavigableMap<Instant, T> parts =
          figures.computeIfAbsent(new Start(container, span.from()), any -> new TreeMap<>());
      Map.Entry<Instant, T> part = parts.floorEntry(span.to());
      if (part != null && part.getKey().equals(span.to())) {
        return part.getValue();
      }
      T figure =
          part == null
              ? read.apply(span)
              : add.apply(part.getValue(), read.apply(new Span(part.getKey(), span.to())));
      parts.put(span.to(), figure);
      return figure;
    }
  }

  /**
   * Creates a calculator for one species.
   *
   * @param own base and ceiling of the species; heat by this rule is exact. Heat by other rules
   *     comes from a {@link TemperatureHistogram} with steps of 0.25 °C.
   */
  public HeatPath(ContainerTemperatures temperatures, @Nullable HeatRule own) {
    this.temperatures = temperatures;
    this.own = own;
    this.histograms = new UntilCache<>((a, b) -> TemperatureHistogram.sum(List.of(a, b)));
    this.sums = new UntilCache<>(HeatSum::plus);
  }

  /**
   * The heat from sowing until an instant.
   *
   * @param paths paths of the seeds at that instant or later; later stays are ignored
   * @param end end of the time in the last container. The mean rate over this time fills its gaps.
   *     Must be the same for all instants of a group.
   */
  public SeedHeat seedHeat(List<SeedPath> paths, Instant until, Instant end, HeatRule rule) {
    List<SeedHeat> seedHeats = new ArrayList<>(paths.size());
    List<Double> shares = new ArrayList<>(paths.size());
    for (SeedPath seedPath : paths) {
      SeedHeat seedHeat = SeedHeat.NONE;
      for (SeedPath.Leg leg : seedPath.legs()) {
        if (leg.from().isBefore(until)) {
          seedHeat = seedHeat.plus(seedHeat(leg, until, end, rule));
        }
      }
      seedHeats.add(seedHeat);
      shares.add(seedPath.share());
    }
    return SeedHeat.overPaths(seedHeats, shares);
  }

  /**
   * The heat of one stay, from its start until an instant after it. {@code end} has the same
   * meaning as for a whole path.
   */
  public SeedHeat seedHeat(SeedPath.Leg leg, Instant until, Instant end, HeatRule rule) {
    Instant legEnd = leg.until() == null ? latest(end, until) : leg.until();
    Span part = new Span(leg.from(), legEnd.isAfter(until) ? until : legEnd);
    HeatSum sum = sum(leg.container(), part, rule);
    boolean gaps = sum.gapMs() > 0;
    Span whole = new Span(leg.from(), legEnd);
    return SeedHeat.of(
        sum,
        gaps ? sum(leg.container(), whole, rule) : sum,
        rule,
        temperatures.highLimitC(leg.container()),
        error(leg.container(), part, errorC(leg.container(), whole), rule));
  }

  private static Instant latest(Instant a, Instant b) {
    return a.isAfter(b) ? a : b;
  }

  private SensorError error(ContainerId container, Span span, double errorC, HeatRule rule) {
    return errorC == 0 ? new SensorError(0, 0) : until(container, span).sensorError(rule, errorC);
  }

  private double errorC(ContainerId container, Span span) {
    return errors.computeIfAbsent(
        new Piece(container, span), p -> temperatures.temperatureErrorC(container, span));
  }

  private HeatSum sum(ContainerId container, Span span, HeatRule rule) {
    return rule.equals(own)
        ? sums.of(container, span, part -> temperatures.heat(container, part, rule))
        : until(container, span).heat(rule);
  }

  private TemperatureHistogram until(ContainerId container, Span span) {
    return histograms.of(container, span, part -> temperatures.histogram(container, part));
  }

  /** The heat of a container in a span. Gaps are filled at the mean rate of the span. */
  SeedHeat seedHeat(ContainerId container, Span span, HeatRule rule) {
    HeatSum sum = sum(container, span, rule);
    SensorError error = error(container, span, errorC(container, span), rule);
    return SeedHeat.of(sum, sum, rule, temperatures.highLimitC(container), error);
  }

  /** The mean temperature until an instant, °C; empty if less than half of the time is covered. */
  OptionalDouble meanTemperatureC(List<SeedPath> paths, Instant until) {
    double mean = 0;
    double covered = 0;
    double gap = 0;
    for (SeedPath seedPath : paths) {
      List<TemperatureHistogram> legs = new ArrayList<>();
      for (SeedPath.Leg leg : seedPath.legs()) {
        if (leg.from().isBefore(until)) {
          legs.add(until(leg.container(), new Span(leg.from(), leg.end(until))));
        }
      }
      TemperatureHistogram whole = TemperatureHistogram.sum(legs);
      covered += seedPath.share() * whole.coveredHours();
      gap += seedPath.share() * whole.gapHours();
      mean += seedPath.share() * whole.meanC();
    }
    return covered > 0 && covered >= gap && Double.isFinite(mean)
        ? OptionalDouble.of(mean)
        : OptionalDouble.empty();
  }
}
