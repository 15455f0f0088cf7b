package tepidarium.web.sensors;

import com.github.benmanes.caffeine.cache.AsyncLoadingCache;
import com.github.benmanes.caffeine.cache.Caffeine;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.Collection;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import tepidarium.live.LatestValues;
import tepidarium.reading.Quantity;
import tepidarium.reading.Samples;
import tepidarium.reading.SensorId;
import tepidarium.reading.Span;
import tepidarium.rollup.FaultHistory;
import tepidarium.sensor.BatteryForecast;
import tepidarium.sensor.ReportingRecord;
import tepidarium.sensor.SensorBook;
import tepidarium.series.ReadingSource;
import tepidarium.series.SensorSummary;
import tepidarium.series.StoreException;
import tepidarium.thread.DaemonThreads;

/**
 * Caches how regularly each sensor reports, the forecast of its battery and its faults. They need
 * the readings of a week or more, so two threads of their own load them. A cached value older than
 * five minutes is still returned, and loaded again in the background. Thread-safe.
 */
public final class SensorActivities implements AutoCloseable {
  private static final Logger LOG = LoggerFactory.getLogger(SensorActivities.class);
  private static final Duration REFRESH_AFTER = Duration.ofMinutes(5);
  private static final int THREADS = 2;

  /** Voltages older than a week are read for two hours of every third day only. */
  private static final int DAYS_BETWEEN_SAMPLES = 3;

  private static final Duration SAMPLE_LENGTH = Duration.ofHours(2);

  /**
   * A loaded activity.
   *
   * @param last the newest reading when it was loaded
   */
  private record Activity(
      Instant last,
      ReportingRecord reporting,
      @Nullable BatteryForecast battery,
      FaultSummaryJson faults) {}

  private final ReadingSource readings;
  private final LatestValues latestValues;
  private final SensorBook book;
  private final FaultHistory faults;
  private final Duration maxGap;
  private final Clock clock;
  private final ExecutorService executor =
      Executors.newFixedThreadPool(THREADS, DaemonThreads.named("sensor-activity"));
  private final AsyncLoadingCache<SensorId, Optional<Activity>> cache;

  public SensorActivities(
      ReadingSource readings,
      LatestValues latestValues,
      SensorBook book,
      FaultHistory faults,
      Duration maxGap,
      Clock clock) {
    this.readings = readings;
    this.latestValues = latestValues;
    this.book = book;
    this.faults = faults;
    this.maxGap = maxGap;
    this.clock = clock;
    this.cache =
        Caffeine.newBuilder()
            .executor(executor)
            .refreshAfterWrite(REFRESH_AFTER)
            .buildAsync(this::load);
  }

