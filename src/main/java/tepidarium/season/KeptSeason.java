package tepidarium.season;

import java.time.Instant;
import org.jspecify.annotations.Nullable;
import tepidarium.reading.Span;

/**
 * A season whose report was kept as it was.
 *
 * @param report the report as JSON text
 */
public record KeptSeason(
    long id, String name, Span span, Instant keptAt, @Nullable String remark, String report) {}
