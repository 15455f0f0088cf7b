package tepidarium.germination;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.hipparchus.analysis.solvers.AllowedSolution;
import org.hipparchus.analysis.solvers.BracketingNthOrderBrentSolver;
import tepidarium.stats.Posterior;

/**
 * Forecasts when the next tenth of the remaining seeds will have germinated if heating goes on as
 * before. Includes the uncertainty of the fit, the chance in few seeds, and the uncertainty of the
 * heat.
 *
 * @param seeds a tenth of the remaining seeds, rounded up, at least 1
 * @param hours median time from now, h
 * @param earliestHours 2.5 % quantile of the time from now, h
 * @param latestHours 97.5 % quantile of the time from now, h; empty if it may never happen
 */
public record HeatForecast(
    int seeds, double hours, double earliestHours, OptionalDouble latestHours) {
  private static final double MAX_HOURS = 24 * 365.0;
  private static final double TAIL = 0.025;
  private static final double CLOSE_HOURS = 0.02;
  private static final int ORDER = 5;
  private static final int MAX_EVALUATIONS = 200;
  private static final int FEW = 30;

  /** Number of draws used. The first draws of the sequence are spread like all of it. */
  private static final int DRAWS = 250;

  /**
   * One possible estimate of the heat, with its fit.
   *
   * @param weight relative weight, in any unit
   * @param fit posterior of the heat needed, from the counts by degree-hours above the base
   * @param heatSeen degree-hours when the seeds were last seen ungerminated, °C·h
   * @param heatNow degree-hours now, °C·h, at least {@code heatSeen}
   * @param heatPerHourLow lowest future rate of heat, °C·h per h
   * @param heatPerHourHigh highest future rate of heat, °C·h per h
   */
  public record Branch(
      double weight,
      Posterior fit,
      double heatSeen,
      double heatNow,
      double heatPerHourLow,
      double heatPerHourHigh) {}

  /**
   * Makes a forecast. Empty if the tenth will probably never germinate, or if there is no heat.
   *
   * @param remaining seeds that were sound and ungerminated when last seen, at least 1; some may
   *     have germinated since
   * @param branches at least one; several if the heat is uncertain
   */
  public static Optional<HeatForecast> of(int remaining, List<Branch> branches) {
    if (remaining < 1 || branches.isEmpty()) {
      throw new IllegalArgumentException("at least one seed and one branch are needed");
    }
    int tenth = (remaining + 9) / 10;
    OptionalDouble middle = hoursUntil(remaining, tenth, branches, 0.5, 0.5);
    OptionalDouble earliest = hoursUntil(remaining, tenth, branches, TAIL, 1);
    if (middle.isEmpty() || earliest.isEmpty()) {
      return Optional.empty();
    }
    return Optional.of(
        new HeatForecast(
            tenth,
            middle.getAsDouble(),
            earliest.getAsDouble(),
            hoursUntil(remaining, tenth, branches, 1 - TAIL, 0)));
  }

  /**
   * The hours after which a tenth has germinated with a given probability. The rate of heat lies
   * between its low (0) and high (1) bound.
   */
  private static OptionalDouble hoursUntil(
      int remaining, int tenth, List<Branch> branches, double probability, double rate) {
    if (probabilityBy(remaining, tenth, branches, 0, rate) >= probability) {
      return OptionalDouble.of(0);
    }
    if (probabilityBy(remaining, tenth, branches, MAX_HOURS, rate) < probability) {
      return OptionalDouble.empty();
    }
    double low = 0;
    double high = 1;
    while (high < MAX_HOURS
        && probabilityBy(remaining, tenth, branches, high, rate) < probability) {
      low = high;
      high = Math.min(MAX_HOURS, 2 * high);
    }
    return OptionalDouble.of(
        new BracketingNthOrderBrentSolver(CLOSE_HOURS, ORDER)
            .solve(
                MAX_EVALUATIONS,
                hours -> probabilityBy(remaining, tenth, branches, hours, rate) - probability,
                low,
                high,
                AllowedSolution.ABOVE_SIDE));
  }

  private static double probabilityBy(
      int remaining, int tenth, List<Branch> branches, double hours, double rate) {
    double sum = 0;
    double weights = 0;
    for (Branch branch : branches) {
      double perHour =
          branch.heatPerHourLow() + rate * (branch.heatPerHourHigh() - branch.heatPerHourLow());
      double heatThen = branch.heatNow() + hours * perHour;
      Posterior fit = branch.fit();
      List<Posterior.Draw> draws = fit.draws();
      for (Posterior.Draw draw : draws.subList(0, Math.min(DRAWS, draws.size()))) {
        double chance =
            heatThen > branch.heatSeen() ? fit.meets(draw, branch.heatSeen(), heatThen) : 0;
        double weight = branch.weight() * draw.share();
        sum += weight * atLeast(tenth, remaining, chance);
        weights += weight;
      }
    }
    return sum / weights;
  }

  /**
   * P(X ≥ wanted) for X binomial. Adds up the terms below {@code wanted} if they are few, which is
   * faster.
   */
  private static double atLeast(int wanted, int n, double chance) {
    if (wanted > FEW || chance >= 1) {
      return SeedsNeeded.binomialAtLeast(wanted, n, chance);
    }
    double term = Math.exp(n * Math.log1p(-chance));
    double below = term;
    for (int k = 1; k < wanted; k++) {
      term *= (n - k + 1.0) / k * chance / (1 - chance);
      below += term;
    }
    return Math.max(0, 1 - below);
  }
}
