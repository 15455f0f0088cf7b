package tepidarium.web;

import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import tepidarium.container.Container;
import tepidarium.container.ContainerId;
import tepidarium.container.ContainerSettings;
import tepidarium.container.Register;
import tepidarium.germination.Species;
import tepidarium.germination.Strand;
import tepidarium.germination.Trait;
import tepidarium.heat.HeatRule;
import tepidarium.heat.HeatSum;
import tepidarium.heat.Warmth;
import tepidarium.ledger.Chronicle;
import tepidarium.reading.Span;

/**
 * The heat that seeds received along their path, with base and ceiling of their species. Made for
 * one request: what was added up once is kept, so that a path is not read again for each check.
 */
final class PathHeat {
  private final HeatOf heat;
  private final Register register;
  private final HeatRule rule;
  private final Map<Piece, Told> known = new HashMap<>();

  /** The heat of a container over a span. */
  interface HeatOf {
    HeatSum of(Container container, Span span, HeatRule rule);
  }

  private record Piece(ContainerId container, Span span) {}

  private record Told(HeatSum sum, double upper) {
    static final Told NOTHING = new Told(HeatSum.ZERO, 0);

    Told plus(Told other) {
      return new Told(sum.plus(other.sum), upper + other.upper);
    }
  }

  /**
   * Heat in °C·h and h. Where a group was joined from several ways, the mean over its seeds, the
   * least lower and the greatest upper bound.
   *
   * @param ways how many different ways its seeds came
   */
  record HeatJson(
      double degreeHours,
      double coveredHours,
      double gapHours,
      double lower,
      double upper,
      int ways) {}

  PathHeat(Chronicle chronicle, Register register, Species species) {
    this((container, span, rule) -> heat(chronicle, container, span, rule), register, species);
  }

  PathHeat(HeatOf heat, Register register, Species species) {
    this.heat = heat;
    this.register = register;
    this.rule = rule(species);
  }

  /** What was told before of a stretch that is over is remembered, where the rule allows it. */
  private static HeatSum heat(Chronicle chronicle, Container container, Span span, HeatRule rule) {
    return Warmth.isExact(rule)
        ? chronicle.warmth(container, span).heat(rule)
        : chronicle.heat(container, span, rule);
  }

  /** Base and ceiling of a species; the usual base where its profile has none. */
  static HeatRule rule(Species species) {
    Double base = species.value(Trait.BASE);
    double baseC = base == null ? ContainerSettings.DEFAULT_BASE_C : base;
    Double ceiling = species.value(Trait.CEILING);
    return new HeatRule(baseC, ceiling != null && ceiling > baseC ? ceiling : null);
  }

  HeatRule rule() {
    return rule;
  }

  /** The legs of a way until an instant. */
  static List<Strand.Leg> until(Strand strand, Instant end) {
    List<Strand.Leg> legs = new ArrayList<>();
    for (Strand.Leg leg : strand.legs()) {
      Instant until = leg.until();
      if (leg.from().isBefore(end)) {
        boolean cut = until == null || until.isAfter(end);
        legs.add(new Strand.Leg(leg.container(), leg.from(), cut ? end : until));
      }
    }
    return legs;
  }

  /**
   * The heat from sowing until an instant.
   *
   * @param cuts instants at which heat is asked for too, in order
   */
  HeatJson of(List<Strand> strands, Instant end, List<Instant> cuts) {
    double degreeHours = 0;
    double covered = 0;
    double gap = 0;
    double lower = Double.POSITIVE_INFINITY;
    double upper = 0;
    for (Strand strand : strands) {
      Told told = Told.NOTHING;
      for (Strand.Leg leg : until(strand, end)) {
        told = told.plus(inPieces(leg, end, cuts));
      }
      degreeHours += strand.share() * told.sum().degreeHours();
      covered += strand.share() * told.sum().coveredHours();
      gap += strand.share() * told.sum().gapHours();
      lower = Math.min(lower, told.sum().lower());
      upper = Math.max(upper, told.upper());
    }
    return new HeatJson(degreeHours, covered, gap, lower, upper, strands.size());
  }

  private Told inPieces(Strand.Leg leg, Instant end, List<Instant> cuts) {
    Instant until = leg.until() == null ? end : leg.until();
    Told told = Told.NOTHING;
    Instant from = leg.from();
    for (Instant cut : cuts) {
      if (cut.isAfter(from) && cut.isBefore(until)) {
        told = told.plus(piece(leg.container(), new Span(from, cut)));
        from = cut;
      }
    }
    return told.plus(piece(leg.container(), new Span(from, until)));
  }

  private Told piece(ContainerId container, Span span) {
    return known.computeIfAbsent(new Piece(container, span), this::told);
  }

  private Told told(Piece piece) {
    Container container = register.container(piece.container()).orElse(null);
    if (container == null) {
      return new Told(new HeatSum(0, 0, 0, piece.span().length().toMillis()), 0);
    }
    HeatSum sum = heat.of(container, piece.span(), rule);
    return new Told(sum, sum.upper(rule, container.band().temperatureHighC()));
  }

  /** The heat of one leg. */
  HeatJson of(Strand.Leg leg, Instant end) {
    Instant until = leg.until() == null ? end : leg.until();
    Told told = piece(leg.container(), new Span(leg.from(), until));
    HeatSum sum = told.sum();
    return new HeatJson(
        sum.degreeHours(), sum.coveredHours(), sum.gapHours(), sum.lower(), told.upper(), 1);
  }

  @Nullable Container container(ContainerId id) {
    return register.container(id).orElse(null);
  }
}
