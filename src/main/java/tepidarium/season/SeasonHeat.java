package tepidarium.season;

import org.jspecify.annotations.Nullable;

/**
 * The mean heat per day in the containers that held seeds, by one base and ceiling.
 *
 * @param base base temperature, °C
 * @param ceiling ceiling temperature, °C; null if none
 * @param degreeHoursPerDay mean heat per day of covered time, °C·h per day
 * @param containers number of measured containers
 */
public record SeasonHeat(
    double base, @Nullable Double ceiling, double degreeHoursPerDay, int containers) {}
