package tepidarium.season;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.OptionalLong;
import org.jspecify.annotations.Nullable;
import tepidarium.stats.ProportionDifference;

/**
 * Two sowings of one species against each other; differences are first less second.
 *
 * @param difference of the germinated fractions, with the interval of Newcombe (1998)
 * @param fisherP Fisher's exact test, two-sided
 * @param seedsEach how many each would have needed to find such a difference in four of five
 *     trials; null where there is none
 * @param fewestSeeds looked at, of the one with fewer of them
 * @param firstDays for how long the remaining seeds of the first one were watched, days
 * @param secondDays the same of the second one
 */
public record SowingPair(
    long first,
    String firstName,
    long second,
    String secondName,
    String speciesName,
    Interval difference,
    double fisherP,
    @Nullable Long seedsEach,
    int fewestSeeds,
    double firstDays,
    double secondDays) {
  /** One watched for less than this part of the other's time is told to have had less time. */
  private static final double EVENLY = 0.8;

  /** More than a page can hold, and than a reader can weigh. */
  static final int MOST = 12;

  /** Whether one of them had clearly less time to germinate. */
  boolean uneven() {
    return Math.min(firstDays, secondDays) < EVENLY * Math.max(firstDays, secondDays);
  }

  /**
   * Every two sowings of a species that were both looked at. Where there are too many, those with
   * the most seeds: which ones are shown must not hang on what came of them.
   */
  static List<SowingPair> all(List<SowingResult> sowings) {
    List<SowingPair> pairs = new ArrayList<>();
    for (int i = 0; i < sowings.size(); i++) {
      for (int j = i + 1; j < sowings.size(); j++) {
        SowingResult first = sowings.get(i);
        SowingResult second = sowings.get(j);
        Double firstDays = first.watchedDays();
        Double secondDays = second.watchedDays();
        boolean looked = first.lookedAt() > 0 && second.lookedAt() > 0;
        if (first.species().equals(second.species())
            && looked
            && firstDays != null
            && secondDays != null) {
          pairs.add(of(first, firstDays, second, secondDays));
        }
      }
    }
    return List.copyOf(pairs);
  }

  static List<SowingPair> shown(List<SowingPair> all) {
    return all.stream()
        .sorted(Comparator.comparingInt(SowingPair::fewestSeeds).reversed())
        .limit(MOST)
        .toList();
  }

  private static SowingPair of(
      SowingResult first, double firstDays, SowingResult second, double secondDays) {
    ProportionDifference both = new ProportionDifference(first.proportion(), second.proportion());
    OptionalLong needed = both.trialsEachForPower80();
    return new SowingPair(
        first.sowing(),
        first.name(),
        second.sowing(),
        second.name(),
        first.speciesName(),
        Interval.of(both.difference(), both.newcombe()),
        both.fisherP(),
        needed.isPresent() ? needed.getAsLong() : null,
        Math.min(first.lookedAt(), second.lookedAt()),
        firstDays,
        secondDays);
  }
}
