package tepidarium.germination;

import java.util.List;
import tepidarium.heat.HeatRule;
import tepidarium.heat.HeatSum;

/**
 * The heat that seeds received, with how well it is known. All heat in °C·h, time in h.
 *
 * @param covered heat over covered time: nothing during the gaps
 * @param likely with the gaps filled at the mean rate of the covered time in the same container; as
 *     covered where nothing there was
 * @param most with the gaps at the ceiling, or at the band's high limit, throughout
 * @param error by how much each of these may be off because the sensor is, either way
 * @param coveredHours time between readings close enough to be trusted
 * @param gapHours time in which nothing is known
 */
public record Dose(
    double covered,
    double likely,
    double most,
    double error,
    double coveredHours,
    double gapHours) {
  static final Dose NONE = new Dose(0, 0, 0, 0, 0, 0);

  /**
   * In one container until some instant.
   *
   * @param sum until then
   * @param whole over the whole time in the container, for the rate at which gaps are filled: one
   *     rate for all instants, so that heat never falls as time goes on
   * @param highLimitC of the container's band
   * @param temperatureErrorC by how much the sensor may be off, ±°C
   */
  static Dose of(
      HeatSum sum, HeatSum whole, HeatRule rule, double highLimitC, double temperatureErrorC) {
    double rate = whole.coveredMs() > 0 ? whole.degreeHours() / whole.coveredHours() : 0;
    double likely = sum.degreeHours() + rate * sum.gapHours();
    return new Dose(
        sum.lower(),
        likely,
        Math.max(likely, sum.upper(rule, highLimitC)),
        sum.sensorError(temperatureErrorC),
        sum.coveredHours(),
        sum.gapHours());
  }

  Dose plus(Dose other) {
    return new Dose(
        covered + other.covered,
        likely + other.likely,
        most + other.most,
        error + other.error,
        coveredHours + other.coveredHours,
        gapHours + other.gapHours);
  }

  /**
   * Of seeds that came different ways: the mean over them as the likely heat, the least and the
   * most of any way as bounds.
   *
   * @param doses of the ways, at least one
   * @param shares of the seeds, which add up to 1
   */
  static Dose overWays(List<Dose> doses, List<Double> shares) {
    double covered = Double.POSITIVE_INFINITY;
    double likely = 0;
    double most = 0;
    double error = 0;
    double coveredHours = 0;
    double gapHours = 0;
    for (int i = 0; i < doses.size(); i++) {
      Dose dose = doses.get(i);
      double share = shares.get(i);
      covered = Math.min(covered, dose.covered);
      likely += share * dose.likely;
      most = Math.max(most, dose.most);
      error = Math.max(error, dose.error);
      coveredHours += share * dose.coveredHours;
      gapHours += share * dose.gapHours;
    }
    return new Dose(covered, likely, most, error, coveredHours, gapHours);
  }

  /** The least that it can have been: nothing during gaps, and the sensor too high. */
  public double lower() {
    return Math.max(0, covered - error);
  }

  /** The most that it can have been: gaps as warm as can be, and the sensor too low. */
  public double upper() {
    return most + error;
  }

  public double hours() {
    return coveredHours + gapHours;
  }

  /** Whether at least half of the time is covered; with less, the likely heat is a guess. */
  public boolean known() {
    return coveredHours >= gapHours;
  }
}
