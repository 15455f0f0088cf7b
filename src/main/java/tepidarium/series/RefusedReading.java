package tepidarium.series;

import tepidarium.reading.Reading;

/**
 * A reading that the store will never take, however often it is tried.
 *
 * @param reason in words for the grower
 */
public record RefusedReading(Reading reading, String reason) {}