  /**
   * Loads the activity of sensors; waits until all are loaded, but not longer than the limit. A
   * sensor without a usual interval is loaded again after its next reading, which may give it one.
   */
  public void load(Collection<SensorId> sensors, Duration limit) {
    for (SensorId sensor : sensors) {
      Activity known = loaded(sensor);
      SensorSummary heard = latestValues.of(sensor).orElse(null);
      boolean mayHaveInterval =
          known != null
              && known.reporting().usualInterval() == null
              && heard != null
              && heard.last().isAfter(known.last());
      if (known == null || mayHaveInterval) {
        invalidateLoaded(sensor);
      }
    }
    CompletableFuture<?>[] loads =
        sensors.stream()
            .filter(sensor -> latestValues.of(sensor).isPresent())
            .map(cache::get)
            .toArray(CompletableFuture[]::new);
    try {
      CompletableFuture.allOf(loads).get(limit.toMillis(), TimeUnit.MILLISECONDS);
    } catch (TimeoutException e) {
      // The rest is loaded in the background, and is there at the next call.
    } catch (ExecutionException e) {
      throw new IllegalStateException("cannot calculate the activity of a sensor", e.getCause());
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  private void invalidateLoaded(SensorId sensor) {
    CompletableFuture<Optional<Activity>> load = cache.getIfPresent(sensor);
    if (load != null && load.isDone()) {
      invalidate(sensor);
    }
  }

  void invalidate(SensorId sensor) {
    cache.synchronous().invalidate(sensor);
  }

  /** The activity of a sensor; null if it is not loaded. Does not wait. */
  @Nullable ActivityJson json(SensorId sensor) {
    Activity known = loaded(sensor);
    SensorSummary heard = latestValues.of(sensor).orElse(null);
    return known == null || heard == null
        ? null
        : ActivityJson.of(
            known.reporting(),
            known.battery(),
            heard.last(),
            clock.instant(),
            book.details(sensor).retiredAt() != null);
  }

  /** The recent faults of a sensor; null if they are not loaded. Does not wait. */
  @Nullable FaultSummaryJson faults(SensorId sensor) {
    Activity known = loaded(sensor);
    return known == null ? null : known.faults();
  }

  /** The forecast of the battery; null if it is not loaded, or there is none. Does not wait. */
  public @Nullable BatteryForecast battery(SensorId sensor) {
    Activity known = loaded(sensor);
    return known == null ? null : known.battery();
  }

  private @Nullable Activity loaded(SensorId sensor) {
    CompletableFuture<Optional<Activity>> load = cache.getIfPresent(sensor);
    return load == null || load.isCompletedExceptionally()
        ? null
        : load.getNow(Optional.empty()).orElse(null);
  }

  /** Empty if the sensor was not heard, or its activity cannot be calculated now. */
  private Optional<Activity> load(SensorId sensor) {
    try {
      return compute(sensor);
    } catch (StoreException e) {
      // Health reports the store; the activity is loaded again at the next call.
      return Optional.empty();
    } catch (RuntimeException e) {
      LOG.error("cannot calculate the activity of sensor \"{}\"", sensor.name(), e);
      return Optional.empty();
    }
  }

  private Optional<Activity> compute(SensorId sensor) {
    SensorSummary heard = latestValues.of(sensor).orElse(null);
    if (heard == null) {
      return Optional.empty();
    }
    Instant now = clock.instant();
    Instant retired = book.details(sensor).retiredAt();
    Instant end = retired == null ? now : retired;
    Instant week = end.minus(ReportingRecord.WEEK).minus(maxGap);
    Instant lastDay = heard.last().minus(ReportingRecord.DAY);
    Instant from = lastDay.isBefore(week) ? lastDay : week;
    Map<Quantity, Samples> samples = readings.read(sensor, new Span(from, end));
    Samples battery = samples.getOrDefault(Quantity.BATTERY, Samples.EMPTY);
    return Optional.of(
        new Activity(
            heard.last(),
            ReportingRecord.of(Samples.instants(samples.values()), heard.first(), end, maxGap),
            battery(sensor, battery, from, heard, now),
            FaultSummaryJson.of(
                faults.ofSensor(sensor, new Span(now.minus(FaultSummaryJson.LENGTH), now)))));
  }

  private @Nullable BatteryForecast battery(
      SensorId sensor, Samples recent, Instant recentFrom, SensorSummary heard, Instant now) {
    if (!heard.latest().containsKey(Quantity.BATTERY)) {
      return null;
    }
    Samples.Builder volts = new Samples.Builder(recent.size() + 256);
    for (Instant at = now.minus(BatteryForecast.LOOKS_BACK);
        at.plus(SAMPLE_LENGTH).isBefore(recentFrom);
        at = at.plus(Duration.ofDays(DAYS_BETWEEN_SAMPLES))) {
      if (!at.plus(SAMPLE_LENGTH).isBefore(heard.first())) {
        volts.addAll(
            readings
                .read(sensor, new Span(at, at.plus(SAMPLE_LENGTH)))
                .getOrDefault(Quantity.BATTERY, Samples.EMPTY));
      }
    }
    volts.addAll(recent);
    Samples all = volts.build();
    return all.isEmpty() ? null : BatteryForecast.of(all, book.details(sensor).emptyVolts(), now);
  }

  @Override
  public void close() {
    executor.shutdownNow();
  }
}
