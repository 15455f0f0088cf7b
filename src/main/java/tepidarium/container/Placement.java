package tepidarium.container;

import java.time.Instant;
import java.time.temporal.ChronoUnit;
import org.jspecify.annotations.Nullable;
import tepidarium.reading.SensorId;

/**
 * The placement of a sensor in a container or in the room, from one instant (inclusive) to another
 * (exclusive).
 *
 * @param from truncated to whole milliseconds, like the times of readings
 * @param until truncated to whole milliseconds; null while the sensor is still there
 * @throws IllegalArgumentException if the end is not after the start
 */
public record Placement(
    SensorId sensor, ContainerId container, Instant from, @Nullable Instant until) {
  public Placement {
    from = from.truncatedTo(ChronoUnit.MILLIS);
    until = until == null ? null : until.truncatedTo(ChronoUnit.MILLIS);
    if (until != null && !until.isAfter(from)) {
      throw new IllegalArgumentException(
          "until " + until + " must lie after from " + from + " for sensor " + sensor);
    }
  }

  public boolean holdsAt(Instant instant) {
    return !instant.isBefore(from) && (until == null || instant.isBefore(until));
  }
}
