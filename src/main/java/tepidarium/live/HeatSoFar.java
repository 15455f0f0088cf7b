package tepidarium.live;

import java.time.Duration;
import java.time.Instant;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;
import org.jspecify.annotations.Nullable;
import tepidarium.container.Container;
import tepidarium.container.ContainerId;
import tepidarium.heat.DegreeHours;
import tepidarium.heat.HeatRule;
import tepidarium.heat.HeatSum;
import tepidarium.history.History;
import tepidarium.ledger.Chronicle;
import tepidarium.reading.Quantity;
import tepidarium.reading.Samples;
import tepidarium.reading.Span;

/**
 * Each container's heat from its first reading to now, kept up to the newest reading so that asking
 * again adds only what is new. Forgotten, and added up afresh when next asked for, when a late
 * reading, a placement, a calibration or the base changes the past. Safe for use by several
 * threads.
 */
public final class HeatSoFar {
  /** Heat from one instant to another. */
  public record Sum(Span span, HeatRule rule, HeatSum heat) {}

  private static final Duration RECENT = Duration.ofHours(3);

  private final Chronicle chronicle;
  private final History history;
  private final Map<ContainerId, Sum> kept = new ConcurrentHashMap<>();

  public HeatSoFar(Chronicle chronicle, History history) {
    this.chronicle = chronicle;
    this.history = history;
  }

  /** The heat until now; empty when no sensor was ever in the container. */
  public Optional<Sum> of(Container container, Instant now) {
    Optional<Span> extent = chronicle.extent(container.id(), now);
    if (extent.isEmpty()) {
      return Optional.empty();
    }
    HeatRule rule = HeatRule.of(container.settings());
    Sum[] total = new Sum[1];
    // Within one step of the map, so that a late reading cannot slip in between reading and
    // keeping.
    kept.compute(
        container.id(),
        (id, old) -> {
          Span whole = extent.get();
          Sum known = usable(old, rule, whole) ? old : fromLedger(container, whole, rule);
          Span rest = new Span(known.span().to(), whole.to());
          Samples samples = history.samples(id, Quantity.TEMPERATURE, rest);
          Instant settled = settled(samples, rest);
          Sum fresh = extended(known, samples, settled);
          total[0] = extended(fresh, samples, whole.to());
          return fresh;
        });
    return Optional.of(total[0]);
  }

  private static boolean usable(@Nullable Sum old, HeatRule rule, Span whole) {
    return old != null && old.rule().equals(rule) && !old.span().to().isAfter(whole.to());
  }

  /** All but the newest hours, which the ledger does not keep yet. */
  private Sum fromLedger(Container container, Span whole, HeatRule rule) {
    Instant end = whole.to().minus(RECENT);
    Span span = new Span(whole.from(), end.isAfter(whole.from()) ? end : whole.from());
    return new Sum(span, rule, chronicle.heat(container, span, rule));
  }

  private Sum extended(Sum sum, Samples samples, Instant to) {
    HeatSum more = sum(samples, new Span(sum.span().to(), to), sum.rule());
    return new Sum(new Span(sum.span().from(), to), sum.rule(), sum.heat().plus(more));
  }

  private HeatSum sum(Samples samples, Span span, HeatRule rule) {
    return DegreeHours.of(samples, span, rule, history.maxGap());
  }

  /** Up to where nothing changes while readings come in order: the newest reading. */
  private static Instant settled(Samples samples, Span rest) {
    int end = samples.indexFrom(rest.toMs() + 1);
    if (end == 0 || samples.atMs(end - 1) < rest.fromMs()) {
      return rest.from();
    }
    return Instant.ofEpochMilli(samples.atMs(end - 1));
  }

  /** A reading has come for this instant. */
  void arrived(ContainerId container, Instant at) {
    kept.computeIfPresent(container, (id, sum) -> at.isAfter(sum.span().to()) ? sum : null);
  }

  /** Something that changes the past was corrected. */
  void forget(ContainerId container) {
    kept.remove(container);
  }
}
