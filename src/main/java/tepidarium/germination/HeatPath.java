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
 * Adds up heat along the ways of seeds through containers. Made for one question: caches what was
 * read, so that a path is not read again for each check. Not safe for use by several threads.
 */
public final class HeatPath {
  private final ContainerTemperatures temperatures;
  private final @Nullable HeatRule own;
  private final UntilCache<TemperatureHistogram> histograms;
  private final UntilCache<HeatSum> sums;
  private final Map<Piece, Double> errors = new HashMap<>();

  private record Piece(ContainerId container, Span span) {}

  /** Caches figures of containers from one instant until others, and extends the longest. */
  private static final class UntilCache<T> {
    private record Start(ContainerId container, Instant from) {}

    private final Map<Start, NavigableMap<Instant, T>> known = new HashMap<>();
    private final BinaryOperator<T> plus;

    UntilCache(BinaryOperator<T> plus) {
      this.plus = plus;
    }

    T of(ContainerId container, Span span, Function<Span, T> read) {
      NavigableMap<Instant, T> parts =
          known.computeIfAbsent(new Start(container, span.from()), any -> new TreeMap<>());
      Map.Entry<Instant, T> part = parts.floorEntry(span.to());
      if (part != null && part.getKey().equals(span.to())) {
        return part.getValue();
      }
      T figure =
          part == null
              ? read.apply(span)
              : plus.apply(part.getValue(), read.apply(new Span(part.getKey(), span.to())));
      parts.put(span.to(), figure);
      return figure;
    }
  }

  /**
   * Along any path.
   *
   * @param own the base and ceiling of the species, for which heat is exact; for any other it comes
   *     from steps of a quarter of a degree, see {@link TemperatureHistogram}
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
   * @param ways as they were at that instant or later; what came after it is left out
   * @param end until when their last container is looked at for the rate at which gaps are filled;
   *     the same for all instants of a group
   */
  public SeedHeat seedHeat(List<SeedPath> ways, Instant until, Instant end, HeatRule rule) {
    List<SeedHeat> seedHeats = new ArrayList<>(ways.size());
    List<Double> shares = new ArrayList<>(ways.size());
    for (SeedPath way : ways) {
      SeedHeat seedHeat = SeedHeat.NONE;
      for (SeedPath.Leg leg : way.legs()) {
        if (leg.from().isBefore(until)) {
          seedHeat = seedHeat.plus(seedHeat(leg, until, end, rule));
        }
      }
      seedHeats.add(seedHeat);
      shares.add(way.share());
    }
    return SeedHeat.overWays(seedHeats, shares);
  }

  /** The heat of one leg that begins before an instant, until then; with the same end. */
  public SeedHeat seedHeat(SeedPath.Leg leg, Instant until, Instant end, HeatRule rule) {
    Instant left = leg.until() == null ? latest(end, until) : leg.until();
    Span part = new Span(leg.from(), left.isAfter(until) ? until : left);
    HeatSum sum = sum(leg.container(), part, rule);
    boolean gaps = sum.gapMs() > 0;
    Span whole = new Span(leg.from(), left);
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

  /** The heat of a container over a span, gaps filled at its own mean rate. */
  SeedHeat seedHeat(ContainerId container, Span span, HeatRule rule) {
    HeatSum sum = sum(container, span, rule);
    SensorError error = error(container, span, errorC(container, span), rule);
    return SeedHeat.of(sum, sum, rule, temperatures.highLimitC(container), error);
  }

  /** The mean temperature until an instant, °C; none where less than half of it is known. */
  OptionalDouble meanTemperatureC(List<SeedPath> ways, Instant until) {
    double mean = 0;
    double covered = 0;
    double gap = 0;
    for (SeedPath way : ways) {
      List<TemperatureHistogram> legs = new ArrayList<>();
      for (SeedPath.Leg leg : way.legs()) {
        if (leg.from().isBefore(until)) {
          legs.add(until(leg.container(), new Span(leg.from(), leg.end(until))));
        }
      }
      TemperatureHistogram whole = TemperatureHistogram.sum(legs);
      covered += way.share() * whole.coveredHours();
      gap += way.share() * whole.gapHours();
      mean += way.share() * whole.meanC();
    }
    return covered > 0 && covered >= gap && Double.isFinite(mean)
        ? OptionalDouble.of(mean)
        : OptionalDouble.empty();
  }
}
