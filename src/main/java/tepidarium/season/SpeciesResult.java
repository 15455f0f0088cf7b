package tepidarium.season;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import tepidarium.stats.Proportion;

/**
 * The result of all sowings of one species.
 *
 * @param unchecked seeds that were never checked
 * @param germinated germinated seeds of the checked ones
 * @param fraction germinated fraction of the checked seeds, with Wilson's interval; null if none
 *     were checked
 */
public record SpeciesResult(
    String species,
    String name,
    int sowings,
    int sown,
    int unchecked,
    int germinated,
    @Nullable EstimateWithLimits fraction) {
  /** The results by species, in the order of their first sowing. */
  static List<SpeciesResult> of(List<SowingResult> sowings) {
    Map<String, List<SowingResult>> bySpecies = new LinkedHashMap<>();
    sowings.forEach(
        sowing -> bySpecies.computeIfAbsent(sowing.species(), id -> new ArrayList<>()).add(sowing));
    return bySpecies.values().stream().map(SpeciesResult::merged).toList();
  }

  private static SpeciesResult merged(List<SowingResult> sowings) {
    int sown = 0;
    int unchecked = 0;
    int germinated = 0;
    for (SowingResult sowing : sowings) {
      sown += sowing.seeds();
      unchecked += sowing.notLookedAt();
      germinated += sowing.germinated();
    }
    Proportion all = sown == unchecked ? null : new Proportion(germinated, sown - unchecked);
    return new SpeciesResult(
        sowings.get(0).species(),
        sowings.get(0).speciesName(),
        sowings.size(),
        sown,
        unchecked,
        germinated,
        all == null ? null : EstimateWithLimits.of(all.fraction(), all.wilson()));
  }

  /** The number of checked seeds. */
  int checked() {
    return sown - unchecked;
  }
}
