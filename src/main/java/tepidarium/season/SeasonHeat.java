package tepidarium.season;

import org.jspecify.annotations.Nullable;

/**
 * The heat of an average day in the containers that held seeds, all by one base and ceiling.
 *
 * @param degreeHoursPerDay of covered time, °C·h a day
 * @param containers how many were measured
 */
public record SeasonHeat(
    double base, @Nullable Double ceiling, double degreeHoursPerDay, int containers) {}
