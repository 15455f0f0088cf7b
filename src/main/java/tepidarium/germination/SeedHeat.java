package tepidarium.germination;

import java.util.List;
import java.util.function.ToDoubleFunction;
import tepidarium.heat.HeatRule;
import tepidarium.heat.HeatSum;
import tepidarium.heat.SensorError;

/**
 * The heat that seeds received, with how well it is known. All heat in °C·h, time in h.
 *
 * <p>This is the one definition of heat along a path. {@code lower} and {@code upper} bound what
 * gaps in the readings can have added. {@code least} and {@code most} bound the same and also take
 * in that the sensor may be off.
 *
 * @param degreeHours heat over covered time
 * @param likely with the gaps filled at the mean rate of the covered time in the same container; as
 *     {@code degreeHours} where nothing there was covered
 * @param lower with no heat in the gaps; of joined seeds the lowest of their ways
 * @param upper with the gaps at the ceiling throughout, or without a ceiling at the band's high
 *     limit; at the mean of the covered time where that was warmer; of joined seeds the highest of
 *     their ways
 * @param least {@code lower} if the sensor reads too high by its stated error
 * @param most {@code upper} if the sensor reads too low by its stated error
 * @param coveredHours time between readings close enough to be trusted
 * @param gapHours time in which nothing is known
 */
public record SeedHeat(
    double degreeHours,
    double likely,
    double lower,
    double upper,
    double least,
    double most,
    double coveredHours,
    double gapHours) {
  static final SeedHeat NONE = new SeedHeat(0, 0, 0, 0, 0, 0, 0, 0);

  /**
   * In one container until some instant.
   *
   * @param sum until then
   * @param whole over the whole time in the container, for the rate at which gaps are filled: one
   *     rate for all instants, so that heat never falls as time goes on
   * @param highLimitC of the container's band
   * @param error by how much the sensor may make the sum wrong
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
        sum.gapHours());
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
        gapHours + other.gapHours);
  }

  /**
   * Of seeds that came different ways: the mean over them, and as bounds the lowest and the highest
   * of any way.
   *
   * @param seedHeats of the ways, at least one
   * @param shares of the seeds, which add up to 1
   */
  static SeedHeat overWays(List<SeedHeat> seedHeats, List<Double> shares) {
    return new SeedHeat(
        mean(seedHeats, shares, SeedHeat::degreeHours),
        mean(seedHeats, shares, SeedHeat::likely),
        seedHeats.stream().mapToDouble(SeedHeat::lower).min().orElseThrow(),
        seedHeats.stream().mapToDouble(SeedHeat::upper).max().orElseThrow(),
        seedHeats.stream().mapToDouble(SeedHeat::least).min().orElseThrow(),
        seedHeats.stream().mapToDouble(SeedHeat::most).max().orElseThrow(),
        mean(seedHeats, shares, SeedHeat::coveredHours),
        mean(seedHeats, shares, SeedHeat::gapHours));
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

  /** Whether at least half of the time is covered; with less, the likely heat is a guess. */
  public boolean known() {
    return coveredHours >= gapHours;
  }
}
