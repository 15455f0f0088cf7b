package tepidarium.live;

import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;
import org.jspecify.annotations.Nullable;
import tepidarium.container.Container;
import tepidarium.container.ContainerId;
import tepidarium.heat.DegreeHours;
import tepidarium.heat.HeatRule;
import tepidarium.heat.HeatSum;
import tepidarium.heat.Warmth;
import tepidarium.history.CalibratedReadings;
import tepidarium.reading.Quantity;
import tepidarium.reading.Samples;
import tepidarium.reading.Span;
import tepidarium.rollup.ContainerHistory;

/**
 * Each container's heat from its first reading to now, kept up to the newest reading so that asking
 * again adds only what is new. Forgotten, and added up afresh when next asked for, when a late
 * reading, a placement, a calibration or the base changes the past. Safe for use by several
 * threads.
 */
public final class HeatSoFar {
  /** Heat from one instant to another, and how long it was how warm. */
  public record Sum(Span span, HeatRule rule, HeatSum heat, Warmth warmth) {}

  private static final Duration RECENT = Duration.ofHours(3);

  private final ContainerHistory history;
  private final CalibratedReadings calibrated;
  private final Map<ContainerId, Kept> kept = new ConcurrentHashMap<>();

  public HeatSoFar(ContainerHistory history, CalibratedReadings calibrated) {
    this.history = history;
    this.calibrated = calibrated;
  }

  /** The heat until now; empty when no sensor was ever in the container. */
  public Optional<Sum> of(Container container, Instant now) {
    Optional<Span> extent = history.extent(container.id(), now);
    if (extent.isEmpty()) {
      return Optional.empty();
    }
    HeatRule rule = HeatRule.of(container.settings());
    Span whole = extent.get();
    Kept place = kept.computeIfAbsent(container.id(), any -> new Kept());
    Sum old = place.begin();
    Sum fresh = null;
    try {
      Sum known =
          old != null && usable(old, rule, whole) ? old : fromRollups(container, whole, rule);
      Span rest = new Span(known.span().to(), whole.to());
      Samples samples = calibrated.samples(container.id(), Quantity.TEMPERATURE, rest);
      fresh = extended(known, samples, settled(samples, rest));
      return Optional.of(extended(fresh, samples, whole.to()));
    } finally {
      place.end(fresh);
    }
  }

  private static boolean usable(Sum old, HeatRule rule, Span whole) {
    return old.rule().equals(rule) && !old.span().to().isAfter(whole.to());
  }

  /** All but the newest hours, for which there are no rollups yet. */
  private Sum fromRollups(Container container, Span whole, HeatRule rule) {
    Instant end = whole.to().minus(RECENT);
    Span span = new Span(whole.from(), end.isAfter(whole.from()) ? end : whole.from());
    return new Sum(
        span, rule, history.heat(container, span, rule), history.warmth(container, span));
  }

  private Sum extended(Sum sum, Samples samples, Instant to) {
    Span rest = new Span(sum.span().to(), to);
    HeatSum heat = DegreeHours.of(samples, rest, sum.rule(), calibrated.maxGap());
    Warmth warmth = Warmth.of(samples, rest, calibrated.maxGap());
    return new Sum(
        new Span(sum.span().from(), to),
        sum.rule(),
        sum.heat().plus(heat),
        Warmth.sum(List.of(sum.warmth(), warmth)));
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
    Kept place = kept.get(container);
    if (place != null) {
      place.arrived(at);
    }
  }

  /** Something that changes the past was corrected; what is being added up is not kept. */
  void forget(ContainerId container) {
    kept.remove(container);
  }

  /**
   * The sum of one container. Reading and adding up is done outside of its lock, so that a slow
   * store holds up nobody who brings readings; what came for an instant that is already in the sum
   * meanwhile keeps it from being kept.
   */
  private static final class Kept {
    private @Nullable Sum sum;
    private int working;
    private Instant earliest = Instant.MAX;

    synchronized @Nullable Sum begin() {
      earliest = working == 0 ? Instant.MAX : earliest;
      working++;
      return sum;
    }

    synchronized void end(@Nullable Sum fresh) {
      working--;
      if (fresh != null && earliest.isAfter(fresh.span().to())) {
        sum = fresh;
      }
    }

    synchronized void arrived(Instant at) {
      earliest = at.isBefore(earliest) ? at : earliest;
      if (sum != null && !at.isAfter(sum.span().to())) {
        sum = null;
      }
    }
  }
}
