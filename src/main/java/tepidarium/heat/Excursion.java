package tepidarium.heat;

import java.time.Instant;
import org.jspecify.annotations.Nullable;

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
    double beyondHours) {}
