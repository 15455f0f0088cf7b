package tepidarium.fault;

import java.time.Duration;
import java.time.Instant;
import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import tepidarium.reading.SensorId;

/**
 * Detects sensors whose own clock is behind. Readings may arrive late for a good reason: a node
 * sends a backlog, or the broker kept messages. The newest of them arrives fresh, however.
 * Therefore a clock counts as wrong only if for one hour not a single reading arrived within 10 min
 * of its own time. The bounds are common practice, no source. A clock that is ahead is noticed at
 * each reading, because a time in the future is refused. Not thread-safe.
 */
public final class ClockCheck {
  /** A reading that arrives at most this long after its own time is fresh, 10 min. */
  static final Duration FRESH = Duration.ofMinutes(10);

  /** Time without a fresh reading, 1 h. */
  static final Duration LEAST = Duration.ofHours(1);

  /** Fewest arrivals in this time. */
  static final int LEAST_ARRIVALS = 4;

  /** Arrivals without a fresh reading among them. */
  private record Late(Instant firstArrival, int arrivals, Duration least) {}

  private final Map<SensorId, Late> late = new HashMap<>();

  /** Takes a reading with a time of its own; returns a fault if the sensor's clock is wrong. */
  public Optional<ArrivalFault> arrived(SensorId sensor, Instant at, Instant arrivedAt) {
    Duration delay = Duration.between(at, arrivedAt);
    if (delay.compareTo(FRESH) <= 0) {
      late.remove(sensor);
      return Optional.empty();
    }
    Late known = late.get(sensor);
    Late now =
        known == null || arrivedAt.isBefore(known.firstArrival())
            ? new Late(arrivedAt, 1, delay)
            : new Late(
                known.firstArrival(),
                known.arrivals() + 1,
                delay.compareTo(known.least()) < 0 ? delay : known.least());
    late.put(sensor, now);
    boolean wrong =
        now.arrivals() >= LEAST_ARRIVALS
            && Duration.between(now.firstArrival(), arrivedAt).compareTo(LEAST) >= 0;
    return wrong
        ? Optional.of(ArrivalFault.ofClock(sensor, at, now.least().toSeconds() / 60.0))
        : Optional.empty();
  }
}
