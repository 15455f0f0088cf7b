package tepidarium.germination;

import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.NavigableMap;
import java.util.OptionalDouble;
import java.util.TreeMap;
import tepidarium.container.ContainerId;
import tepidarium.heat.HeatRule;
import tepidarium.heat.HeatSum;
import tepidarium.heat.Warmth;
import tepidarium.reading.Span;

/**
 * Heat along the ways of seeds through containers. Made for one question: what was read once is
 * kept. Not safe for use by several threads.
 */
public final class HeatPath {
  private final ContainerWarmth warmth;
  private final Map<Start, NavigableMap<Instant, Warmth>> known = new HashMap<>();
  private final Map<Piece, Double> errors = new HashMap<>();

  /** From when something is told of a container. */
  private record Start(ContainerId container, Instant from) {}

  private record Piece(ContainerId container, Span span) {}

  public HeatPath(ContainerWarmth warmth) {
    this.warmth = warmth;
  }

  /**
   * The heat from sowing until an instant.
   *
   * @param ways as they were at that instant or later; what came after it is left out
   * @param end until when their last container is looked at for the rate at which gaps are filled;
   *     the same for all instants of a group
   */
  public Dose dose(List<Strand> ways, Instant until, Instant end, HeatRule rule) {
    List<Dose> doses = new ArrayList<>(ways.size());
    List<Double> shares = new ArrayList<>(ways.size());
    for (Strand way : ways) {
      Dose dose = Dose.NONE;
      for (Strand.Leg leg : way.legs()) {
        if (leg.from().isBefore(until)) {
          dose = dose.plus(leg(leg, until, end, rule));
        }
      }
      doses.add(dose);
      shares.add(way.share());
    }
    return Dose.overWays(doses, shares);
  }

  private Dose leg(Strand.Leg leg, Instant until, Instant end, HeatRule rule) {
    Instant left = leg.until() == null ? latest(end, until) : leg.until();
    Span part = new Span(leg.from(), left.isAfter(until) ? until : left);
    HeatSum sum = until(leg.container(), part).heat(rule);
    boolean gaps = sum.gapMs() > 0;
    Span whole = new Span(leg.from(), left);
    return Dose.of(
        sum,
        gaps ? until(leg.container(), whole).heat(rule) : sum,
        rule,
        warmth.highLimitC(leg.container()),
        error(leg.container(), whole));
  }

  private static Instant latest(Instant a, Instant b) {
    return a.isAfter(b) ? a : b;
  }

  private double error(ContainerId container, Span span) {
    return errors.computeIfAbsent(
        new Piece(container, span), p -> warmth.temperatureErrorC(container, span));
  }

  /** Put together from the longest part of the span that is known, and the rest. */
  private Warmth until(ContainerId container, Span span) {
    NavigableMap<Instant, Warmth> parts =
        known.computeIfAbsent(new Start(container, span.from()), any -> new TreeMap<>());
    Map.Entry<Instant, Warmth> part = parts.floorEntry(span.to());
    if (part != null && part.getKey().equals(span.to())) {
      return part.getValue();
    }
    Warmth sum =
        part == null
            ? warmth.warmth(container, span)
            : Warmth.sum(
                List.of(
                    part.getValue(), warmth.warmth(container, new Span(part.getKey(), span.to()))));
    parts.put(span.to(), sum);
    return sum;
  }

  /** The heat of a container over a span, gaps filled at its own mean rate. */
  Dose dose(ContainerId container, Span span, HeatRule rule) {
    HeatSum sum = until(container, span).heat(rule);
    double error = error(container, span);
    return Dose.of(sum, sum, rule, warmth.highLimitC(container), error);
  }

  /** The mean temperature until an instant, °C; none where less than half of it is known. */
  OptionalDouble meanTemperatureC(List<Strand> ways, Instant until) {
    double mean = 0;
    double covered = 0;
    double gap = 0;
    for (Strand way : ways) {
      List<Warmth> legs = new ArrayList<>();
      for (Strand.Leg leg : way.legs()) {
        if (leg.from().isBefore(until)) {
          Instant left = leg.until();
          Instant end = left != null && left.isBefore(until) ? left : until;
          legs.add(until(leg.container(), new Span(leg.from(), end)));
        }
      }
      Warmth whole = Warmth.sum(legs);
      covered += way.share() * whole.coveredHours();
      gap += way.share() * whole.gapHours();
      mean += way.share() * whole.meanC();
    }
    return covered > 0 && covered >= gap && Double.isFinite(mean)
        ? OptionalDouble.of(mean)
        : OptionalDouble.empty();
  }
}
