package tepidarium.season;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import tepidarium.stats.Proportion;

/**
 * All sowings of one species taken together.
 *
 * @param unchecked seeds that nobody looked at yet; nothing is known of them
 * @param germinated of the others
 * @param fraction of the others, with the interval after Wilson; null where there are none
 */
public record SpeciesResult(
    String species,
    String name,
    int sowings,
    int sown,
    int unchecked,
    int germinated,
    @Nullable Interval fraction) {
  /** One of each species, in the order in which they were first sown. */
  static List<SpeciesResult> of(List<SowingResult> sowings) {
    Map<String, List<SowingResult>> bySpecies = new LinkedHashMap<>();
    sowings.forEach(
        one -> bySpecies.computeIfAbsent(one.species(), id -> new ArrayList<>()).add(one));
    return bySpecies.values().stream().map(SpeciesResult::together).toList();
  }

  private static SpeciesResult together(List<SowingResult> sowings) {
    int sown = 0;
    int unchecked = 0;
    int germinated = 0;
    for (SowingResult one : sowings) {
      sown += one.seeds();
      unchecked += one.notLookedAt();
      germinated += one.germinated();
    }
    Proportion all = sown == unchecked ? null : new Proportion(germinated, sown - unchecked);
    return new SpeciesResult(
        sowings.get(0).species(),
        sowings.get(0).speciesName(),
        sowings.size(),
        sown,
        unchecked,
        germinated,
        all == null ? null : Interval.of(all.fraction(), all.wilson()));
  }

  /** Seeds that were looked at. */
  int checked() {
    return sown - unchecked;
  }
}
