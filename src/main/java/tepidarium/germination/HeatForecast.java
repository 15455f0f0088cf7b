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

  /**
   * One base temperature that the counts allow, with what follows from it.
   *
   * @param weight how likely it is, in any unit
   * @param fit of the counts by degree-hours above this base
   * @param heatNow degree-hours received so far, °C·h, above 0
   * @param heatPerHourLow the least that it goes on with, °C
   * @param heatPerHourHigh the most that it goes on with, °C
   */
  public record Branch(
      double weight,
      Posterior fit,
      double heatNow,
      double heatPerHourLow,
      double heatPerHourHigh) {}

  /**
   * None where the tenth is more likely never to come, or no heat comes in.
   *
   * @param remaining sound seeds that have not germinated, at least 1
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
    if (come(remaining, tenth, branches, LONGEST_HOURS, rate) < probability) {
      return OptionalDouble.empty();
    }
    double low = 0;
    double high = LONGEST_HOURS;
    while (high - low > 0.01) {
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
      double come =
          branch
              .fit()
              .mean(
                  d ->
                      SeedsNeeded.binomialAtLeast(
                          tenth, remaining, branch.fit().meets(d, branch.heatNow(), then)));
      sum += branch.weight() * come;
      weights += branch.weight();
    }
    return sum / weights;
  }
}
