package tepidarium.series;

import tepidarium.reading.Reading;

/**
 * A reading that the store rejects permanently; a retry does not help.
 *
 * @param reason the reason, worded for the grower
 */
public record RefusedReading(Reading reading, String reason) {}
