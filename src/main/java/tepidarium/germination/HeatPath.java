package tepidarium.germination;

import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import tepidarium.container.ContainerId;
import tepidarium.heat.HeatRule;
import tepidarium.heat.HeatSum;
import tepidarium.reading.Span;

/**
 * Heat along the ways of seeds through containers. Made for one question: a sum that was worked out
 * once is kept. Not safe for use by several threads.
 */
public final class HeatPath {
  /** Colder than seeds are ever kept: the mean heat above it tells the mean temperature. */
  private static final double COLD_C = -10;

  private final ContainerWarmth warmth;
  private final Map<HeatRule, Map<Piece, HeatSum>> known = new HashMap<>();
  private final Map<Piece, Double> errors = new HashMap<>();

  private record Piece(ContainerId container, Instant from, Instant to) {
    Span span() {
      return new Span(from, to);
    }
  }

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
    Map<Piece, HeatSum> sums = known.computeIfAbsent(rule, any -> new HashMap<>());
    List<Dose> doses = new ArrayList<>(ways.size());
    List<Double> shares = new ArrayList<>(ways.size());
    for (Strand way : ways) {
      Dose dose = Dose.NONE;
      for (Strand.Leg leg : way.legs()) {
        if (leg.from().isBefore(until)) {
          dose = dose.plus(leg(leg, until, end, rule, sums));
        }
      }
      doses.add(dose);
      shares.add(way.share());
    }
    return Dose.overWays(doses, shares);
  }

  private Dose leg(
      Strand.Leg leg, Instant until, Instant end, HeatRule rule, Map<Piece, HeatSum> sums) {
    Instant left = leg.until() == null ? latest(end, until) : leg.until();
    Piece whole = new Piece(leg.container(), leg.from(), left);
    Piece part = left.isAfter(until) ? new Piece(leg.container(), leg.from(), until) : whole;
    return Dose.of(
        sum(part, rule, sums),
        sum(whole, rule, sums),
        rule,
        warmth.highLimitC(leg.container()),
        errors.computeIfAbsent(whole, p -> warmth.temperatureErrorC(p.container(), p.span())));
  }

  private static Instant latest(Instant a, Instant b) {
    return a.isAfter(b) ? a : b;
  }

  private HeatSum sum(Piece piece, HeatRule rule, Map<Piece, HeatSum> sums) {
    return sums.computeIfAbsent(piece, p -> warmth.heat(p.container(), p.span(), rule));
  }

  /** The heat of a container over a span, gaps filled at its own mean rate. */
  Dose dose(ContainerId container, Span span, HeatRule rule) {
    HeatSum sum = warmth.heat(container, span, rule);
    double error = warmth.temperatureErrorC(container, span);
    return Dose.of(sum, sum, rule, warmth.highLimitC(container), error);
  }

  /** The mean temperature until an instant, °C; none where less than half of it is known. */
  OptionalDouble meanTemperatureC(List<Strand> ways, Instant until, Instant end) {
    Dose dose = dose(ways, until, end, new HeatRule(COLD_C, null));
    return dose.known() && dose.hours() > 0
        ? OptionalDouble.of(dose.likely() / dose.hours() + COLD_C)
        : OptionalDouble.empty();
  }
}
