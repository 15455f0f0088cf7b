package tepidarium.ingest;

import java.time.Duration;
import java.time.Instant;
import java.util.HashMap;
import java.util.Map;
import tepidarium.reading.Arrival;
import tepidarium.reading.Reading;
import tepidarium.reading.SensorId;

/**
 * Gives readings of one sensor that arrive in the same millisecond, without a time of their own, an
 * instant each: the next free millisecond. Otherwise the store would take them for one reading. For
 * one thread.
 */
final class DistinctArrivals {
  /**
   * The furthest that an instant may lie ahead of its arrival; beyond it, which takes more than
   * 10,000 readings of one sensor in a second or so, the time is uncertain.
   */
  private static final long MOST_AHEAD_MS = Duration.ofSeconds(10).toMillis();

  private record Key(SensorId sensor, boolean uncertain) {}

  private final Map<Key, Long> lastMs = new HashMap<>();
  private long newestMs = Long.MIN_VALUE;
  private long lastArrivalMs = Long.MIN_VALUE;

  /** The reading, at an instant of its own where its instant is that of its arrival. */
  Reading apart(Reading reading, Instant arrivedAt) {
    Arrival arrival = reading.arrival();
    long arrivalMs = arrivedAt.toEpochMilli();
    if (arrival == null || reading.at().toEpochMilli() != arrivalMs) {
      return reading;
    }
    if (arrivalMs > newestMs || arrivalMs < lastArrivalMs) {
      // Nothing given so far can be met any more, or the clock was set back.
      lastMs.clear();
      newestMs = Long.MIN_VALUE;
    }
    lastArrivalMs = arrivalMs;
    long free = free(reading.sensor(), arrival.uncertain(), arrivalMs);
    if (!arrival.uncertain() && free - arrivalMs > MOST_AHEAD_MS) {
      arrival = arrival.asUncertain();
      free = free(reading.sensor(), true, arrivalMs);
    }
    lastMs.put(new Key(reading.sensor(), arrival.uncertain()), free);
    newestMs = Math.max(newestMs, free);
    return reading.movedTo(Instant.ofEpochMilli(free), arrival);
  }

  private long free(SensorId sensor, boolean uncertain, long arrivalMs) {
    Long last = lastMs.get(new Key(sensor, uncertain));
    return last == null ? arrivalMs : Math.max(arrivalMs, last + 1);
  }
}
