package tepidarium.season;

import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * A season on one page.
 *
 * @param earlierSowings that were sown before it and still had seeds in a container; not counted
 *     among the sowings
 * @param species the sowings taken together by species
 * @param containers that held seeds or were measured
 * @param heat null where no container with seeds was measured
 * @param pairs sowings of one species against each other
 * @param pairsLeftOut how many more pairs there were than are shown
 * @param heatSources null where there were not two to compare
 * @param earlier kept seasons that ended before this one began, the latest first
 * @param lessons the costliest first
 */
public record SeasonReport(
    Instant from,
    Instant to,
    List<SowingResult> sowings,
    int earlierSowings,
    List<SpeciesResult> species,
    List<ContainerResult> containers,
    @Nullable SeasonHeat heat,
    List<SowingPair> pairs,
    int pairsLeftOut,
    @Nullable SourceComparison heatSources,
    List<EarlierSeason> earlier,
    List<Lesson> lessons) {
  public SeasonReport {
    sowings = List.copyOf(sowings);
    species = List.copyOf(species);
    containers = List.copyOf(containers);
    pairs = List.copyOf(pairs);
    earlier = List.copyOf(earlier);
    lessons = List.copyOf(lessons);
  }

  /**
   * Compares what was found, and draws the lessons.
   *
   * @param kept seasons to compare with, the latest first
   */
  public static SeasonReport of(
      Instant from,
      Instant to,
      List<SowingResult> sowings,
      int earlierSowings,
      List<ContainerResult> containers,
      @Nullable SeasonHeat heat,
      @Nullable SourceComparison heatSources,
      List<EarlierSeason.Figures> kept) {
    List<SpeciesResult> species = SpeciesResult.of(sowings);
    List<SowingPair> all = SowingPair.all(sowings);
    List<SowingPair> shown = SowingPair.shown(all);
    List<EarlierSeason> earlier =
        kept.stream().map(then -> EarlierSeason.of(then, species, heat)).toList();
    return new SeasonReport(
        from,
        to,
        sowings,
        earlierSowings,
        species,
        containers,
        heat,
        shown,
        all.size() - shown.size(),
        heatSources,
        earlier,
        Lessons.of(sowings, containers, shown, heatSources, earlier));
  }
}
