package tepidarium.season;

import java.time.Instant;
import org.jspecify.annotations.Nullable;
import tepidarium.reading.Span;

/**
 * A stored season report. It does not change when later data change.
 *
 * @param report report as JSON
 */
public record StoredSeason(
    long id, String name, Span span, Instant keptAt, @Nullable String remark, String report) {}
