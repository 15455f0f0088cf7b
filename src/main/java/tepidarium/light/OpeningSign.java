package tepidarium.light;

import org.jspecify.annotations.Nullable;
import tepidarium.reading.Span;

/**
 * A suggested opening: a time span in which the readings suggest that the container was open.
 *
 * @param span from the first lit reading to the first dark one, or the last lit one seen
 * @param peakLux the brightest reading, lux
 * @param temperatureFallC from before to the lowest, °C; null where temperature is not known
 * @param humidityFallPercent the same of the humidity, %; null where it is not known
 */
public record OpeningSign(
    Span span,
    double peakLux,
    @Nullable Double temperatureFallC,
    @Nullable Double humidityFallPercent) {}
