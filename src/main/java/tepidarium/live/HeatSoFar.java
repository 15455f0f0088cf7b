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
import tepidarium.heat.SensorError;
import tepidarium.heat.TemperatureHistogram;
import tepidarium.history.CalibratedReadings;
import tepidarium.reading.Quantity;
import tepidarium.reading.Samples;
import tepidarium.reading.Span;
import tepidarium.rollup.ContainerHistory;

/**
 * Each container's heat from its first reading to now. The sum up to the newest reading is cached,
 * and the next query adds only the readings since. A late reading or a change of placement,
 * calibration or base temperature invalidates the cached sum. Thread-safe.
 */
public final class HeatSoFar {
  /** Heat over a span, and the time spent at each temperature. */
  public record Sum(Span span, HeatRule rule, HeatSum heat, TemperatureHistogram histogram) {}

  private static final Duration RECENT = Duration.ofHours(3);

  private final ContainerHistory history;
  private final CalibratedReadings calibrated;
  private final Map<ContainerId, CachedSum> sums = new ConcurrentHashMap<>();

  public HeatSoFar(ContainerHistory history, CalibratedReadings calibrated) {
    this.history = history;
    this.calibrated = calibrated;
  }

  /** The possible error of the heat until now because of the container's sensors. */
  public SensorError sensorError(Container container, Sum sum) {
    return history.sensorError(container, sum.span(), sum.rule(), sum.histogram());
  }

  /** The heat until now; empty when no sensor was ever in the container. */
  public Optional<Sum> of(Container container, Instant now) {
    Optional<Span> extent = history.extent(container.id(), now);
    if (extent.isEmpty()) {
      return Optional.empty();
    }
    HeatRule rule = HeatRule.of(container.settings());
    Span whole = extent.get();
    CachedSum cached = sums.computeIfAbsent(container.id(), any -> new CachedSum());
    Sum old = cached.begin();
    Sum fresh = null;
    try {
      Sum known =
          old != null && usable(old, rule, whole) ? old : fromRollups(container, whole, rule);
      Span rest = new Span(known.span().to(), whole.to());
      Samples samples = calibrated.samples(container.id(), Quantity.TEMPERATURE, rest);
      fresh = extended(known, samples, settled(samples, rest));
      return Optional.of(extended(fresh, samples, whole.to()));
    } finally {
      cached.end(fresh);
    }
  }

  private static boolean usable(Sum old, HeatRule rule, Span whole) {
    return old.rule().equals(rule) && !old.span().to().isAfter(whole.to());
  }

  /** The sum without the newest 3 h, for which there may be no hourly rollups yet. */
  private Sum fromRollups(Container container, Span whole, HeatRule rule) {
    Instant end = whole.to().minus(RECENT);
    Span span = new Span(whole.from(), end.isAfter(whole.from()) ? end : whole.from());
    return new Sum(
        span, rule, history.heat(container, span, rule), history.histogram(container, span));
  }

  private Sum extended(Sum sum, Samples samples, Instant to) {
    Span rest = new Span(sum.span().to(), to);
    HeatSum heat = DegreeHours.of(samples, rest, sum.rule(), calibrated.maxGap());
    TemperatureHistogram histogram = TemperatureHistogram.of(samples, rest, calibrated.maxGap());
    return new Sum(
        new Span(sum.span().from(), to),
        sum.rule(),
        sum.heat().plus(heat),
        TemperatureHistogram.sum(List.of(sum.histogram(), histogram)));
  }

  /**
   * The instant of the newest reading: readings arriving in order cannot change the sum before it.
   */
  private static Instant settled(Samples samples, Span rest) {
    int end = samples.indexFrom(rest.toMs() + 1);
    if (end == 0 || samples.atMs(end - 1) < rest.fromMs()) {
      return rest.from();
    }
    return Instant.ofEpochMilli(samples.atMs(end - 1));
  }

  /** Notes that a reading of this instant arrived; it invalidates a sum that reaches past it. */
  void arrived(ContainerId container, Instant at) {
    CachedSum cached = sums.get(container);
    if (cached != null) {
      cached.arrived(at);
    }
  }

  /** Removes the cached sum; a query that runs now does not store its result either. */
  void invalidate(ContainerId container) {
    sums.remove(container);
  }

  /**
   * The cached sum of one container. It is computed outside the lock, so that a slow store does not
   * block new readings. If a reading of an earlier instant arrives during the computation, the
   * result is not cached.
   */
  private static final class CachedSum {
    private @Nullable Sum sum;
    private int computations;
    private Instant earliest = Instant.MAX;

    synchronized @Nullable Sum begin() {
      earliest = computations == 0 ? Instant.MAX : earliest;
      computations++;
      return sum;
    }

    synchronized void end(@Nullable Sum fresh) {
      computations--;
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
