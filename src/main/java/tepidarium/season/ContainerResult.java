package tepidarium.season;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What one container did in the season, from its first reading or placement in it to its last.
 *
 * @param seeds whether seeds of the season's sowings, or of earlier ones, lay in it
 * @param base its base temperature, °C
 * @param low the low temperature of its band, °C
 * @param high the high one, °C
 * @param dryBelow the low humidity of its band, %
 * @param coveredHours covered by readings of temperature
 * @param gapHours in which nothing is known of it
 * @param degreeHours over covered time, with its own base and ceiling, °C·h
 * @param upper the most that it can have been, °C·h
 * @param degreeHoursPerDay of covered time; null where nothing is covered
 * @param fractionInTemperatureBand of covered time, 0 to 1
 * @param coldest the lowest reading, °C
 * @param hottest the highest reading, °C
 * @param humidityCoveredHours covered by readings of humidity; 0 says nothing of dryness
 * @param lightCoveredHours covered by readings of light; 0 says nothing of darkness
 * @param openings recorded ones
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
   * Time beyond one limit of temperature.
   *
   * @param excursions those that no recorded opening explains
   * @param duringOpenings those that one does
   * @param hours all of them together
   * @param longestHours the longest that no opening explains
   * @param degreeHoursLost by all of them, °C·h; 0 for heat
   */
  public record Outside(
      int excursions,
      int duringOpenings,
      double hours,
      double longestHours,
      double degreeHoursLost) {}

  /** Light that is no recorded opening: how often, its dose, and the same by kind. */
  public record Leaks(int count, double doseLuxHours, List<LeaksOfKind> byKind) {
    public Leaks {
      byKind = List.copyOf(byKind);
    }
  }

  /**
   * Leaks of one kind.
   *
   * @param kind daylight, lamp or other
   * @param days on how many local days
   */
  public record LeaksOfKind(String kind, int count, int days, double doseLuxHours) {}

  /** The part of the time that was not covered, 0 to 1. */
  double gapShare() {
    double all = coveredHours + gapHours;
    return all == 0 ? 0 : gapHours / all;
  }
}
