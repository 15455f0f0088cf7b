package tepidarium.ingest;

import java.time.Duration;
import java.time.Instant;
import java.util.HashMap;
import java.util.Map;
import tepidarium.reading.Arrival;
import tepidarium.reading.Reading;
import tepidarium.reading.SensorId;

/**
 * Assigns distinct instants to readings of one sensor that have no time of their own and arrive in
 * the same millisecond. Each gets the next free millisecond, because the store keeps one reading
 * per sensor and instant. Used by one thread.
 */
final class DistinctArrivals {
  /**
   * Maximum distance of an assigned instant from the arrival. Beyond it the time counts as
   * uncertain. This takes more than 10,000 readings of one sensor within about one second.
   */
  private static final long MAX_AHEAD_MS = Duration.ofSeconds(10).toMillis();

  private record Key(SensorId sensor, boolean uncertain) {}

  private final Map<Key, Long> lastMs = new HashMap<>();
  private long newestMs = Long.MIN_VALUE;
  private long lastArrivalMs = Long.MIN_VALUE;

  /** Returns the reading with a distinct instant; unchanged if the sensor sent the time. */
  Reading distinct(Reading reading, Instant arrivedAt) {
    Arrival arrival = reading.arrival();
    long arrivalMs = arrivedAt.toEpochMilli();
    if (arrival == null || reading.at().toEpochMilli() != arrivalMs) {
      return reading;
    }
    if (arrivalMs > newestMs || arrivalMs < lastArrivalMs) {
      // All assigned instants are in the past, or the clock was set back.
      lastMs.clear();
      newestMs = Long.MIN_VALUE;
    }
    lastArrivalMs = arrivalMs;
    long free = nextFree(reading.sensor(), arrival.uncertain(), arrivalMs);
    if (!arrival.uncertain() && free - arrivalMs > MAX_AHEAD_MS) {
      arrival = arrival.asUncertain();
      free = nextFree(reading.sensor(), true, arrivalMs);
    }
    lastMs.put(new Key(reading.sensor(), arrival.uncertain()), free);
    newestMs = Math.max(newestMs, free);
    return reading.movedTo(Instant.ofEpochMilli(free), arrival);
  }

  private long nextFree(SensorId sensor, boolean uncertain, long arrivalMs) {
    Long last = lastMs.get(new Key(sensor, uncertain));
    return last == null ? arrivalMs : Math.max(arrivalMs, last + 1);
  }
}
