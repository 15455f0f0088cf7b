package tepidarium.season;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import tepidarium.stats.Proportion;

/** All sowings of one species taken together. */
public record SpeciesResult(
    String species, String name, int sowings, int sown, int germinated, Interval fraction) {
  /** One of each species, in the order in which they were first sown. */
  static List<SpeciesResult> of(List<SowingResult> sowings) {
    Map<String, List<SowingResult>> bySpecies = new LinkedHashMap<>();
    sowings.forEach(
        one -> bySpecies.computeIfAbsent(one.species(), id -> new ArrayList<>()).add(one));
    return bySpecies.values().stream().map(SpeciesResult::together).toList();
  }

  private static SpeciesResult together(List<SowingResult> sowings) {
    int sown = sowings.stream().mapToInt(SowingResult::seeds).sum();
    int germinated = sowings.stream().mapToInt(SowingResult::germinated).sum();
    Proportion all = new Proportion(germinated, sown);
    return new SpeciesResult(
        sowings.get(0).species(),
        sowings.get(0).speciesName(),
        sowings.size(),
        sown,
        germinated,
        Interval.of(all.fraction(), all.wilson()));
  }

  Proportion proportion() {
    return new Proportion(germinated, sown);
  }
}
