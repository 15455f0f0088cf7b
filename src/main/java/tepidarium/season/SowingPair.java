package tepidarium.season;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.OptionalLong;
import org.jspecify.annotations.Nullable;
import tepidarium.stats.ProportionDifference;

/**
 * A comparison of two sowings of one species; the difference is first less second.
 *
 * @param difference difference of the germinated fractions, with Newcombe's interval (1998)
 * @param fisherP two-sided p of Fisher's exact test
 * @param seedsEach seeds needed in each sowing to find this difference with a power of 80 %; null
 *     if the fractions are equal
 * @param fewestSeeds checked seeds of the sowing with fewer of them
 * @param firstDays mean time for which the remaining seeds of the first sowing were watched, days
 * @param secondDays mean time for which the remaining seeds of the second sowing were watched, days
 */
public record SowingPair(
    long first,
    String firstName,
    long second,
    String secondName,
    String speciesName,
    EstimateWithLimits difference,
    double fisherP,
    @Nullable Long seedsEach,
    int fewestSeeds,
    double firstDays,
    double secondDays) {
  /** Below this ratio of their times, the sowings count as watched for different times. */
  private static final double EVENLY = 0.8;

  /** At most this many pairs are shown. */
  static final int MAX_PAIRS = 12;

  /** Whether one sowing had clearly less time to germinate. */
  boolean uneven() {
    return Math.min(firstDays, secondDays) < EVENLY * Math.max(firstDays, secondDays);
  }

  /** All pairs of sowings of one species in which both have checked seeds. */
  static List<SowingPair> all(List<SowingResult> sowings) {
    List<SowingPair> pairs = new ArrayList<>();
    for (int i = 0; i < sowings.size(); i++) {
      for (int j = i + 1; j < sowings.size(); j++) {
        SowingResult first = sowings.get(i);
        SowingResult second = sowings.get(j);
        Double firstDays = first.watchedDays();
        Double secondDays = second.watchedDays();
        boolean bothChecked = first.lookedAt() > 0 && second.lookedAt() > 0;
        if (first.species().equals(second.species())
            && bothChecked
            && firstDays != null
            && secondDays != null) {
          pairs.add(of(first, firstDays, second, secondDays));
        }
      }
    }
    return List.copyOf(pairs);
  }

  /**
   * The pairs with the most seeds. The choice must not depend on the results, which would bias it.
   */
  static List<SowingPair> shown(List<SowingPair> all) {
    return all.stream()
        .sorted(Comparator.comparingInt(SowingPair::fewestSeeds).reversed())
        .limit(MAX_PAIRS)
        .toList();
  }

  private static SowingPair of(
      SowingResult first, double firstDays, SowingResult second, double secondDays) {
    ProportionDifference comparison =
        new ProportionDifference(first.proportion(), second.proportion());
    OptionalLong needed = comparison.trialsEachForPower80();
    return new SowingPair(
        first.sowing(),
        first.name(),
        second.sowing(),
        second.name(),
        first.speciesName(),
        EstimateWithLimits.of(comparison.difference(), comparison.newcombe()),
        comparison.fisherP(),
        needed.isPresent() ? needed.getAsLong() : null,
        Math.min(first.lookedAt(), second.lookedAt()),
        firstDays,
        secondDays);
  }
}
