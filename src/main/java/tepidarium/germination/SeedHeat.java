package tepidarium.germination;

import java.util.List;
import java.util.function.ToDoubleFunction;
import tepidarium.heat.HeatRule;
import tepidarium.heat.HeatSum;
import tepidarium.heat.SensorError;

/**
 * The heat that seeds received along a path, with bounds. All heat in °C·h, time in h.
 *
 * <p>{@code lower} and {@code upper} bound the heat in gaps of the readings. {@code least} and
 * {@code most} also include the error of the sensor.
 *
 * @param degreeHours heat in covered time
 * @param likely heat with gaps filled at the mean rate of the covered time in the same container;
 *     equal to {@code degreeHours} if nothing there was covered
 * @param lower heat with none in the gaps; of joined seeds the lowest over their paths
 * @param upper heat with gaps at the ceiling, or without a ceiling at the high limit of the band;
 *     at the mean of the covered time if that was warmer; of joined seeds the highest over their
 *     paths
 * @param least {@code lower} if the sensor reads too high by its stated error
 * @param most {@code upper} if the sensor reads too low by its stated error
 * @param coveredHours time between readings that are at most the longest gap apart
 * @param gapHours time without known temperature
 * @param leftOutHours part of the gaps that readings would cover if none were left out because of
 *     faults
 */
public record SeedHeat(
    double degreeHours,
    double likely,
    double lower,
    double upper,
    double least,
    double most,
    double coveredHours,
    double gapHours,
    double leftOutHours) {
  static final SeedHeat NONE = new SeedHeat(0, 0, 0, 0, 0, 0, 0, 0, 0);

  /**
   * The heat in one container until an instant.
   *
   * @param sum heat until the instant
   * @param whole heat over the whole time in the container. Its mean rate fills the gaps: one rate
   *     for all instants keeps the heat from falling with time.
   * @param highLimitC high limit of the container's band, °C
   * @param error error of the sum due to the sensor
   */
  static SeedHeat of(
      HeatSum sum, HeatSum whole, HeatRule rule, double highLimitC, SensorError error) {
    double rate = whole.coveredMs() > 0 ? whole.degreeHours() / whole.coveredHours() : 0;
    double likely = sum.degreeHours() + rate * sum.gapHours();
    double upper = Math.max(likely, sum.upper(rule, highLimitC));
    return new SeedHeat(
        sum.degreeHours(),
        likely,
        sum.lower(),
        upper,
        Math.max(0, sum.lower() - error.less()),
        upper + error.more(),
        sum.coveredHours(),
        sum.gapHours(),
        sum.leftOutHours());
  }

  SeedHeat plus(SeedHeat other) {
    return new SeedHeat(
        degreeHours + other.degreeHours,
        likely + other.likely,
        lower + other.lower,
        upper + other.upper,
        least + other.least,
        most + other.most,
        coveredHours + other.coveredHours,
        gapHours + other.gapHours,
        leftOutHours + other.leftOutHours);
  }

  /**
   * The heat of seeds with different paths: the mean over the paths, with the lowest and highest
   * bound of any path.
   *
   * @param seedHeats heat of each path, at least one path
   * @param shares share of the seeds on each path; they add up to 1
   */
  static SeedHeat overPaths(List<SeedHeat> seedHeats, List<Double> shares) {
    return new SeedHeat(
        mean(seedHeats, shares, SeedHeat::degreeHours),
        mean(seedHeats, shares, SeedHeat::likely),
        seedHeats.stream().mapToDouble(SeedHeat::lower).min().orElseThrow(),
        seedHeats.stream().mapToDouble(SeedHeat::upper).max().orElseThrow(),
        seedHeats.stream().mapToDouble(SeedHeat::least).min().orElseThrow(),
        seedHeats.stream().mapToDouble(SeedHeat::most).max().orElseThrow(),
        mean(seedHeats, shares, SeedHeat::coveredHours),
        mean(seedHeats, shares, SeedHeat::gapHours),
        mean(seedHeats, shares, SeedHeat::leftOutHours));
  }

  private static double mean(
      List<SeedHeat> seedHeats, List<Double> shares, ToDoubleFunction<SeedHeat> figure) {
    double sum = 0;
    for (int i = 0; i < seedHeats.size(); i++) {
      sum += shares.get(i) * figure.applyAsDouble(seedHeats.get(i));
    }
    return sum;
  }

  public double hours() {
    return coveredHours + gapHours;
  }

  /** Whether at least half of the time is covered; otherwise the likely heat is not reliable. */
  public boolean known() {
    return coveredHours >= gapHours;
  }
}
