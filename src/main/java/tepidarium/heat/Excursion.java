package tepidarium.heat;

import java.time.Duration;
import java.time.Instant;
import org.jspecify.annotations.Nullable;
import tepidarium.container.Opening;

/**
 * A stretch outside one limit of the band.
 *
 * @param start where the straight line between readings crossed the limit, or the first moment
 *     known
 * @param end where it came back, or null when that was not seen: a gap or the end of the record
 * @param lastSeen the last moment at which it is known to have been outside: the end where that was
 *     seen, otherwise the start of the gap or the end of the record
 * @param hours how long the value is known to have been outside, h
 * @param worst the value furthest outside, in the unit of the quantity
 * @param worstAt when that was
 * @param beyondHours the integral of the distance beyond the limit, unit·h
 */
public record Excursion(
    Instant start,
    @Nullable Instant end,
    Instant lastSeen,
    double hours,
    double worst,
    Instant worstAt,
    double beyondHours) {
  private static final Duration AROUND_OPENING = Duration.ofMinutes(10);

  /**
   * Whether it lies within an opening and the 10 min before and after it. Readings come some
   * minutes apart, and a container needs some minutes to recover. The 10 min are common practice,
   * no source. False while its end is not known.
   */
  public boolean isWithin(Opening opening) {
    return end != null
        && !start.isBefore(opening.span().from().minus(AROUND_OPENING))
        && !end.isAfter(opening.span().to().plus(AROUND_OPENING));
  }
}
