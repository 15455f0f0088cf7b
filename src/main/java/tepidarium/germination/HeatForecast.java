package tepidarium.germination;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import tepidarium.stats.Posterior;

/**
 * When the next tenth of the remaining seeds will have germinated, if heat goes on as it did. It
 * carries in how uncertain the fit is, the luck of so few seeds, and how uncertain the heat is.
 *
 * @param seeds how many that tenth is, rounded up, at least 1
 * @param hours from now until then, as likely later as earlier
 * @param earliestHours with 2.5 % earlier
 * @param latestHours with 2.5 % later; none where it may never come
 */
public record HeatForecast(
    int seeds, double hours, double earliestHours, OptionalDouble latestHours) {
  private static final double LONGEST_HOURS = 24 * 365.0;
  private static final double TAIL = 0.025;
  private static final double CLOSE_HOURS = 0.02;
  private static final int FEW = 30;

  /** The first draws of the net are spread like all of it. */
  private static final int DRAWS = 250;

  /**
   * One base temperature that the counts allow, with what follows from it.
   *
   * @param weight how likely it is, in any unit
   * @param fit of the counts by degree-hours above this base
   * @param heatSeen degree-hours received when the seeds were last seen ungerminated, °C·h
   * @param heatNow degree-hours received so far, °C·h, no less than that
   * @param heatPerHourLow the least that it goes on with, °C
   * @param heatPerHourHigh the most that it goes on with, °C
   */
  public record Branch(
      double weight,
      Posterior fit,
      double heatSeen,
      double heatNow,
      double heatPerHourLow,
      double heatPerHourHigh) {}

  /**
   * None where the tenth is more likely never to come, or no heat comes in.
   *
   * @param remaining seeds that were sound and had not germinated when last seen, at least 1; some
   *     may have germinated since
   * @param branches at least one; several where the base temperature is uncertain
   */
  public static Optional<HeatForecast> of(int remaining, List<Branch> branches) {
    if (remaining < 1 || branches.isEmpty()) {
      throw new IllegalArgumentException("seeds and a fit are needed");
    }
    int tenth = (remaining + 9) / 10;
    OptionalDouble middle = when(remaining, tenth, branches, 0.5, 0.5);
    OptionalDouble early = when(remaining, tenth, branches, TAIL, 1);
    if (middle.isEmpty() || early.isEmpty()) {
      return Optional.empty();
    }
    return Optional.of(
        new HeatForecast(
            tenth,
            middle.getAsDouble(),
            early.getAsDouble(),
            when(remaining, tenth, branches, 1 - TAIL, 0)));
  }

  /**
   * The hours after which the tenth has come with a probability, at a rate between low and high.
   */
  private static OptionalDouble when(
      int remaining, int tenth, List<Branch> branches, double probability, double rate) {
    if (come(remaining, tenth, branches, 0, rate) >= probability) {
      return OptionalDouble.of(0);
    }
    if (come(remaining, tenth, branches, LONGEST_HOURS, rate) < probability) {
      return OptionalDouble.empty();
    }
    double low = 0;
    double high = 1;
    while (high < LONGEST_HOURS && come(remaining, tenth, branches, high, rate) < probability) {
      low = high;
      high = Math.min(LONGEST_HOURS, 2 * high);
    }
    while (high - low > CLOSE_HOURS) {
      double hours = (low + high) / 2;
      if (come(remaining, tenth, branches, hours, rate) < probability) {
        low = hours;
      } else {
        high = hours;
      }
    }
    return OptionalDouble.of(high);
  }

  private static double come(
      int remaining, int tenth, List<Branch> branches, double hours, double rate) {
    double sum = 0;
    double weights = 0;
    for (Branch branch : branches) {
      double perHour =
          branch.heatPerHourLow() + rate * (branch.heatPerHourHigh() - branch.heatPerHourLow());
      double then = branch.heatNow() + hours * perHour;
      Posterior fit = branch.fit();
      List<Posterior.Draw> draws = fit.draws();
      for (Posterior.Draw draw : draws.subList(0, Math.min(DRAWS, draws.size()))) {
        double chance = then > branch.heatSeen() ? fit.meets(draw, branch.heatSeen(), then) : 0;
        double weight = branch.weight() * draw.share();
        sum += weight * atLeast(tenth, remaining, chance);
        weights += weight;
      }
    }
    return sum / weights;
  }

  /** P(X ≥ wanted); the few terms below are added up, which is much quicker for a few. */
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
