package tepidarium.rollup;

import com.github.benmanes.caffeine.cache.Cache;
import com.github.benmanes.caffeine.cache.Caffeine;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import tepidarium.container.Container;
import tepidarium.container.ContainerId;
import tepidarium.heat.TemperatureHistogram;
import tepidarium.reading.Span;

/**
 * Caches temperature histograms of containers, computed from the hourly rollups. Caches the spans
 * that readings arriving in order can no longer change. Thread-safe.
 */
final class HistogramCache {
  private static final int MAX_HISTOGRAMS = 5_000;
  private static final long DAY_MS = Duration.ofDays(1).toMillis();

  private record HistogramKey(ContainerId container, Span span, HourlyRollups.Version version) {}

  private final HourlyRollups rollups;
  private final Cache<HistogramKey, TemperatureHistogram> histograms =
      Caffeine.newBuilder().executor(Runnable::run).maximumSize(MAX_HISTOGRAMS).build();

  HistogramCache(HourlyRollups rollups) {
    this.rollups = rollups;
  }

  /**
   * The histogram of a span. In a span that may still change, only the days that may change are
   * computed again.
   */
  TemperatureHistogram get(Container container, Span span) {
    long settledMs = rollups.settledUntilMs() / DAY_MS * DAY_MS;
    if (span.toMs() <= rollups.settledUntilMs() || span.fromMs() >= settledMs) {
      return settled(container, span);
    }
    return TemperatureHistogram.sum(
        List.of(
            settled(container, Span.ofMillis(span.fromMs(), settledMs)),
            compute(container, Span.ofMillis(settledMs, span.toMs()))));
  }

  private TemperatureHistogram settled(Container container, Span span) {
    Optional<HourlyRollups.Version> version = rollups.version(container, span);
    if (version.isEmpty()) {
      return compute(container, span);
    }
    HistogramKey key = new HistogramKey(container.id(), span, version.get());
    TemperatureHistogram cached = histograms.getIfPresent(key);
    if (cached != null) {
      return cached;
    }
    TemperatureHistogram histogram = compute(container, span);
    if (rollups.version(container, span).equals(version)) {
      histograms.put(key, histogram);
    }
    return histogram;
  }

  private TemperatureHistogram compute(Container container, Span span) {
    return TemperatureHistogram.sum(
        rollups.rows(container, span).stream().map(RollupRow::histogram).toList());
  }
}
