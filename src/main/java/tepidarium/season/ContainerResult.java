package tepidarium.season;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * The result of one container in a season report, from its first reading or placement in the season
 * to its last.
 *
 * @param seeds whether it held seeds of the season or of earlier sowings
 * @param base base temperature of the container, °C
 * @param low low temperature limit of its band, °C
 * @param high high temperature limit of its band, °C
 * @param dryBelow low humidity limit of its band, %
 * @param coveredHours time covered by temperature readings, h
 * @param gapHours time without known temperature, h
 * @param leftOutHours part of the gaps that readings would cover if none were left out because of
 *     faults, h
 * @param degreeHours heat in covered time, by its own base and ceiling, °C·h
 * @param upper upper bound of the heat with gaps included, °C·h
 * @param degreeHoursPerDay mean heat per day of covered time, °C·h per day; null if no time is
 *     covered
 * @param fractionInTemperatureBand share of covered time in the temperature band, 0 to 1
 * @param coldest lowest reading, °C
 * @param hottest highest reading, °C
 * @param dryHours time below the low humidity limit, h
 * @param humidityCoveredHours time covered by humidity readings, h; with 0, dryness is not known
 * @param lightCoveredHours time covered by light readings, h; with 0, darkness is not known
 * @param openings number of recorded openings
 */
public record ContainerResult(
    String id,
    String name,
    @Nullable String heatSource,
    boolean seeds,
    double base,
    double low,
    double high,
    double dryBelow,
    double coveredHours,
    double gapHours,
    double leftOutHours,
    double degreeHours,
    double upper,
    @Nullable Double degreeHoursPerDay,
    @Nullable Double fractionInTemperatureBand,
    @Nullable Double coldest,
    @Nullable Double hottest,
    Outside cold,
    Outside hot,
    double dryHours,
    double humidityCoveredHours,
    double lightCoveredHours,
    Leaks leaks,
    int openings) {
  /**
   * Time and excursions beyond one temperature limit.
   *
   * @param excursions number of excursions outside recorded openings
   * @param duringOpenings number of excursions within recorded openings
   * @param hours total time beyond the limit, h
   * @param longestHours longest excursion outside recorded openings, h
   * @param degreeHoursLost heat lost in all excursions, °C·h; 0 for the high limit
   */
  public record Outside(
      int excursions,
      int duringOpenings,
      double hours,
      double longestHours,
      double degreeHoursLost) {}

  /** Light leaks outside recorded openings: number, dose in lux·h, and both by kind. */
  public record Leaks(int count, double doseLuxHours, List<LeaksOfKind> byKind) {
    public Leaks {
      byKind = List.copyOf(byKind);
    }
  }

  /**
   * Light leaks of one kind.
   *
   * @param kind daylight, lamp or other
   * @param days number of local days with such a leak
   */
  public record LeaksOfKind(String kind, int count, int days, double doseLuxHours) {}

  /** The share of time in gaps, 0 to 1. */
  double gapShare() {
    double all = coveredHours + gapHours;
    return all == 0 ? 0 : gapHours / all;
  }
}
