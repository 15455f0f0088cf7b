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
    int fewestSeeds) {
  /** More than a page can hold, and than a reader can weigh. */
  static final int MOST = 12;

  /**
   * Every two sowings of a species. Where there are too many, those with the most seeds: which ones
   * are shown must not hang on what came of them.
   */
  static List<SowingPair> all(List<SowingResult> sowings) {
    List<SowingPair> pairs = new ArrayList<>();
    for (int i = 0; i < sowings.size(); i++) {
      for (int j = i + 1; j < sowings.size(); j++) {
        if (sowings.get(i).species().equals(sowings.get(j).species())) {
          pairs.add(of(sowings.get(i), sowings.get(j)));
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

  private static SowingPair of(SowingResult first, SowingResult second) {
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
        Math.min(first.seeds(), second.seeds()));
  }
}
