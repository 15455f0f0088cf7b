package tepidarium.heat;

import java.time.Duration;
import java.time.Instant;
import org.jspecify.annotations.Nullable;
import tepidarium.container.Opening;

/**
 * A period in which a value is outside one limit of the band.
 *
 * @param start time at which the line between readings crossed the limit, or the first known time
 * @param end time at which it crossed back; null if that was not seen because of a gap or the end
 *     of the record
 * @param lastSeen last time at which the value is known to be outside: {@code end}, or else the
 *     start of the gap or the end of the record
 * @param hours time for which the value is known to be outside, h
 * @param worst value furthest outside, in the unit of the quantity
 * @param worstAt time of {@code worst}
 * @param beyondHours integral of the distance beyond the limit, unit·h
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
   * Whether the excursion lies within an opening, extended by 10 min before and after. Readings
   * come some minutes apart, and a container needs some minutes to recover. The 10 min are common
   * practice, no source. False if the end is not known.
   */
  public boolean isWithin(Opening opening) {
    return end != null
        && !start.isBefore(opening.span().from().minus(AROUND_OPENING))
        && !end.isAfter(opening.span().to().plus(AROUND_OPENING));
  }
}
