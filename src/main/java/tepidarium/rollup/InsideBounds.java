package tepidarium.rollup;

/**
 * Bounds of the share of covered time inside a limit, if the sensors are off by their possible
 * errors: as if the limit were moved by the error to either side.
 *
 * @param lower 0 to 1
 * @param upper 0 to 1
 */
public record InsideBounds(double lower, double upper) {}
