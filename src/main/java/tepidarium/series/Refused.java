package tepidarium.series;

import tepidarium.reading.Reading;

/**
 * A reading that the store will never take, however often it is tried.
 *
 * @param reason in words for the grower
 */
public record Refused(Reading reading, String reason) {}
