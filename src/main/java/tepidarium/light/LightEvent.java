package tepidarium.light;

import java.time.Instant;
import org.jspecify.annotations.Nullable;
import tepidarium.reading.Span;

/**
 * A stretch of light in a container that should be dark.
 *
 * @param start the first reading above the limit
 * @param end the first reading at or below it after which the light stayed there; null when that
 *     was not seen: a gap or the end of the record
 * @param lastSeen the last reading that belongs to the event
 * @param peakLux the brightest reading, lux
 * @param doseLuxHours the light integrated from start to end, lux·h
 */
public record LightEvent(
    Instant start, @Nullable Instant end, Instant lastSeen, double peakLux, double doseLuxHours) {
  /** From its first to its last reading. */
  public Span span() {
    return new Span(start, lastSeen.plusMillis(1));
  }
}
