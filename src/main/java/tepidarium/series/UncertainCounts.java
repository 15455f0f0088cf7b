package tepidarium.series;

import java.util.Map;
import java.util.function.Supplier;
import tepidarium.reading.SensorId;

/**
 * Caches how many readings of uncertain time a store holds, until it writes or deletes some. While
 * the store does not answer, the counts of the last query stay. Thread-safe.
 */
public final class UncertainCounts {
  private final Supplier<Map<SensorId, UncertainReadings>> query;
  private volatile Map<SensorId, UncertainReadings> counts = Map.of();
  private volatile boolean known;

  /**
   * Creates the cache.
   *
   * @param query counts the readings of each sensor; may throw {@link StoreException}
   */
  public UncertainCounts(Supplier<Map<SensorId, UncertainReadings>> query) {
    this.query = query;
  }

  /** Counts again if something has changed since the last time. */
  public Map<SensorId, UncertainReadings> get() {
    if (!known) {
      try {
        // Set before the query, so that a change meanwhile is counted the next time.
        known = true;
        counts = query.get();
      } catch (StoreException e) {
        known = false;
      }
    }
    return counts;
  }

  /** Readings were written or deleted. */
  public void changed() {
    known = false;
  }
}
